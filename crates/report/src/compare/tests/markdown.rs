//! Foreign text in markdown, read back by an independent parser (`pulldown-cmark`, with the tables, strikethrough, task
//! lists, footnotes and mathematics that the places which take comments know).

use pintle_finding::{Bound, Grade, Reading, Subject, Verdict};
use pulldown_cmark::{Event, Options, Parser, Tag};

use super::super::markdown::{code, escaped, text};
use super::super::*;
use super::{SPEC, side};
use crate::{Look, sample};

/// The only tags that are ours.
const OURS: &[&str] = &["<code>", "</code>", "<details>", "</details>", "<summary>", "</summary>"];

const HOSTILE: &[&str] = &[
    "a | b | c",
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "</code></td></table><h1>owned</h1>",
    "<!-- hidden",
    "</details>",
    "[click](https://example.invalid/)",
    "![picture](https://example.invalid/a.png)",
    "https://example.invalid/a and www.example.invalid",
    "mail someone@example.invalid",
    "@someone @some/team",
    "#12 some/repo#12 GH-12",
    "**bold** _slanted_ ~~struck~~ `code` ``more``",
    "`unclosed",
    "three ` of ` these `",
    "$x^2$ $$y$$ \\(z\\)",
    ":tada: [^1] [x] - [ ] task",
    "&lt;b&gt; &amp; &#64;",
    "\\| \\` \\\\",
    "# heading",
    "two\nlines\r\n\n| and | a row |",
    "| --- | --- |",
];

/// All that the parser knows, but for rounding quotes and dashes, which changes no meaning.
fn options() -> Options {
    Options::all().difference(Options::ENABLE_SMART_PUNCTUATION)
}

/// What a reader sees, and every tag that the parser left standing.
fn seen(markdown: &str) -> (String, Vec<String>) {
    let (mut words, mut tags) = (String::new(), Vec::new());
    for event in Parser::new_ext(markdown, options()) {
        match event {
            Event::Text(text) => words.push_str(&text),
            Event::SoftBreak | Event::HardBreak => words.push('\n'),
            Event::InlineHtml(tag) | Event::Html(tag) => {
                // A block of HTML may hold several tags on a line.
                let mut rest = tag.trim();
                while let Some((before, after)) = rest.split_once('>') {
                    let (text, name) = before.rsplit_once('<').unwrap_or(("", before));
                    words.push_str(text);
                    tags.push(format!("<{name}>"));
                    rest = after;
                }
                words.push_str(rest);
            }
            Event::Start(
                Tag::Paragraph
                | Tag::Table(_)
                | Tag::TableHead
                | Tag::TableRow
                | Tag::TableCell
                | Tag::HtmlBlock
                | Tag::List(_)
                | Tag::Item
                | Tag::Heading { .. }
                | Tag::Strong,
            )
            | Event::End(_) => words.push(' '),
            other => panic!("{other:?} in\n{markdown}"),
        }
    }
    (words, tags)
}

#[test]
fn nothing_foreign_is_obeyed_and_nothing_is_lost() {
    for hostile in HOSTILE {
        let shown = crate::safe::line(hostile).into_owned();
        let (words, tags) =
            seen(&format!("| {} | after |\n|---|---|\n| {} | x |\n", code(hostile), code(hostile)));
        assert_eq!(words.matches(&shown).count(), 2, "`{hostile}` is shown as `{words}`");
        assert!(tags.iter().all(|tag| OURS.contains(&tag.as_str())), "{hostile}: {tags:?}");
        assert!(words.contains("after"), "`{hostile}` swallows the next cell: {words}");

        let (words, tags) = seen(&format!("| {} | after |\n|---|---|\n", escaped(hostile)));
        // Within a sentence backticks are taken for code, where they close.
        let squeezed = |text: &str| text.replace(['`', ' '], "");
        assert!(squeezed(&words).contains(&squeezed(&shown)), "`{hostile}` is shown as `{words}`");
        assert!(tags.iter().all(|tag| OURS.contains(&tag.as_str())), "{hostile}: {tags:?}");
        assert!(words.contains("after"), "`{hostile}` swallows the next cell: {words}");
    }
}

