//! The lines of source that a report shows, cut out, made safe, and offered to miette as one source.
//!
//! miette takes one source a diagnostic, but a finding may mark a spec, a stock list and a rule. So the pieces are
//! laid end to end, each keeping its file's name and its own line numbers; miette is never given a whole file.
//! The piece with the chief label comes first.

use std::collections::BTreeMap;

use miette::{LabeledSpan, MietteError, MietteSpanContents, SourceCode, SourceSpan, SpanContents};
use pintle_finding::Label;
use pintle_source::{Location, SourceId, Sources, Span};

use super::row::{Place, Row};
use crate::safe;

/// Lines shown before and after a marked one.
const CONTEXT: u32 = 1;

/// The pieces of source that belong to one finding, and its labels upon them.
#[derive(Debug)]
pub(super) struct Excerpt {
    pieces: Vec<Piece>,
    marks: Vec<Mark>,
    /// Labels whose file is not at hand, in words.
    unplaced: Vec<String>,
}

/// Some lines of one file.
#[derive(Debug)]
struct Piece {
    name: String,
    /// Line number of the first line, from 0.
    first: usize,
    lines: usize,
    /// Where the text starts in the whole excerpt.
    base: usize,
    text: String,
}

/// A label with its place in the excerpt.
#[derive(Debug)]
struct Mark {
    start: usize,
    len: usize,
    text: String,
    chief: bool,
    at: Location,
}

/// One label before it is laid out.
pub(super) struct Placed {
    pub(super) start: usize,
    pub(super) end: usize,
    pub(super) text: String,
    pub(super) chief: bool,
    pub(super) at: Location,
}

type Lines = BTreeMap<u32, Vec<Placed>>;

impl Excerpt {
    /// Cuts out what the labels need; the first label is the chief one. `columns` is the room for a line.
    pub(super) fn new(labels: &[Label], sources: &Sources, columns: usize) -> Self {
        let mut files: BTreeMap<SourceId, Lines> = BTreeMap::new();
        let mut excerpt = Self { pieces: Vec::new(), marks: Vec::new(), unplaced: Vec::new() };
        for (number, label) in labels.iter().enumerate() {
            let text = safe::line(&label.text).into_owned();
            if sources.file(label.span.source).is_none() {
                excerpt.unplaced.push(text);
                continue;
            }
            let placed = placed(label.span, text, number == 0, sources);
            let lines = files.entry(label.span.source).or_default();
            lines.entry(placed.at.line).or_default().push(placed);
        }
        let mut cuts: Vec<(SourceId, Lines)> = Vec::new();
        for (id, lines) in files {
            cuts.extend(runs(lines).into_iter().map(|run| (id, run)));
        }
        let chief = cuts.iter().find(|(_, run)| run.values().flatten().any(|mark| mark.chief));
        let chief_file = chief.map(|(id, _)| *id);
        // Stable: within each of the three classes, files and lines keep their order.
        cuts.sort_by_key(|(id, run)| {
            let here = run.values().flatten().any(|mark| mark.chief);
            (!here, Some(*id) != chief_file)
        });
        for (id, run) in cuts {
            excerpt.push(id, run, sources, columns);
        }
        excerpt
    }

    fn push(&mut self, id: SourceId, run: Lines, sources: &Sources, columns: usize) {
        let base = self.pieces.last().map_or(0, |piece| piece.base + piece.text.len());
        let (Some(top), Some(bottom)) = (run.keys().next(), run.keys().next_back()) else { return };
        let first = top.saturating_sub(CONTEXT).max(1);
        let wanted = first..=bottom.saturating_add(CONTEXT);
        let mut run = run;
        let mut text = String::new();
        let mut lines = 0;
        for line in wanted {
            let placed = run.remove(&line).unwrap_or_default();
            let Some((start, raw)) = raw_line(id, line, sources) else { break };
            // The nothing after the last line end is no line worth showing, unless something is marked there.
            if placed.is_empty() && raw.is_empty() && start == sources.text(id).len() {
                break;
            }
            let row = Row::new(raw, start, placed, columns);
            for Place { start, end, text: words, chief, at } in row.places {
                let (start, len) = (base + text.len() + start, end - start);
                self.marks.push(Mark { start, len, text: words, chief, at });
            }
            text.push_str(&row.text);
            text.push('\n');
            lines += 1;
        }
        let first = usize::try_from(first - 1).unwrap_or(0);
        let name = safe::line(sources.name(id)).into_owned();
        self.pieces.push(Piece { name, first, lines, base, text });
    }

