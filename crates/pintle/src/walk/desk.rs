//! The one desk at which a walk's spec is read, judged and written: its own thread, one request after the other, so that
//! two savings never meet. It knows one file and takes no path from anybody.

use std::sync::mpsc::Receiver;

use camino::{Utf8Path, Utf8PathBuf};
use pintle_finding::Problem;
use pintle_rulebook::{Detail, Judge};
use pintle_sheet::Walk;
use pintle_source::Sources;
use pintle_spec::node::{Node, parse};
use pintle_spec::schema::{build, record};
use pintle_spec::{Build, SourceId};
use serde_json::{Value, json};
use sha2::{Digest as _, Sha256};

use super::answer::{self, Answer, Body, Said};
use super::faults::{Fault, Places, of_file, of_form};
use super::lay::{lay, same_but};
use super::merge::merge;
use super::tree::Tree;
use crate::call::Call;
use crate::clock;
use crate::files::{self, Root};
use crate::inspect::{Job, load_bytes};
use crate::mend::save;
use crate::print;
use crate::sheet::{self, How};
use crate::shop::Shops;

/// What a browser asks for.
#[derive(Debug)]
pub(super) enum Ask {
    /// The page, with the form and the sheet.
    Page,
    /// What a record would come to.
    Try(Sent),
    /// The same, and written into the spec where it can be read.
    Save(Sent),
}

/// A record that was typed in.
#[derive(Debug)]
pub(super) struct Sent {
    /// The hash of the file that it was begun from.
    base: String,
    /// That file's record.
    begun: Tree,
    record: Tree,
}

impl Sent {
    /// Out of a request's body; what is none says why.
    pub(super) fn read(body: &[u8]) -> Result<Self, String> {
        let value: Value = serde_json::from_slice(body).map_err(|_| "this is no JSON".to_owned())?;
        let tree = |key: &str| match value.get(key) {
            Some(tree) => Tree::from_json(tree, &record::SCHEMA),
            None => Err(format!("`{key}` is missing")),
        };
        let base = value.get("base").and_then(Value::as_str).ok_or("`base` is missing")?;
        Ok(Self { base: base.to_owned(), begun: tree("begun")?, record: tree("record")? })
    }
}

/// An ask and the way back.
pub(super) type Asked = (Ask, tokio::sync::oneshot::Sender<Answer>);

/// Answers until nobody can ask any more. The shop is read anew for each page.
pub(super) fn work(call: &Call, spec: &Utf8Path, asks: &Receiver<Asked>) {
    let Ok(mut next) = asks.recv() else { return };
    loop {
        let mut shops = Shops::new(call.rulebook.as_deref());
        let job = Job { path: spec.to_owned(), root: Root::Working, shop: shops.of(spec) };
        let mut desk = Desk { call, job: &job, judge: Judge::new(&job.shop.rulebook), shops, before: None };
        loop {
            // Who asked may have gone away: then nothing is worked out, and nothing written, for nobody.
            if !next.1.is_closed() {
                let answer = desk.answer(&next.0);
                let _ = next.1.send(answer);
            }
            next = match asks.recv() {
                Ok(asked) => asked,
                Err(_) => return,
            };
            if matches!(next.0, Ask::Page) {
                break;
            }
        }
    }
}

struct Desk<'d> {
    call: &'d Call,
    job: &'d Job,
    judge: Judge<'d>,
    shops: Shops,
    /// What the readings of the file on disk say, by its hash.
    before: Option<(String, Said)>,
}

/// The file as it is now.
struct Disk {
    bytes: Vec<u8>,
    hash: String,
    sources: Sources,
    build: Build,
    root: Node,
    record: Tree,
}

impl Disk {
    fn read(job: &Job) -> Result<Self, (Vec<Problem>, Sources)> {
        let bytes = files::read(&job.path).map_err(|problem| (vec![problem], Sources::new()))?;
        Self::of(job, bytes)
    }