/// What other readers of markdown look for, and this parser does not: bare addresses, and tags that are never closed.
#[test]
fn no_address_and_no_bracket_is_left_as_it_was() {
    for hostile in HOSTILE {
        for mut written in [code(hostile), escaped(hostile)] {
            for tag in OURS {
                written = written.replace(tag, "");
            }
            assert!(!written.contains(['<', '>', '`', '|', '[', '*', '_', '$']), "`{hostile}`: {written}");
            assert!(!written.contains("://") && !written.contains("www."), "`{hostile}`: {written}");
        }
    }
}

/// Mentions and numbers of issues are looked for in the words outside code, after the markdown has been read.
#[test]
fn no_mention_stands_outside_code() {
    for hostile in HOSTILE {
        let markdown = format!("{} {}", escaped(hostile), code(hostile));
        let mut depth = 0;
        for event in Parser::new_ext(&markdown, options()) {
            match event {
                Event::InlineHtml(tag) if &*tag == "<code>" => depth += 1,
                Event::InlineHtml(tag) if &*tag == "</code>" => depth -= 1,
                Event::Text(text) if depth == 0 => {
                    assert!(!text.contains(['@', '#']), "`{hostile}`: `{text}`");
                }
                _ => {}
            }
        }
        assert_eq!(depth, 0, "{hostile}");
    }
}

#[test]
fn a_whole_report_keeps_its_tables_with_hostile_names_in_every_place() {
    for hostile in HOSTILE {
        let reading = |verdict| Reading {
            subject: Subject { kind: "road state", name: (*hostile).to_owned(), span: None },
            what: (*hostile).to_owned(),
            bound: Bound::Holds((*hostile).to_owned()),
            reason: Some((*hostile).to_owned()),
            ..sample::reading(verdict, Grade::Major)
        };
        let titled = |reading| {
            let mut side = side(SPEC, vec![reading]);
            for name in [&mut side.inspection.spec, &mut side.inspection.number, &mut side.inspection.title] {
                (*hostile).clone_into(name);
            }
            Some(side)
        };
        let problem = Problem::new("syntax", *hostile).help(*hostile);
        let found = compare(
            titled(reading(Verdict::Pass)),
            titled(reading(Verdict::Fault)),
            Matched::Call,
            Grade::Major,
        );
        let changes =
            Changes::new(Grade::Major, vec![found], Vec::new(), vec![(vec![problem], Sources::new())]);
        let markdown = text(&changes, &Look::default());
        let (_, tags) = seen(&markdown);
        assert!(tags.iter().all(|tag| OURS.contains(&tag.as_str())), "{hostile}: {tags:?}\n{markdown}");
        let rows: Vec<&str> = markdown.lines().filter(|line| line.starts_with('|')).collect();
        assert_eq!(rows.len(), 3, "{hostile}: head, rule and one row\n{markdown}");
        assert!(rows.iter().all(|row| row.matches('|').count() == 6), "{hostile}: {rows:?}");
    }
}

#[test]
fn a_report_too_long_for_a_comment_says_what_it_leaves_out() {
    let fault = |at: usize| Reading {
        subject: Subject { kind: "road state", name: format!("state {at}"), span: None },
        ..sample::reading(Verdict::Fault, Grade::Major)
    };
    let one = |spec: usize| {
        let faults = (0..50).map(fault).collect();
        let mut found =
            compare(Some(side(SPEC, Vec::new())), Some(side(SPEC, faults)), Matched::Path, Grade::Major);
        found.new.as_mut().unwrap().spec = format!("spec-{spec:03}.toml");
        found
    };
    let changes = Changes::new(Grade::Major, (0..300).map(one).collect(), Vec::new(), Vec::new());
    let markdown = text(&changes, &Look::default());
    assert!(markdown.len() < 65_000, "{}", markdown.len());
    assert!(markdown.contains("15000 new faults at or above major"), "the headline holds for all");
    assert!(markdown.contains("and 10 more, which the plain form lists"), "rows left out are counted");
    let told = markdown.matches("\n#### ").count();
    let named = markdown.matches("\n- new fault: <code>spec-").count();
    assert!(told > 0 && named == 100, "{told} told, {named} named");
    let left = 300 - told;
    assert!(markdown.contains(&format!("{left} changed specs not told here")), "{markdown}");
    assert!(markdown.contains(&format!("- and {} more", left - 100)));
}
