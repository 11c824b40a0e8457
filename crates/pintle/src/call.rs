//! The call as the user writes it.

use camino::Utf8PathBuf;
use clap::{Args, Parser, Subcommand, ValueEnum};
use jiff::civil::Date;
use pintle_finding::{Basis, Grade, Stage};
use pintle_quantity::Units;

/// Inspects build specs of camping trailers against a rulebook, and says what is wrong, where, by how much, and
/// which text says so.
#[derive(Debug, Parser)]
#[command(
    name = "pintle",
    version,
    after_help = "Exit codes: 0 released, 1 held, 2 the input or the call is wrong, 3 something could not be judged.\n\
                  Figures are computed: weigh the real trailer. Gas and mains work belongs to qualified people."
)]
pub(crate) struct Call {
    /// What to do.
    #[command(subcommand)]
    pub(crate) command: Command,
    /// Units that figures are shown in.
    #[arg(long, global = true, value_enum, default_value_t = UnitChoice::AsWritten)]
    pub(crate) units: UnitChoice,
    /// Whether to use colour. `NO_COLOR` in the environment turns it off unless `always` is asked for.
    #[arg(long, global = true, value_enum, default_value_t = ColourChoice::Auto, value_name = "WHEN")]
    pub(crate) color: ColourChoice,
    /// The rulebook to use, in place of the pintle.toml nearest above each spec.
    #[arg(long, global = true, value_name = "FILE")]
    pub(crate) rulebook: Option<Utf8PathBuf>,
    /// The day on which waivers are judged, such as 2026-12-31; today when not given.
    #[arg(long, global = true, value_parser = day, value_name = "DAY")]
    pub(crate) date: Option<Date>,
}

/// What to do.
#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Judge specs, files or folders of them, and report.
    Inspect(Inspect),
    /// Say what changed between two versions of a spec, or of a folder of them: parts, weights, margins, findings.
    Compare(Compare),
    /// List changes of a spec that put its faults right, each tried; write one into the file.
    Mend(Mend),
    /// Show the weights of every state, with the moment table.
    Weigh(Weigh),
    /// Make the inspection sheet of a spec: one page with drawings, findings, readings and the record, to be signed.
    Sheet(Sheet),
    /// Serve the sheet to a browser on this machine, to fill in the record on the walk round the trailer.
    Walk(Walk),
    /// Work out what the trade works out (gas, air, wires, sway and more), with how each figure came about.
    Figures(Figures),
    /// Say what a rule judges, why, and which limit is in force and who set it; or how a figure came about.
    Explain(Explain),
    /// Run the rules' own trials.
    Trial(Trial),
    /// List the rules in use, all or those of a pack, grade, stage, basis, place or source.
    Rules(Rules),
    /// Write the files of a new pack or rule, which pass their trials at once.
    New(New),
    /// Keep the list of findings that were there when an old collection of specs was taken in.
    Backlog(Backlog),
}

/// `pintle new`.
#[derive(Debug, Args)]
pub(crate) struct New {
    /// What to make.
    #[command(subcommand)]
    pub(crate) what: NewWhat,
    /// A folder of the shop that it is made in; the current folder when not given.
    #[arg(long, global = true, default_value = ".", value_name = "PATH")]
    pub(crate) at: Utf8PathBuf,
}

/// What to make.
#[derive(Debug, Subcommand)]
pub(crate) enum NewWhat {
    /// A folder of rules under `rules`, with one rule to begin with, named in pintle.toml.
    Pack {
        /// Its name: small letters, digits and hyphens.
        name: String,
    },
    /// A rule in a pack of the shop's own.
    Rule {
        /// Its id, `pack/rule`.
        id: String,
    },
}

