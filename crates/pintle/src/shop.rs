//! A shop: its rulebook, its stock and its packs, found from where a spec stands.

use std::collections::BTreeMap;
use std::sync::Arc;

use camino::{Utf8Path, Utf8PathBuf};
use pintle_finding::{Label, Problem, Role, nearest};
use pintle_rulebook::{PackFiles, Rulebook, builtin_packs, read_backlog, read_build_layer};
use pintle_source::{SourceId, Sources, Spanned};
use pintle_spec::{Stock, check_own_of_stock, read_stock};

use crate::clock::since_first_asked;
use crate::files::{self, Root};
use crate::layers::{self, Layers, folder_of};

/// The name of a rulebook file.
pub(crate) const RULEBOOK: &str = "pintle.toml";
/// The word by which a rulebook names all built-in packs at once.
pub(crate) const BUILT_IN: &str = "built-in";
/// How the rulebook of one build is named: as its spec, but with this ending.
const OF_BUILD: &str = ".pintle.toml";

/// A shop, loaded once for all specs under it.
#[derive(Debug)]
pub(crate) struct Shop {
    /// Its rulebook file's name; none where only the built-in packs are in force.
    pub(crate) name: Option<String>,
    /// The folders of its stock and its own packs, and the files of its rulebook, which hold no specs; absolute.
    pub(crate) folders: Vec<Utf8PathBuf>,
    /// Its rulebook, stock and rule files.
    pub(crate) sources: Sources,
    /// Its stock.
    pub(crate) stock: Stock,
    /// The rules in force.
    pub(crate) rulebook: Rulebook,
    /// What is wrong with its files.
    pub(crate) problems: Vec<Problem>,
    /// The file of its known findings, where it names one, and whether it is there.
    pub(crate) backlog: Option<(Utf8PathBuf, bool)>,
    /// The shop as it is for other builds, where one build has a rulebook of its own.
    pub(crate) base: Option<Arc<Shop>>,
}

impl Shop {
    /// Whether anything in its files is more than a warning.
    pub(crate) fn is_wrong(&self) -> bool {
        Problem::any_wrong(&self.problems)
    }

    /// What is wrong with its files and with no other shop's.
    pub(crate) fn own_problems(&self) -> &[Problem] {
        let others = self.base.as_ref().map_or(0, |base| base.problems.len());
        self.problems.get(others..).unwrap_or_default()
    }

    /// The folder of its rulebook; none where only the built-in packs are in force.
    pub(crate) fn root(&self) -> Option<Utf8PathBuf> {
        let folder = Utf8Path::new(self.name.as_deref()?).parent()?;
        Some(if folder.as_str().is_empty() { Utf8PathBuf::from(".") } else { folder.to_owned() })
    }
}

/// Shops by the folder of their rulebook.
#[derive(Debug, Default)]
pub(crate) struct Shops {
    stated: Option<Utf8PathBuf>,
    root: Root,
    loaded: BTreeMap<Option<Utf8PathBuf>, Arc<Shop>>,
    of_builds: BTreeMap<Utf8PathBuf, Arc<Shop>>,
}

impl Shops {
    /// Shops found from each spec, or all specs under one stated rulebook.
    pub(crate) fn new(stated: Option<&Utf8Path>) -> Self {
        Self::at(stated, Root::Working)
    }

    /// The same for specs of a revision, whose shops are taken as they were then. A stated rulebook is the one in the
    /// working tree.
    pub(crate) fn at(stated: Option<&Utf8Path>, root: Root) -> Self {
        Self { stated: stated.map(Utf8Path::to_owned), root, ..Self::default() }
    }

    /// Where the specs of these shops are.
    pub(crate) fn root(&self) -> &Root {
        &self.root
    }

    /// The shop of a file or folder; of a spec that has a rulebook of its own, with that above all.
    pub(crate) fn of(&mut self, path: &Utf8Path) -> Arc<Shop> {
        let shop = self.shop_of(path);
        let Some(file) = of_build(path).filter(|file| self.root.is_file(file)) else { return shop };
        let root = &self.root;
        Arc::clone(
            self.of_builds.entry(file.clone()).or_insert_with(|| Arc::new(with_layer(&shop, &file, root))),
        )
    }

