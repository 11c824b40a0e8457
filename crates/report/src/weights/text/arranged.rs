//! Every road arrangement, as tables: how many, least and most of each figure, those that a builder thinks of, and where
//! the axle may stand.

use pintle_calc::Known;
use unicode_width::UnicodeWidthStr;

use super::Lines;
use crate::weights::Band;
use crate::weights::arranged::{Arranged, Extreme, Named, Range, Stands, Window};
use crate::weights::shown::Maybe;
use crate::weights::table::{flush_left, flush_right, hung};
use crate::wrap::wrapped;

/// Columns for the name of a figure.
const NAMED: usize = 18;

/// Everything of every arrangement.
pub(super) fn arranged(all: &Maybe<Arranged>, band: &Known<Band>, lines: &mut Lines) {
    let all = match all.as_result() {
        Ok(all) => all,
        Err(missing) => {
            lines.line("every arrangement");
            lines.not_known([missing]);
            return;
        }
    };
    let count = match all.count.as_result() {
        Ok(count) => format!(": {}, with each tank and load at its least or its most", count.in_words()),
        Err(_) => String::new(),
    };
    lines.title(&format!("every arrangement{count}"));
    extremes(&all.extremes, lines);
    let ends =
        all.extremes.iter().flat_map(|range| [range.least.as_result().err(), range.most.as_result().err()]);
    let missing = std::iter::once(all.count.as_result().err()).chain(ends).flatten();
    lines.not_known(missing);
    lines.line("");
    lines.line("arrangements by name");
    match all.named.as_result() {
        Ok(all) => named(all, lines),
        Err(missing) => lines.not_known([missing]),
    }
    lines.line("");
    window(&all.axle_window, band, lines);
}

/// A figure's name beside its least and its most, each with the words of its arrangement.
fn extremes(ranges: &[Range], lines: &mut Lines) {
    let ends = |range: &Range| [("least", cell(&range.least)), ("most", cell(&range.most))];
    let widest = ranges.iter().flat_map(ends).map(|(_, cell)| cell.width()).max().unwrap_or(0);
    let known = |range: &&Range| range.least.as_result().is_ok() || range.most.as_result().is_ok();
    for range in ranges.iter().filter(known) {
        let mut block: Vec<String> = Vec::new();
        for ((end, value), extreme) in ends(range).into_iter().zip([&range.least, &range.most]) {
            let words = extreme.as_result().map_or("", |extreme: &Extreme| extreme.way.words.as_str());
            let before = format!("{}  {}  ", flush_left(end, 5), flush_right(&value, widest));
            block.extend(hung(&before, words, lines.width.saturating_sub(NAMED + 4)));
        }
        let names = wrapped(range.words, NAMED);
        for at in 0..block.len().max(names.len()) {
            let part = |of: &[String]| of.get(at).cloned().unwrap_or_default();
            let line = format!("  {}  {}", flush_left(&part(&names), NAMED), part(&block));
            lines.line(line.trim_end());
        }
    }
}

fn cell(extreme: &Maybe<Extreme>) -> String {
    extreme.as_result().map_or_else(|_| "not known".to_owned(), |extreme| extreme.value.with_certainty())
}

fn named(all: &[Named], lines: &mut Lines) {
    let cells = |one: &Named| [&one.gross, &one.tongue, &one.tongue_share].map(super::super::Shown::cell);
    let head = ["gross", "tongue", "share"].map(str::to_owned);
    let every: Vec<[String; 3]> = std::iter::once(head).chain(all.iter().map(cells)).collect();
    let width = |column: usize| every.iter().filter_map(|row| row.get(column)).map(|cell| cell.width()).max();
    let words = std::iter::once("").chain(all.iter().map(|one| one.way.words.as_str()));
    for (row, words) in every.iter().zip(words) {
        let figures = row.iter().enumerate().map(|(at, cell)| flush_right(cell, width(at).unwrap_or(0)));
        let before = format!("  {}  ", figures.collect::<Vec<_>>().join("  "));
        lines.lines(hung(&before, words, lines.width));
    }
    let figures = all.iter().flat_map(|one| [&one.gross, &one.tongue]);
    lines.not_known(figures.filter_map(|figure| figure.missing()));
}

fn window(window: &Maybe<Window>, band: &Known<Band>, lines: &mut Lines) {
    let band = match band {
        Ok(band) => band,
        Err(missing) => {
            lines.line("axle window");
            lines.words(&format!("there is no band for the tongue share: {} is not in force", missing.what));
            return;
        }
    };
    let shown = |limit: &crate::weights::Limit| {
        format!("{} ({})", limit.share.show(pintle_quantity::Units::AsWritten), limit.rule)
    };
    lines.title(&format!(
        "axle window for a tongue share from {} to {}",
        shown(&band.least),
        shown(&band.most)
    ));
    let window = match window.as_result() {
        Ok(window) => window,
        Err(missing) => return lines.not_known([missing]),
    };
    let empty = window.stands == Some(Stands::NoWindow);
    let off = window.off.as_deref().unwrap_or_default();
    let stands = match window.stands {
        Some(Stands::Within) => format!("within: {off}"),
        Some(Stands::TooFarAhead) => format!("{off} too far ahead"),
        Some(Stands::TooFarBack) => format!("{off} too far back"),
        Some(Stands::NoWindow) | None => String::new(),
    };
    let (light, heavy) = (&window.foremost.way.words, &window.rearmost.way.words);
    let rows = [
        ("foremost", &window.foremost.behind_ball, format!("further ahead too light: {light}")),
        ("rearmost", &window.rearmost.behind_ball, format!("further back too heavy: {heavy}")),
        ("axle", &window.axle, stands),
    ];
    if empty {
        lines
            .words("there is no window: these two arrangements exclude each other, wherever the axle stands");
    }
    let widest = rows.iter().map(|(_, place, _)| place.cell().width()).max().unwrap_or(0);
    for (name, place, words) in rows {
        let before = format!("  {}  {}  ", flush_left(name, 8), flush_right(&place.cell(), widest));
        lines.lines(hung(&before, &words, lines.width));
    }
    lines.not_known(window.axle.missing());
    lines.words(
        "distances behind the ball; parts and the empty trailer's centre of gravity are held where they are",
    );
}