/// `pintle rules`. A rule is listed when everything that is asked is true of it.
#[derive(Debug, Args)]
pub(crate) struct Rules {
    /// Packs or rules; all when none is given.
    #[arg(value_name = "PACK")]
    pub(crate) wanted: Vec<String>,
    /// Of a grade in force.
    #[arg(long, value_parser = grade, value_name = "GRADE")]
    pub(crate) grade: Option<Grade>,
    /// Judged at a stage: from that stage on or from an earlier one.
    #[arg(long, value_parser = stage, value_name = "STAGE")]
    pub(crate) stage: Option<Stage>,
    /// With a limit or a source of a basis: published, "common practice", shop or memory.
    #[arg(long, value_parser = basis, value_name = "BASIS")]
    pub(crate) basis: Option<Basis>,
    /// That go by the place where a trailer is registered or towed, with what that place asks, such as us-tx.
    #[arg(long, value_name = "PLACE")]
    pub(crate) place: Option<String>,
    /// With a source whose text or words contain this, such as "49 CFR 393"; letters large or small.
    #[arg(long, value_name = "TEXT")]
    pub(crate) source: Option<String>,
    /// A spec or folder whose rulebook is meant; the current folder when not given.
    #[arg(long, default_value = ".", value_name = "PATH")]
    pub(crate) at: Utf8PathBuf,
    /// How to list them: for people, one line a rule, or JSON.
    #[arg(long, value_enum, default_value_t = Format::Human, value_name = "FORM")]
    pub(crate) format: Format,
}

/// `pintle inspect`.
#[derive(Debug, Args)]
pub(crate) struct Inspect {
    /// Spec files, or folders to look for them in.
    #[arg(default_value = ".", value_name = "PATH")]
    pub(crate) paths: Vec<Utf8PathBuf>,
    /// The grade at or above which a build is stopped, in place of the rulebook's.
    #[arg(long, value_parser = grade, value_name = "GRADE")]
    pub(crate) hold: Option<Grade>,
    /// How to report: annotated for people, one line a finding, or JSON with every reading. People's form when not
    /// given, plain for more than fifty specs.
    #[arg(long, value_enum, value_name = "FORM")]
    pub(crate) format: Option<Format>,
    /// Try changes of each spec that put its faults right, and show those that do. Takes many times as long.
    #[arg(long)]
    pub(crate) remedies: bool,
    /// Threads to use; as many as the machine has when not given.
    #[arg(long, value_name = "COUNT")]
    pub(crate) threads: Option<usize>,
}

/// `pintle sheet`.
#[derive(Debug, Args)]
#[command(
    after_help = "Exit codes: 0 the sheet is made, whatever it says of the build; 2 the input or the call is wrong."
)]
pub(crate) struct Sheet {
    /// The spec; with `--all`, specs or folders of them, all below the current folder when none is given.
    #[arg(value_name = "SPEC", required_unless_present = "all")]
    pub(crate) specs: Vec<Utf8PathBuf>,
    /// The file to write; the spec's name with `.html` (or `.pdf`) in the current folder when not given; `-` prints the
    /// page.
    #[arg(short, long, value_name = "FILE")]
    pub(crate) output: Option<Utf8PathBuf>,
    /// Write the sheets of all specs into this folder, with an index.
    #[arg(long, value_name = "DIR", conflicts_with_all = ["output", "pdf"])]
    pub(crate) all: Option<Utf8PathBuf>,
    /// Print the page into a PDF, by a Chromium that is installed here; `PINTLE_CHROMIUM` names another one than that on
    /// the path.
    #[arg(long)]
    pub(crate) pdf: bool,
}

/// `pintle walk`.
#[derive(Debug, Args)]
#[command(
    after_help = "It listens on this machine alone, at an address with a random part that it prints. What is saved is \
                        written into the spec's [record]; everything else in the file stays as it is.\n\
                        Exit codes: 0 stopped with Ctrl-C, 2 the input or the call is wrong."
)]
pub(crate) struct Walk {
    /// The spec.
    #[arg(value_name = "SPEC")]
    pub(crate) spec: Utf8PathBuf,
    /// The port to listen at, 0 for any free one; the spec's own when not given, so that a browser finds again what was
    /// typed and not saved.
    #[arg(long, value_name = "PORT")]
    pub(crate) port: Option<u16>,
}

