//! A page printed into a PDF by a Chromium that is installed. The page is written into a folder of its own for it, the
//! browser has a profile of its own and reaches nothing, and what it printed is moved into place.

use std::path::PathBuf;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use camino::Utf8Path;
use pintle_finding::Problem;

use crate::files;
use crate::product::{self, Product};

/// Names under which Chromium is installed.
const NAMES: &[&str] = &["chromium", "chromium-browser"];
/// The variable that names another.
const VARIABLE: &str = "PINTLE_CHROMIUM";
/// How long printing may take.
const PATIENCE: Duration = Duration::from_secs(120);

const PDF: Product<'_> =
    Product { called: "PDF", such_as: "sheet.pdf", ours: &|opening| opening.starts_with("%PDF-") };

/// Prints a page into a PDF file.
pub(super) fn save(path: &Utf8Path, page: &str) -> Result<(), Problem> {
    let browser = browser()?;
    let failed = |why: &str| {
        Problem::new("cannot-print", format!("`{}` did not print the sheet: {why}", browser.display()))
            .help("make the page without `--pdf`, open it and print it from there")
    };
    let folder = tempfile::Builder::new().prefix("pintle-").tempdir();
    let folder = folder.map_err(|error| failed(&files::reason(&error)))?;
    let (html, pdf) = (folder.path().join("sheet.html"), folder.path().join("sheet.pdf"));
    write(&html, page).map_err(|error| failed(&files::reason(&error)))?;
    let mut command = command(&browser);
    command
        .args(["--headless", "--disable-gpu", "--no-first-run", "--disable-background-networking"])
        .args(["--disable-component-update", "--disable-sync", "--no-pdf-header-footer"])
        .arg(format!("--user-data-dir={}", folder.path().join("profile").display()))
        .arg(format!("--print-to-pdf={}", pdf.display()));
    if rustix::process::geteuid().is_root() {
        // Chromium refuses to run as root otherwise; the page holds no script but ours, and reaches nothing.
        command.arg("--no-sandbox");
    }
    command.arg(&html).stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
    let mut child = command.spawn().map_err(|error| failed(&files::reason(&error)))?;
    wait(&mut child).map_err(failed)?;
    let printed = read(&pdf).map_err(|_| failed("it made no file"))?;
    if !printed.starts_with(b"%PDF-") {
        return Err(failed("what it made is no PDF"));
    }
    product::save_bytes(path, &printed, &PDF)
}

/// Waits until a browser has ended; one that takes too long is stopped.
fn wait(child: &mut std::process::Child) -> Result<(), &'static str> {
    let begun = now();
    loop {
        match child.try_wait() {
            Ok(Some(status)) if status.success() => return Ok(()),
            Ok(Some(_)) => return Err("it ended with a fault"),
            Ok(None) if begun.elapsed() > PATIENCE => {
                let _ = child.kill();
                let _ = child.wait();
                return Err("it took more than two minutes");
            }
            Ok(None) => std::thread::sleep(Duration::from_millis(20)),
            Err(_) => return Err("it cannot be waited for"),
        }
    }
}

/// The browser: what the variable names, else the first of its names on the path.
fn browser() -> Result<PathBuf, Problem> {
    if let Some(stated) = environment(VARIABLE).filter(|stated| !stated.is_empty()) {
        let stated = PathBuf::from(stated);
        return if stated.is_file() {
            Ok(stated)
        } else {
            Err(Problem::new(
                "no-browser",
                format!("`{VARIABLE}` names `{}`, which is no file", stated.display()),
            )
            .help("let it name the Chromium that is installed, or take it away"))
        };
    }
    let folders: Vec<PathBuf> =
        environment("PATH").map(|path| std::env::split_paths(&path).collect()).unwrap_or_default();
    let places = NAMES.iter().flat_map(|name| folders.iter().map(move |folder| folder.join(name)));
    places.into_iter().find(|place| place.is_file()).ok_or_else(|| {
        Problem::new("no-browser", "a PDF is printed by Chromium, and none is installed here").help(format!(
            "install Chromium, or name it in `{VARIABLE}`; or make the page without `--pdf` and print it from any browser"
        ))
    })
}

#[expect(clippy::disallowed_methods, reason = "this is the room that reads the environment")]
fn environment(name: &str) -> Option<std::ffi::OsString> {
    std::env::var_os(name)
}

#[expect(clippy::disallowed_methods, reason = "this is the room that starts another program")]
fn command(program: &std::path::Path) -> Command {
    Command::new(program)
}

#[expect(clippy::disallowed_methods, reason = "this is the room that touches files")]
fn write(path: &std::path::Path, text: &str) -> std::io::Result<()> {
    std::fs::write(path, text)
}

#[expect(clippy::disallowed_methods, reason = "this is the room that touches files")]
fn read(path: &std::path::Path) -> std::io::Result<Vec<u8>> {
    std::fs::read(path)
}

#[expect(clippy::disallowed_methods, reason = "this is the room that reads the clock")]
fn now() -> Instant {
    Instant::now()
}
