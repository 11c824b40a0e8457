//! `pintle walk`: the sheet of one spec on loopback, with the record to be filled in round the trailer. The one place
//! where the tool opens a socket.

mod answer;
mod desk;
mod door;
mod faults;
mod lay;
mod merge;
mod serve;
mod tree;

use std::fmt::Write as _;
use std::net::{Ipv4Addr, TcpListener};

use camino::Utf8Path;
use pintle_finding::Problem;
use pintle_report::safe;
use pintle_source::Sources;
use sha2::{Digest as _, Sha256};

use crate::call::{Call, Walk};
use crate::exit::Exit;
use crate::files::{self, Root};
use crate::inspect::{Job, load};
use crate::print;
use crate::shop::Shops;

/// The ports from which a spec has its own: below those that systems lend out by themselves.
const FIRST_PORT: u16 = 20_000;
const PORTS: u16 = 10_000;
/// Requests that wait at the desk; more are refused.
const MOST_WAITING: usize = 8;

/// Runs the command.
pub(crate) fn run(call: &Call, walk: &Walk) -> Exit {
    match begun(call, walk) {
        Ok(()) => Exit::Released,
        Err((problems, sources)) => {
            print::Aside::new(print::look(call)).say(&problems, &sources);
            Exit::Wrong
        }
    }
}

fn begun(call: &Call, walk: &Walk) -> Result<(), (Vec<Problem>, Sources)> {
    let alone = |problem: Problem| (vec![problem], Sources::new());
    check(call, &walk.spec)?;
    let (listener, port) = listener(walk).map_err(alone)?;
    let door = door::Door::new(token().map_err(alone)?, port);
    print::out(&format!(
        "the walk of `{}` is at\n\n  {}\n\nopen it in a browser on this machine; stop with Ctrl-C\n",
        safe::line(&files::shown(&walk.spec)),
        door.address()
    ));
    let (desk, asks) = std::sync::mpsc::sync_channel(MOST_WAITING);
    let served = std::thread::scope(|scope| {
        scope.spawn(|| {
            let asks = asks;
            desk::work(call, &walk.spec, &asks);
        });
        let served = serve::serve(listener, door, &desk);
        // Nobody asks any more: the desk closes.
        drop(desk);
        served
    });
    served.map_err(|error| {
        alone(Problem::new("no-server", format!("the server stopped: {}", files::reason(&error))))
    })?;
    print::out("the walk has ended\n");
    Ok(())
}

/// A spec that cannot be read, or whose shop cannot, is not walked round.
fn check(call: &Call, spec: &Utf8Path) -> Result<(), (Vec<Problem>, Sources)> {
    let alone = |problem: Problem| (vec![problem], Sources::new());
    if spec.is_dir() {
        let problem = Problem::new("no-specs", format!("`{spec}` is a folder"));
        return Err(alone(problem.help("name one spec file: the record is written into it")));
    }
    let job = Job {
        path: spec.to_owned(),
        root: Root::Working,
        shop: Shops::new(call.rulebook.as_deref()).of(spec),
    };
    if !job.shop.problems.is_empty() {
        return Err((job.shop.problems.clone(), job.shop.sources.clone()));
    }
    if job.root.is_in_any(spec, &job.shop.folders) {
        let message = format!("`{spec}` belongs to the stock list, a pack or the rulebook");
        return Err(alone(Problem::new("not-a-spec", message).help("name a spec")));
    }
    let (sources, build, problems) = load(&job);
    if build.is_none() { Err((problems, sources)) } else { Ok(()) }
}

/// A socket on loopback: at the port that was asked for, else at the spec's own.
#[expect(clippy::disallowed_methods, reason = "this is the one place that opens a socket")]
fn listener(walk: &Walk) -> Result<(TcpListener, u16), Problem> {
    let port = walk.port.unwrap_or_else(|| own_port(&walk.spec));
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port)).map_err(|error| {
        if error.kind() == std::io::ErrorKind::AddrInUse {
            Problem::new("port-taken", format!("port {port} of this machine is taken"))
                .help("a walk of the same spec may be running already; else choose another with `--port`")
        } else {
            Problem::new("no-port", format!("port {port} cannot be opened: {}", files::reason(&error)))
                .help("choose another with `--port`")
        }
    })?;
    let port = listener.local_addr().map_or(port, |address| address.port());
    Ok((listener, port))
}

/// A spec's own port. A browser keeps what was typed by host and port, and finds it again where the port is the same.
fn own_port(spec: &Utf8Path) -> u16 {
    let hash = Sha256::digest(desk::key_of(spec).as_str().as_bytes());
    let number = hash.iter().take(8).fold(0_u64, |number, byte| number << 8 | u64::from(*byte));
    FIRST_PORT + u16::try_from(number % u64::from(PORTS)).unwrap_or(0)
}

/// 32 bytes from the system, in letters.
fn token() -> Result<String, Problem> {
    let mut bytes = [0_u8; 32];
    getrandom::fill(&mut bytes)
        .map_err(|error| Problem::new("no-token", format!("the system gives no random bytes: {error}")))?;
    Ok(hex(&bytes))
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().fold(String::new(), |mut letters, byte| {
        let _ = write!(letters, "{byte:02x}");
        letters
    })
}