    fn of(job: &Job, bytes: Vec<u8>) -> Result<Self, (Vec<Problem>, Sources)> {
        let (sources, build, problems) = load_bytes(job, &bytes);
        let Some(build) = build else { return Err((problems, sources)) };
        let (root, record) = tree(&sources, build.source);
        Ok(Self { hash: hash(&bytes), bytes, sources, build, root, record })
    }
}

fn tree(sources: &Sources, source: SourceId) -> (Node, Tree) {
    let root = parse(sources, source, &mut Vec::new());
    let record =
        root.child(build::RECORD.key).map(|node| Tree::of(node, &record::SCHEMA)).unwrap_or_default();
    (root, record)
}

fn hash(bytes: &[u8]) -> String {
    super::hex(&Sha256::digest(bytes))
}

impl Desk<'_> {
    fn answer(&mut self, ask: &Ask) -> Answer {
        match ask {
            Ask::Page => self.page(),
            Ask::Try(sent) => self.tried(sent, false),
            Ask::Save(sent) => self.tried(sent, true),
        }
    }

    fn page(&mut self) -> Answer {
        let problems = &self.job.shop.problems;
        let disk =
            if problems.is_empty() { Disk::read(self.job) } else { Err((problems.clone(), Sources::new())) };
        let disk = match disk {
            Ok(disk) => disk,
            Err((problems, _)) => {
                return Answer { status: 503, body: Body::Page(unreadable(self.job, &problems)) };
            }
        };
        let walk = Walk {
            spec: key_of(&self.job.path).as_str().to_owned(),
            hash: disk.hash.clone(),
            record: disk.record.to_json().to_string(),
        };
        let how = How { day: clock::day(self.call), look: print::look(self.call) };
        let Disk { build, sources, .. } = &disk;
        let inspection = self.judge.inspect_on(how.day, build.clone(), sources, Detail::Everything);
        let of_rulebook = sheet::of_rulebook(self.job, &inspection, &mut self.shops, how.day);
        let of_rulebook = of_rulebook.as_ref().map(|(inspection, _)| inspection);
        self.before = Some((disk.hash.clone(), answer::said(&inspection, how.look.units)));
        let page = sheet::made(self.job, build, &inspection, sources, of_rulebook, how, |sheet| {
            pintle_sheet::walk_page(sheet, &walk)
        });
        Answer { status: 200, body: Body::Page(page) }
    }

    fn tried(&mut self, sent: &Sent, save: bool) -> Answer {
        let disk = match Disk::read(self.job) {
            Ok(disk) => disk,
            Err((problems, _)) => {
                let faults = of_file(&problems, &Places::default(), &[]);
                return Answer::json(409, json!({ "unreadable": faults_json(&faults) }));
            }
        };
        if disk.hash != sent.base {
            return conflict(sent, &disk);
        }
        let (mut faults, kept) = of_form(&record::SCHEMA, &sent.record);
        let new = match laid(&disk, &kept) {
            Ok(new) => new,
            Err(why) => {
                let message = format!("the record cannot be written into the spec: {why}");
                faults.push(Fault {
                    path: String::new(),
                    message,
                    help: Some("write it by hand".to_owned()),
                });
                return Answer::json(422, json!({ "hash": disk.hash, "problems": faults_json(&faults) }));
            }
        };
        let (sources, build, problems) = load_bytes(self.job, new.as_bytes());
        let after = build.as_ref().map(|build| tree(&sources, build.source));
        if let Some((root, record)) = &after
            && !(record.says_the_same(&kept) && same_but(root, &disk.root, build::RECORD.key))
        {
            let message = "the record cannot be written into the spec as it is laid out".to_owned();
            faults.push(Fault { path: String::new(), message, help: Some("write it by hand".to_owned()) });
        }
        let places = match &after {
            Some((root, _)) => Places::of(root.child(build::RECORD.key)),
            None => places_of(self.job, &new),
        };
        faults.extend(of_file(&problems, &places, &faults));
        let mut told = json!({ "hash": disk.hash, "problems": faults_json(&faults) });
        let Some(build) = build else { return Answer::json(422, told) };
        self.judge_into(&mut told, &disk, &build, &sources, &places);
        if !faults.is_empty() {
            return Answer::json(422, told);
        }
        if save {
            if new.as_bytes() != disk.bytes
                && let Err(problem) = save::replace(&self.job.path, &disk.bytes, new.as_bytes())
            {
                return match (problem.code, Disk::read(self.job)) {
                    ("changed", Ok(disk)) => conflict(sent, &disk),
                    _ => Answer::json(
                        500,
                        json!({ "problems": faults_json(&of_file(&[problem], &Places::default(), &[])) }),
                    ),
                };
            }
            put(&mut told, "saved", json!(true));
            put(&mut told, "hash", json!(hash(new.as_bytes())));
            let record = after.map(|(_, record)| record).unwrap_or_default();
            put(&mut told, "record", record.to_json());
        }
        Answer::json(200, told)
    }

    /// What the rules say of a build, beside what they say of the file on disk.
    fn judge_into(
        &mut self,
        told: &mut Value,
        disk: &Disk,
        build: &Build,
        sources: &Sources,
        places: &Places,
    ) {
        let (day, rulebook) = (clock::day(self.call), &self.job.shop.rulebook);
        let units = print::look(self.call).units;
        if self.before.as_ref().is_none_or(|(of, _)| *of != disk.hash) {
            let inspection =
                self.judge.inspect_on(day, disk.build.clone(), &disk.sources, Detail::Everything);
            self.before = Some((disk.hash.clone(), answer::said(&inspection, units)));
        }
        let inspection = self.judge.inspect_on(day, build.clone(), sources, Detail::Everything);
        let empty = Said::new();
        let before = self.before.as_ref().map_or(&empty, |(_, said)| said);
        let (readings, gone) = answer::judged(&inspection, rulebook, places, before, units);
        put(told, "verdict", answer::verdict(&inspection, rulebook.hold));
        put(told, "readings", readings);
        put(told, "gone", gone);
    }
}