    fn shop_of(&mut self, path: &Utf8Path) -> Arc<Shop> {
        let file = self.stated.clone().or_else(|| nearest_above(path, &self.root));
        // `./pintle.toml` and `pintle.toml` are one.
        let file = file.map(|file| Utf8PathBuf::from(files::shown(&file)));
        if let Some(shop) = self.loaded.get(&file) {
            return Arc::clone(shop);
        }
        let root = if self.stated.is_some() { &Root::Working } else { &self.root };
        let shop = Arc::new(load(file.as_deref(), root));
        self.loaded.insert(file, Arc::clone(&shop));
        shop
    }

    /// Every shop that was needed, those of single builds last.
    pub(crate) fn all(&self) -> impl Iterator<Item = &Arc<Shop>> {
        self.loaded.values().chain(self.of_builds.values())
    }
}

/// The rulebook that a spec would have of its own: `NAME.pintle.toml` beside `NAME.toml`.
pub(crate) fn of_build(spec: &Utf8Path) -> Option<Utf8PathBuf> {
    let name = spec.file_name()?;
    let is_spec = name != RULEBOOK && !name.ends_with(OF_BUILD) && spec.extension() == Some("toml");
    is_spec.then(|| spec.with_extension("pintle.toml"))
}

/// The spec that a file is the rulebook of, by its name.
pub(crate) fn spec_of(file: &Utf8Path) -> Option<Utf8PathBuf> {
    let stem = file.file_name()?.strip_suffix(OF_BUILD).filter(|stem| !stem.is_empty())?;
    Some(file.with_file_name(format!("{stem}.toml")))
}

/// A shop with the rulebook of one build above all.
fn with_layer(shop: &Arc<Shop>, file: &Utf8Path, from: &Root) -> Shop {
    let mut sources = shop.sources.clone();
    let mut problems = shop.problems.clone();
    let rulebook = match take(file, from, &mut sources) {
        Ok(id) => {
            let layer = read_build_layer(&sources, id, &mut problems);
            shop.rulebook.under(&layer, &sources, &mut problems)
        }
        Err(problem) => {
            problems.push(problem);
            shop.rulebook.clone()
        }
    };
    Shop {
        name: shop.name.clone(),
        folders: shop.folders.clone(),
        stock: shop.stock.clone(),
        backlog: shop.backlog.clone(),
        base: Some(Arc::clone(shop)),
        sources,
        rulebook,
        problems,
    }
}

/// The rulebook nearest above a path.
fn nearest_above(path: &Utf8Path, root: &Root) -> Option<Utf8PathBuf> {
    let absolute = root.absolute(path).ok()?;
    let found = absolute.ancestors().map(|folder| folder.join(RULEBOOK)).find(|file| root.is_file(file))?;
    Some(as_given(&found, path, &absolute))
}

/// A path in the terms in which the user gave another, where it lies beside or under it.
fn as_given(found: &Utf8Path, given: &Utf8Path, absolute: &Utf8Path) -> Utf8PathBuf {
    for (above_given, above_absolute) in given.ancestors().zip(absolute.ancestors()) {
        if let Ok(rest) = found.strip_prefix(above_absolute) {
            return above_given.join(rest);
        }
    }
    found.to_owned()
}

fn load(file: Option<&Utf8Path>, from: &Root) -> Shop {
    let mut sources = Sources::new();
    let mut problems = Vec::new();
    let layers = file.map(|file| layers::read(file, from, &mut sources, &mut problems)).unwrap_or_default();
    let root = file.map(folder_of);
    let mut folders = layers.files.clone();
    let stock_files = match root {
        Some(root) => stock_files(root, from, &layers, &mut folders, &mut sources, &mut problems),
        None => Vec::new(),
    };
    let stock = read_stock(&sources, &stock_files, &mut problems);
    let packs = packs(from, &layers, &mut folders, &mut problems);
    let mut rulebook = Rulebook::assemble(&mut sources, &layers.settings, &packs, &mut problems);
    rulebook.clock = Some(since_first_asked);
    problems.extend(check_own_of_stock(&stock, &rulebook.own_fields));
    let mut backlog = None;
    if let Some(named) = layers.settings.backlog() {
        match backlog_file(layers.folder(named), from, named, &mut sources) {
            Ok((path, id)) => {
                folders.extend(from.absolute(&path));
                rulebook.backlog = id.map(|id| read_backlog(&sources, id, &rulebook.renamed, &mut problems));
                if id.is_none() {
                    let message = format!("there is no backlog `{}`", from.shown(&path));
                    problems.push(
                        Problem::new(NO_BACKLOG, message)
                            .at(Label::new(named.span, Role::Subject, "named here"))
                            .help("write it with `pintle backlog record`, or take the line out"),
                    );
                }
                backlog = Some((path, id.is_some()));
            }
            Err(problem) => problems.push(problem),
        }
    }
    let name = file.map(|file| from.shown(file));
    Shop { name, folders, sources, stock, rulebook, problems, backlog, base: None }
}

