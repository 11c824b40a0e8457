//! Ten thousand specs, inspected and only parsed, in one run: `cargo bench -p pintle --bench bulk`.
//!
//! Prints the time of `pintle inspect --format plain` as a ratio to reading and parsing the same files alone, on one
//! thread and on all; its greatest memory; and the time to start on one spec. Ratios of one run can be compared
//! between machines; seconds cannot. Nothing is asserted.

#![expect(clippy::print_stdout, reason = "a bench prints what it measured")]
#![expect(clippy::cast_precision_loss, reason = "sizes and counts are small")]
#![expect(clippy::disallowed_methods, reason = "a bench reads files and the clock")]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

const SPECS: usize = 10_000;
const ROUNDS: usize = 3;

type Whatever<T> = Result<T, Box<dyn std::error::Error>>;

fn main() -> Whatever<()> {
    let specs =
        std::env::var("PINTLE_BENCH_SPECS").ok().and_then(|count| count.parse().ok()).unwrap_or(SPECS);
    let folder = tempfile::tempdir()?;
    let files = generate(folder.path(), specs)?;
    let bytes: u64 = files.iter().filter_map(|file| fs::metadata(file).ok()).map(|meta| meta.len()).sum();
    println!(
        "{} specs of {} bytes on average, {ROUNDS} rounds, the median of each",
        files.len(),
        bytes / files.len() as u64
    );

    let parse = median(|| parse_all(&files))?;
    let one = median(|| Ok(inspect(folder.path(), "1")?.0))?;
    let all = median(|| Ok(inspect(folder.path(), "0")?.0))?;
    let memory = inspect(folder.path(), "0")?.1;
    let ratio = |time: Duration| time.as_secs_f64() / parse.as_secs_f64();
    println!("parse alone, one thread       {:>8.3} s   1.00", parse.as_secs_f64());
    println!("inspect, one thread           {:>8.3} s   {:.2} × parse", one.as_secs_f64(), ratio(one));
    println!("inspect, all threads          {:>8.3} s   {:.2} × parse", all.as_secs_f64(), ratio(all));
    if let Some(kilobytes) = memory {
        let share = kilobytes as f64 * 1024.0 / bytes as f64;
        println!(
            "greatest memory of inspect    {:>8.1} MiB {share:.2} × the bytes of the specs",
            kilobytes as f64 / 1024.0
        );
    }
    let first = files.first().ok_or("no specs")?;
    let start = median(|| timed(Command::new(program()).args(["inspect", "--format", "plain"]).arg(first)))?;
    let version = median(|| timed(Command::new(program()).arg("--version")))?;
    println!(
        "inspect of one spec           {:>8.1} ms  {:.2} × `--version`",
        start.as_secs_f64() * 1e3,
        start.as_secs_f64() / version.as_secs_f64()
    );
    Ok(())
}

/// A shop with its stock and so many specs: the demo's, with masses and places changed.
fn generate(folder: &Path, specs: usize) -> Whatever<Vec<PathBuf>> {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../specs");
    fs::copy(demo.join("pintle.toml"), folder.join("pintle.toml"))?;
    fs::create_dir(folder.join("stock"))?;
    for entry in fs::read_dir(demo.join("stock"))? {
        let entry = entry?;
        fs::copy(entry.path(), folder.join("stock").join(entry.file_name()))?;
    }
    let mut builds: Vec<PathBuf> =
        fs::read_dir(demo.join("builds"))?.filter_map(|entry| Some(entry.ok()?.path())).collect();
    builds.sort();
    fs::create_dir(folder.join("builds"))?;
    let mut files = Vec::with_capacity(specs);
    for (number, build) in builds.iter().cycle().take(specs).enumerate() {
        let text = fs::read_to_string(build)?;
        let text = text.replace("mass = \"100 lb\"", &format!("mass = \"{} lb\"", 60 + number % 80));
        let file = folder.join("builds").join(format!("b{number:05}.toml"));
        fs::write(&file, text)?;
        files.push(file);
    }
    Ok(files)
}

fn parse_all(files: &[PathBuf]) -> Whatever<Duration> {
    let begun = Instant::now();
    let mut tables = 0;
    for file in files {
        let text = fs::read_to_string(file)?;
        let (table, errors) = toml::de::DeTable::parse_recoverable(&text);
        tables += usize::from(errors.is_empty()) + table.get_ref().len();
    }
    std::hint::black_box(tables);
    Ok(begun.elapsed())
}

fn program() -> &'static str {
    env!("CARGO_BIN_EXE_pintle")
}

/// Time and, where the system says, the greatest memory in KiB of one inspection.
fn inspect(folder: &Path, threads: &str) -> Whatever<(Duration, Option<u64>)> {
    let begun = Instant::now();
    let mut child = Command::new(program())
        .args(["inspect", "--format", "plain", "--threads", threads])
        .arg(folder.join("builds"))
        .stdout(Stdio::null())
        .spawn()?;
    let mut memory = None;
    while child.try_wait()?.is_none() {
        memory = greatest(child.id()).or(memory);
        std::thread::sleep(Duration::from_millis(5));
    }
    Ok((begun.elapsed(), memory))
}

fn greatest(process: u32) -> Option<u64> {
    let status = fs::read_to_string(format!("/proc/{process}/status")).ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    line.trim().trim_end_matches(" kB").parse().ok()
}

fn timed(command: &mut Command) -> Whatever<Duration> {
    let begun = Instant::now();
    command.stdout(Stdio::null()).status()?;
    Ok(begun.elapsed())
}

fn median(mut run: impl FnMut() -> Whatever<Duration>) -> Whatever<Duration> {
    let mut times = (0..ROUNDS).map(|_| run()).collect::<Whatever<Vec<Duration>>>()?;
    times.sort();
    times.get(ROUNDS / 2).copied().ok_or_else(|| "no rounds".into())
}
