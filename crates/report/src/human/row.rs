//! One line of source made ready to be shown: safe, no longer than the terminal, its labels apart.

use pintle_source::Location;

use super::excerpt::Placed;
use crate::safe;

/// Room taken by the frame left of a line.
const FRAME: usize = 12;
/// Of a line that is too long, so much is kept before its first label.
const LEAD: usize = 20;
/// Stands where a line was cut.
const CUT: &str = "...";

/// One line to show.
#[derive(Debug)]
pub(super) struct Row {
    /// The line without its end.
    pub(super) text: String,
    /// Its labels, in the order of the line, not overlapping.
    pub(super) places: Vec<Place>,
}

/// A label on a row, in bytes of the row's text.
#[derive(Debug)]
pub(super) struct Place {
    pub(super) start: usize,
    pub(super) end: usize,
    pub(super) text: String,
    pub(super) chief: bool,
    pub(super) at: Location,
}

impl Row {
    /// From a line of a file that starts at byte `offset`, and the labels that start on it.
    pub(super) fn new(raw: &str, offset: usize, placed: Vec<Placed>, columns: usize) -> Self {
        let room = columns.saturating_sub(FRAME).max(LEAD * 2);
        let first = placed.iter().map(|mark| mark.start.saturating_sub(offset)).min().unwrap_or(0);
        let (from, to) = window(raw, first, room);
        let lead = if from > 0 { CUT } else { "" };
        let tail = if to < raw.len() { CUT } else { "" };
        let middle = safe::snippet(raw.get(from..to).unwrap_or("")).into_owned();
        // A label beyond the cut stands at the cut.
        let moved = |byte: usize| lead.len() + byte.saturating_sub(offset).clamp(from, to) - from;
        let moved_marks = placed.into_iter().map(|mark| Place {
            start: moved(mark.start),
            end: moved(mark.end),
            text: mark.text,
            chief: mark.chief,
            at: mark.at,
        });
        Self { places: apart(moved_marks.collect()), text: format!("{lead}{middle}{tail}") }
    }
}

/// The part of a line that is shown, in bytes: all of it, or some before the first label and what follows.
fn window(raw: &str, first: usize, room: usize) -> (usize, usize) {
    let mut starts = raw.char_indices().map(|(at, _)| at).chain([raw.len()]);
    if starts.clone().nth(room).is_none_or(|at| at == raw.len()) {
        return (0, raw.len());
    }
    let before = raw.get(..first).unwrap_or("").chars().count();
    let skipped = before.saturating_sub(LEAD);
    // What comes before fits: no cut on the left.
    let skipped = if before + LEAD < room { 0 } else { skipped };
    let from = starts.nth(skipped).unwrap_or(0);
    let to = starts.nth(room.saturating_sub(1)).unwrap_or(raw.len());
    (from, to)
}

/// Labels that start together become one; one that runs into the next is cut short, so that each underline shows
/// where its own label starts.
fn apart(mut places: Vec<Place>) -> Vec<Place> {
    places.sort_by_key(|place| (place.start, !place.chief));
    let mut kept: Vec<Place> = Vec::new();
    for place in places {
        match kept.last_mut() {
            Some(last) if last.start == place.start => {
                last.end = last.end.max(place.end);
                last.chief |= place.chief;
                if !place.text.is_empty() && last.text != place.text {
                    let link = if last.text.is_empty() { "" } else { "; " };
                    last.text = format!("{}{link}{}", last.text, place.text);
                }
            }
            Some(last) => {
                last.end = last.end.min(place.start);
                kept.push(place);
            }
            None => kept.push(place),
        }
    }
    kept
}