/// The sort of problem that a backlog is which is named and not there.
pub(crate) const NO_BACKLOG: &str = "no-backlog";

/// A shop's file of known findings, which must lie in the repository; and its text where it is there.
fn backlog_file(
    folder: &Utf8Path,
    from: &Root,
    named: &Spanned<String>,
    sources: &mut Sources,
) -> Result<(Utf8PathBuf, Option<SourceId>), Problem> {
    let path = folder.join(&named.value);
    let shown = from.shown(&path);
    let at = |problem: Problem| problem.at(Label::new(named.span, Role::Subject, "named here"));
    let there = from.is_file(&path);
    let place = if there { path.as_path() } else { folder_of(&path) };
    let absolute = from.absolute(place).map_err(|error| {
        let message = format!("the backlog `{shown}` cannot be opened: {}", files::reason(&error));
        at(Problem::new("no-folder", message)).help("correct its name, or make its folder")
    })?;
    if !absolute.starts_with(from.repository(folder)) {
        let message = format!("the backlog `{shown}` leads out of the repository");
        return Err(at(Problem::new("out-of-repository", message))
            .help("keep it inside the repository: what is judged must be what is committed"));
    }
    if !there && from.is_dir(&path) {
        let message = format!("the backlog `{shown}` is a folder");
        return Err(at(Problem::new("no-folder", message)).help("name a file, such as `backlog.toml`"));
    }
    let id = if there { Some(take(&path, from, sources)?) } else { None };
    Ok((path, id))
}

pub(crate) fn take(path: &Utf8Path, from: &Root, sources: &mut Sources) -> Result<SourceId, Problem> {
    let bytes = from.read(path)?;
    let name = from.shown(path);
    sources
        .add_bytes(&name, &bytes)
        .map_err(|error| Problem::new("unreadable", error.to_string()).help(error.help()))
}

fn stock_files(
    root: &Utf8Path,
    from: &Root,
    layers: &Layers,
    folders: &mut Vec<Utf8PathBuf>,
    sources: &mut Sources,
    problems: &mut Vec<Problem>,
) -> Vec<SourceId> {
    let mut ids = Vec::new();
    let default = root.join("stock");
    let stated: Vec<(Utf8PathBuf, Option<&Spanned<String>>)> = match layers.settings.stock() {
        Some(list) => {
            list.iter().map(|folder| (layers.folder(folder).join(&folder.value), Some(folder))).collect()
        }
        None if from.is_dir_or_link(&default) => vec![(default, None)],
        None => Vec::new(),
    };
    for (folder, stated) in stated {
        match own_folder(root, from, &folder, "stock folder", stated) {
            Ok(absolute) => {
                for file in from.below(&folder, "toml", problems) {
                    match own_file(&absolute, from, &file).and_then(|()| take(&file, from, sources)) {
                        Ok(id) => ids.push(id),
                        Err(problem) => problems.push(problem),
                    }
                }
                folders.push(absolute);
            }
            Err(problem) => problems.push(problem),
        }
    }
    ids
}