/// The text of the file with a record in it.
fn laid(disk: &Disk, record: &Tree) -> Result<String, String> {
    let text = std::str::from_utf8(&disk.bytes).map_err(|_| "it is not UTF-8".to_owned())?;
    lay(text, &disk.record, record)
}

/// The places of a text that could not be read whole, as [`load_bytes`] gives them.
fn places_of(job: &Job, text: &str) -> Places {
    let mut sources = job.shop.sources.clone();
    let source = sources.add(&job.name(), text);
    let root = parse(&sources, source, &mut Vec::new());
    Places::of(root.child(build::RECORD.key))
}

fn conflict(sent: &Sent, disk: &Disk) -> Answer {
    let merged = merge(&record::SCHEMA, &sent.begun, &sent.record, &disk.record);
    let conflicts: Vec<Value> = merged.conflicts.iter().map(super::merge::Conflict::to_json).collect();
    Answer::json(
        409,
        json!({
            "hash": disk.hash,
            "theirs": disk.record.to_json(),
            "merged": merged.tree.to_json(),
            "conflicts": conflicts,
        }),
    )
}

fn faults_json(faults: &[Fault]) -> Value {
    faults.iter().map(Fault::to_json).collect()
}

fn put(told: &mut Value, key: &str, value: Value) {
    if let Value::Object(entries) = told {
        entries.insert(key.to_owned(), value);
    }
}

fn unreadable(job: &Job, problems: &[Problem]) -> pintle_sheet::WalkPage {
    let told: Vec<(String, Option<String>)> =
        problems.iter().map(|problem| (problem.message.clone(), problem.help.clone())).collect();
    pintle_sheet::unreadable_page(&job.name(), &told)
}

/// The one name of a spec, however it was written in the call.
pub(super) fn key_of(path: &Utf8Path) -> Utf8PathBuf {
    path.canonicalize_utf8().unwrap_or_else(|_| path.to_owned())
}