    /// The labels as miette takes them.
    pub(super) fn labels(&self) -> Option<impl Iterator<Item = LabeledSpan> + '_> {
        let labeled = |mark: &Mark| {
            let text = (!mark.text.is_empty()).then(|| mark.text.clone());
            let span = SourceSpan::from((mark.start, mark.len));
            if mark.chief {
                LabeledSpan::new_primary_with_span(text, span)
            } else {
                LabeledSpan::new_with_span(text, span)
            }
        };
        (!self.marks.is_empty()).then(|| self.marks.iter().map(labeled))
    }

    /// The labels that could not be placed, as lines for the help text.
    pub(super) fn unplaced_words(&self) -> impl Iterator<Item = String> + '_ {
        self.unplaced.iter().map(|text| format!("also, in a file that is not at hand: {text}"))
    }
}

impl SourceCode for Excerpt {
    /// The whole piece that holds the span; without context, only the span's own place in its file.
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        before: usize,
        after: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let end = span.offset() + span.len();
        let holds = |piece: &&Piece| span.offset() >= piece.base && end <= piece.base + piece.text.len();
        let piece = self.pieces.iter().find(holds).ok_or(MietteError::OutOfBounds)?;
        let name = piece.name.clone();
        if before == 0 && after == 0 {
            let mark = self.marks.iter().find(|mark| mark.start == span.offset());
            let at = mark.map_or(Location { line: 1, column: 1 }, |mark| mark.at);
            let (line, column) = (at.line.saturating_sub(1) as usize, at.column.saturating_sub(1) as usize);
            return Ok(Box::new(MietteSpanContents::new_named(name, &[], *span, line, column, 1)));
        }
        let whole = SourceSpan::from((piece.base, piece.text.len()));
        let data = piece.text.as_bytes();
        Ok(Box::new(MietteSpanContents::new_named(name, data, whole, piece.first, 0, piece.lines)))
    }
}

/// A label's place: inside the text and on whole characters. Its row cuts it down to its first line.
fn placed(span: Span, text: String, chief: bool, sources: &Sources) -> Placed {
    let whole = sources.text(span.source);
    let start = boundary(whole, span.start as usize);
    let end = boundary(whole, span.end as usize).max(start);
    let at = sources.locate(Span { start: u32::try_from(start).unwrap_or(u32::MAX), ..span });
    Placed { start, end, text, chief, at }
}

/// The nearest place at or before `offset` where a character starts or the text ends.
fn boundary(text: &str, offset: usize) -> usize {
    let mut offset = offset.min(text.len());
    while !text.is_char_boundary(offset) {
        offset -= 1;
    }
    offset
}

/// A line without its end, and where it starts.
fn raw_line(id: SourceId, line: u32, sources: &Sources) -> Option<(usize, &str)> {
    let start = sources.at(id, Location { line, column: 1 })?.start as usize;
    let raw = sources.text(id).get(start..)?.split('\n').next()?;
    Some((start, raw.strip_suffix('\r').unwrap_or(raw)))
}

/// Marked lines in groups that are shown together: near enough that their context would meet.
fn runs(lines: Lines) -> Vec<Lines> {
    let mut runs: Vec<Lines> = Vec::new();
    for (line, placed) in lines {
        let near = |run: &Lines| run.keys().next_back().is_some_and(|last| line - last <= 2 * CONTEXT + 1);
        match runs.last_mut().filter(|run| near(run)) {
            Some(run) => {
                run.insert(line, placed);
            }
            None => runs.push(Lines::from([(line, placed)])),
        }
    }
    runs
}