/// A folder of the shop's, absolute; a folder that is not there, or that a link leads out of the repository, is
/// refused.
fn own_folder(
    root: &Utf8Path,
    from: &Root,
    folder: &Utf8Path,
    sort: &str,
    stated: Option<&Spanned<String>>,
) -> Result<Utf8PathBuf, Problem> {
    let shown = from.shown(folder);
    let at = |problem: Problem| match stated {
        Some(stated) => problem.at(Label::new(stated.span, Role::Subject, "named here")),
        None => problem,
    };
    let absolute = from.absolute(folder).map_err(|error| {
        at(Problem::new(
            "no-folder",
            format!("the {sort} `{shown}` cannot be opened: {}", files::reason(&error)),
        ))
        .help("correct the folder's name, or make the folder")
    })?;
    if !from.is_dir(&absolute) {
        let problem = Problem::new("no-folder", format!("the {sort} `{shown}` is not a folder"));
        return Err(at(problem).help("name a folder"));
    }
    if !absolute.starts_with(from.repository(root)) {
        let problem =
            Problem::new("out-of-repository", format!("the {sort} `{shown}` leads out of the repository"));
        return Err(
            at(problem).help("keep it inside the repository: what is judged must be what is committed")
        );
    }
    Ok(absolute)
}

fn own_file(folder: &Utf8Path, from: &Root, file: &Utf8Path) -> Result<(), Problem> {
    let inside = from.absolute(file).is_ok_and(|absolute| absolute.starts_with(folder));
    if inside {
        return Ok(());
    }
    let message = format!("the stock file `{}` leads out of its folder", from.shown(file));
    Err(Problem::new("out-of-repository", message).help("copy the file into the stock folder"))
}

fn packs(
    from: &Root,
    layers: &Layers,
    folders: &mut Vec<Utf8PathBuf>,
    problems: &mut Vec<Problem>,
) -> Vec<PackFiles> {
    let builtin = builtin_packs();
    let Some(stated) = layers.settings.packs() else { return builtin };
    let mut packs: Vec<PackFiles> = Vec::new();
    for entry in stated {
        let own = entry.value.contains(['/', '\\', '.']);
        let named: Vec<PackFiles> = if own {
            own_pack(layers.folder(entry), from, entry, folders, problems).into_iter().collect()
        } else if entry.value == BUILT_IN {
            builtin.clone()
        } else {
            builtin_pack(&builtin, entry, problems).into_iter().collect()
        };
        for pack in named {
            if packs.iter().all(|held| held.name != pack.name) {
                packs.push(pack);
                continue;
            }
            problems.push(
                Problem::new("duplicate-pack", format!("two packs are called `{}`", pack.name))
                    .at(Label::new(entry.span, Role::Subject, "the second"))
                    .help(
                        "name a pack once; one of your own is called by its folder's name: rename the folder",
                    ),
            );
        }
    }
    packs
}

fn builtin_pack(
    builtin: &[PackFiles],
    entry: &Spanned<String>,
    problems: &mut Vec<Problem>,
) -> Option<PackFiles> {
    let found = builtin.iter().find(|pack| pack.name == entry.value).cloned();
    if found.is_none() {
        let names = || builtin.iter().map(|pack| pack.name.as_str()).chain([BUILT_IN]);
        let help = match nearest(&entry.value, names()) {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!(
                "the built-in packs are {} for all of them; write a pack of your own as a folder, `./rules/{}`",
                names().collect::<Vec<_>>().join(", "),
                entry.value
            ),
        };
        problems.push(
            Problem::new("unknown-pack", format!("no built-in pack is called `{}`", entry.value))
                .at(Label::new(entry.span, Role::Subject, "no such pack"))
                .help(help),
        );
    }
    found
}

fn own_pack(
    root: &Utf8Path,
    from: &Root,
    entry: &Spanned<String>,
    folders: &mut Vec<Utf8PathBuf>,
    problems: &mut Vec<Problem>,
) -> Option<PackFiles> {
    let folder = root.join(&entry.value);
    let absolute = match own_folder(root, from, &folder, "pack's folder", Some(entry)) {
        Ok(absolute) => absolute,
        Err(problem) => {
            problems.push(problem);
            return None;
        }
    };
    let mut held = Vec::new();
    for file in from.below(&folder, "", problems) {
        match own_file(&absolute, from, &file).and_then(|()| from.read(&file)) {
            Ok(bytes) => held.push((from.shown(&file), bytes)),
            Err(problem) => problems.push(problem),
        }
    }
    let name = absolute.file_name().unwrap_or("own").to_owned();
    folders.push(absolute);
    Some(PackFiles { name, builtin: false, files: held })
}