/// `pintle compare`.
#[derive(Debug, Args)]
#[command(
    after_help = "Exit codes: 0 no new fault at or above the hold grade, 1 a new one, 2 the input or the call is \
                        wrong, 3 something there cannot be judged now."
)]
pub(crate) struct Compare {
    /// Two spec files, or two folders: the old version, then the new. `REV:PATH` is a path as it was in a revision of
    /// the git repository, such as `HEAD~1:specs` or `main:specs/builds/a.toml`.
    #[arg(num_args = 0..=2, value_name = "OLD NEW")]
    pub(crate) sides: Vec<String>,
    /// Compare a file or a folder (the current folder when none is given) with itself as it was in a revision.
    #[arg(long, value_name = "REV")]
    pub(crate) since: Option<String>,
    /// The grade at or above which a new fault ends the run with 1, in place of the new version's rulebook's.
    #[arg(long, value_parser = grade, value_name = "GRADE")]
    pub(crate) hold: Option<Grade>,
    /// How to report.
    #[arg(long, value_enum, default_value_t = CompareFormat::Human, value_name = "FORM")]
    pub(crate) format: CompareFormat,
    /// Threads to use; as many as the machine has when not given.
    #[arg(long, value_name = "COUNT")]
    pub(crate) threads: Option<usize>,
}

/// How to report a comparison.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum CompareFormat {
    /// Short tables, for people.
    Human,
    /// One line a change.
    Plain,
    /// JSON with every change.
    Json,
    /// For a comment on a change under review.
    Markdown,
}

/// `pintle mend`.
#[derive(Debug, Args)]
pub(crate) struct Mend {
    /// The spec file.
    #[arg(value_name = "SPEC")]
    pub(crate) spec: Utf8PathBuf,
    /// The number of the remedy to write into the spec; without it, all are listed.
    #[arg(long, value_name = "N")]
    pub(crate) take: Option<usize>,
    /// Show what would change and write nothing.
    #[arg(long, requires = "take")]
    pub(crate) dry_run: bool,
}

/// `pintle weigh`.
#[derive(Debug, Args)]
pub(crate) struct Weigh {
    /// Spec files, or folders to look for them in.
    #[arg(required = true, value_name = "SPEC")]
    pub(crate) paths: Vec<Utf8PathBuf>,
    /// How to report.
    #[arg(long, value_enum, default_value_t = Format::Human, value_name = "FORM")]
    pub(crate) format: Format,
    /// Draw gross against tongue weight of every arrangement into this file, as SVG; of one spec.
    #[arg(long, value_name = "FILE")]
    pub(crate) plot: Option<Utf8PathBuf>,
}

/// `pintle figures`.
#[derive(Debug, Args)]
pub(crate) struct Figures {
    /// Spec files, or folders to look for them in.
    #[arg(required = true, value_name = "SPEC")]
    pub(crate) paths: Vec<Utf8PathBuf>,
    /// A topic, such as `gas`, or one of its figures, such as `gas/burn_time`, step by step; several may be named. What all
    /// of them came to when none is.
    #[arg(long = "of", value_name = "TOPIC")]
    pub(crate) topics: Vec<String>,
    /// How to report: every step for people, one line a figure, or JSON with every step.
    #[arg(long, value_enum, default_value_t = Format::Human, value_name = "FORM")]
    pub(crate) format: Format,
}

/// `pintle explain`.
#[derive(Debug, Args)]
pub(crate) struct Explain {
    /// The rule, `pack/rule`; or a figure, `topic/figure`, which is shown step by step for the specs at `--at`.
    #[arg(value_name = "RULE")]
    pub(crate) rule: String,
    /// A spec or folder whose rulebook is meant; the current folder when not given.
    #[arg(long, default_value = ".", value_name = "PATH")]
    pub(crate) at: Utf8PathBuf,
    /// How to report: for people, or JSON.
    #[arg(long, value_enum, default_value_t = ExplainFormat::Human, value_name = "FORM")]
    pub(crate) format: ExplainFormat,
}

