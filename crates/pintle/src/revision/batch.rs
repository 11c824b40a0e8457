//! One git that hands out the contents of files, one after another.

use std::io::{self, BufRead, BufReader, Read, Write};
use std::process::{Child, ChildStdin, ChildStdout, Stdio};

use camino::Utf8Path;

use super::git;

/// The longest first line of an answer: a number, a type and a size.
const LONGEST_HEAD: u64 = 256;

/// A running `git cat-file --batch`.
#[derive(Debug)]
pub(super) struct Batch {
    child: Child,
    to: Option<ChildStdin>,
    from: Option<BufReader<ChildStdout>>,
}

/// What git gives for a number.
#[derive(Debug)]
pub(super) enum Blob {
    /// The file's bytes.
    Bytes(Vec<u8>),
    /// A file of so many bytes, too large to be one of ours.
    TooLarge(u64),
    /// This copy of the repository does not hold it.
    Missing,
}

impl Batch {
    /// Starts it in a folder of the repository.
    pub(super) fn start(folder: &Utf8Path) -> io::Result<Self> {
        let mut git = git(folder);
        git.args(["cat-file", "--batch"]).stdin(Stdio::piped()).stderr(Stdio::null());
        let mut child = git.spawn()?;
        let (to, from) = (child.stdin.take(), child.stdout.take().map(BufReader::new));
        Ok(Self { child, to, from })
    }

    /// The file under a number, which is all hexadecimal digits.
    pub(super) fn read(&mut self, number: &str) -> io::Result<Blob> {
        let (Some(to), Some(from)) = (&mut self.to, &mut self.from) else {
            return Err(io::ErrorKind::BrokenPipe.into());
        };
        writeln!(to, "{number}")?;
        to.flush()?;
        let mut head = String::new();
        from.by_ref().take(LONGEST_HEAD).read_line(&mut head)?;
        let mut facts = head.split_ascii_whitespace();
        let (of, sort, size) = (facts.next(), facts.next(), facts.next());
        if of != Some(number) {
            return Err(io::Error::other("its answer is not understood"));
        }
        let Some(size) = size.and_then(|size| size.parse::<u64>().ok()).filter(|_| sort == Some("blob"))
        else {
            return Ok(Blob::Missing);
        };
        let most = u64::try_from(pintle_source::MAX_BYTES).unwrap_or(u64::MAX);
        let mut bytes = Vec::new();
        let took = if size > most {
            io::copy(&mut from.by_ref().take(size), &mut io::sink())?
        } else {
            u64::try_from(from.by_ref().take(size).read_to_end(&mut bytes)?).unwrap_or(0)
        };
        // A line end closes each answer.
        let closed = from.by_ref().take(1).read_to_end(&mut Vec::new())?;
        if took != size || closed != 1 {
            return Err(io::ErrorKind::UnexpectedEof.into());
        }
        Ok(if size > most { Blob::TooLarge(size) } else { Blob::Bytes(bytes) })
    }
}

impl Drop for Batch {
    /// Without its pipes git ends by itself.
    fn drop(&mut self) {
        self.to = None;
        self.from = None;
        let _ = self.child.wait();
    }
}
