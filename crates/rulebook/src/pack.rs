//! The files of packs: the built-in ones, embedded, and how a shop's own are handed in.

use include_dir::{Dir, include_dir};

static RULES: Dir<'static> = include_dir!("$CARGO_MANIFEST_DIR/../../rules");

/// The demo shop: its builds are what trials start from, its stock what they are built of.
static SPECS: Dir<'static> = include_dir!("$CARGO_MANIFEST_DIR/../../specs");

/// The files of one pack.
#[derive(Debug, Clone)]
pub struct PackFiles {
    /// The pack's name, the first half of its rules' ids.
    pub name: String,
    /// Whether it came with the tool.
    pub builtin: bool,
    /// Each file's shown name, such as `rules/towing/light-tongue.toml`, and its bytes.
    pub files: Vec<(String, Vec<u8>)>,
}

/// The built-in packs, by name.
pub fn builtin_packs() -> Vec<PackFiles> {
    let mut packs: Vec<PackFiles> = RULES
        .dirs()
        .filter(|dir| !DATA.iter().any(|name| dir.path() == std::path::Path::new(name)))
        .map(|dir| PackFiles {
            name: dir.path().to_string_lossy().into_owned(),
            builtin: true,
            files: files(dir, "rules"),
        })
        .collect();
    packs.sort_by(|left, right| left.name.cmp(&right.name));
    packs
}

/// Folders beside the packs that hold data rather than rules.
const DATA: &[&str] = &["assumptions", "bases", "places"];

/// The files of a folder of data, by name: name and bytes.
pub(crate) fn builtin_data(folder: &str) -> Vec<(String, Vec<u8>)> {
    RULES.get_dir(folder).map(|dir| files(dir, "rules")).unwrap_or_default()
}

/// The built-in table of tolerances: name and bytes.
pub(crate) fn builtin_tolerances() -> Option<(String, Vec<u8>)> {
    files(&RULES, "rules").into_iter().find(|(name, _)| name == "rules/tolerances.toml")
}

/// The built-in list of checks that only eyes can make: name and bytes.
pub(crate) fn builtin_by_eye() -> Option<(String, Vec<u8>)> {
    files(&RULES, "rules").into_iter().find(|(name, _)| name == "rules/by-eye.toml")
}

/// The specs that trials start from, and the stock they are built of: name and bytes. Those that are no builds of the
/// demo shop stand with the rules.
pub fn trial_bases() -> Vec<(String, Vec<u8>)> {
    let folders = ["stock", "builds"].into_iter().filter_map(|name| SPECS.get_dir(name));
    let mut bases: Vec<(String, Vec<u8>)> = folders.flat_map(|dir| files(dir, "specs")).collect();
    bases.extend(builtin_data("bases"));
    bases
}

fn files(dir: &Dir<'static>, root: &str) -> Vec<(String, Vec<u8>)> {
    let mut files: Vec<(String, Vec<u8>)> = dir
        .files()
        .map(|file| (format!("{root}/{}", file.path().to_string_lossy()), file.contents().to_vec()))
        .collect();
    files.sort();
    files
}