/// How to explain.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum ExplainFormat {
    /// For people.
    Human,
    /// JSON, with every setting of every limit, grade and stage.
    Json,
}

/// `pintle backlog`.
#[derive(Debug, Args)]
#[command(
    after_help = "The file is named in pintle.toml, as `backlog = \"backlog.toml\"`. It can only shrink. Faults \
                        of rules that cannot be waived are never listed."
)]
pub(crate) struct Backlog {
    /// What to do.
    #[command(subcommand)]
    pub(crate) what: BacklogCommand,
}

/// What to do with the backlog.
#[derive(Debug, Subcommand)]
pub(crate) enum BacklogCommand {
    /// Write the list anew: all findings of the shop's specs that nobody has accepted. Refused where a list is there and
    /// would grow.
    Record(BacklogPlace),
    /// Say what the list holds, and what of it is still found.
    Show(BacklogPlace),
    /// Take off the list what is no longer found.
    Shrink(BacklogPlace),
}

/// Whose backlog.
#[derive(Debug, Args)]
pub(crate) struct BacklogPlace {
    /// A spec or folder whose shop is meant.
    #[arg(default_value = ".", value_name = "PATH")]
    pub(crate) at: Utf8PathBuf,
}

/// `pintle trial`.
#[derive(Debug, Args)]
pub(crate) struct Trial {
    /// Packs or rules to try; all when none is given.
    #[arg(value_name = "PACK")]
    pub(crate) wanted: Vec<String>,
    /// A spec or folder whose rulebook is meant; the current folder when not given.
    #[arg(long, default_value = ".", value_name = "PATH")]
    pub(crate) at: Utf8PathBuf,
    /// Run them again whenever a file of the shop's changes, until stopped.
    #[arg(long)]
    pub(crate) watch: bool,
    /// Also say which lines of the scripts the trials run, and which verdicts they bring about.
    #[arg(long)]
    pub(crate) coverage: bool,
    /// Also say how long each rule takes on the spec that its first trial starts from.
    #[arg(long)]
    pub(crate) times: bool,
}

/// How to report.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Format {
    /// Annotated, for people.
    Human,
    /// One line a finding.
    Plain,
    /// JSON with every reading.
    Json,
}

/// Units that figures are shown in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum UnitChoice {
    /// As the spec's author wrote them.
    AsWritten,
    /// Inches and pounds.
    Us,
    /// Millimetres and kilograms.
    Metric,
}

impl From<UnitChoice> for Units {
    fn from(choice: UnitChoice) -> Self {
        match choice {
            UnitChoice::AsWritten => Self::AsWritten,
            UnitChoice::Us => Self::Us,
            UnitChoice::Metric => Self::Metric,
        }
    }
}

/// Whether to use colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum ColourChoice {
    /// On a terminal.
    Auto,
    /// Always.
    Always,
    /// Never.
    Never,
}

fn grade(word: &str) -> Result<Grade, String> {
    Grade::from_word(word).ok_or_else(|| format!("the grades are {}", Grade::all_words().join(", ")))
}

fn stage(word: &str) -> Result<Stage, String> {
    Stage::from_word(word).ok_or_else(|| format!("the stages are {}", Stage::all_words().join(", ")))
}

fn basis(word: &str) -> Result<Basis, String> {
    Basis::from_word(word).ok_or_else(|| format!("the bases are {}", Basis::all_words().join(", ")))
}

fn day(text: &str) -> Result<Date, String> {
    pintle_rulebook::day(text).ok_or_else(|| "write year, month and day, such as 2026-12-31".to_owned())
}
