//! What is printed: colour only where it is wanted, nothing that a terminal obeys, one line a finding.

use crate::tool::{demo_shop, edit, pintle, pintle_in};

#[test]
fn colour_only_when_asked_for_or_on_a_terminal() {
    let spec = "specs/builds/rear-galley-5x8.toml";
    assert!(!pintle(&["inspect", spec]).out.contains('\u{1b}'), "a pipe is no terminal");
    assert!(pintle(&["inspect", "--color", "always", spec]).out.contains('\u{1b}'));
    assert!(!pintle(&["inspect", "--color", "never", spec]).out.contains('\u{1b}'));
    assert!(
        !pintle(&["inspect", "--format", "plain", "--color", "always", spec]).out.contains('\u{1b}'),
        "plain is plain"
    );
}

#[test]
fn plain_is_one_line_a_finding() {
    let ran = pintle(&["inspect", "--format", "plain", "specs/builds/tall-rack-6x10.toml"]);
    // Places are in the spec, in the stock list and in the rulebook, whose waivers are judged too.
    let grades = ["critical", "major", "minor", "advice"];
    let findings = ran.out.lines().filter(|line| {
        let after = line.splitn(4, ':').nth(3).unwrap_or_default().trim_start();
        let words = after.split(": ").next().unwrap_or_default();
        line.starts_with("specs/") && grades.iter().any(|grade| words.starts_with(grade))
    });
    let (unjudged, faulty): (Vec<&str>, Vec<&str>) =
        findings.partition(|line| line.contains(", cannot judge: "));
    let json = pintle(&["inspect", "--format", "json", "specs/builds/tall-rack-6x10.toml"]);
    let document: serde_json::Value = serde_json::from_str(&json.out).unwrap();
    let readings = document["specs"][0]["readings"].as_array().unwrap();
    let of_book = document["rulebooks"][0]["readings"].as_array().unwrap();
    let count = |verdict: &str| {
        let all = readings.iter().chain(of_book).filter(|reading| reading["verdict"] == verdict);
        all.count()
    };
    assert!(count("fault") >= 5 && count("cannot judge") >= 1);
    assert_eq!((faulty.len(), unjudged.len()), (count("fault"), count("cannot judge")), "{}", ran.out);
    assert!(ran.out.is_ascii() || !ran.out.contains(['│', '╭', '╰', '×']), "no drawing in plain output");
}

#[test]
fn hostile_names_reach_no_terminal() {
    let shop = demo_shop();
    let spec = "builds/rear-galley-5x8.toml";
    let evil = "tag       = \"galley\\u001b[31m\\u202e\\u0007\"";
    edit(shop.path(), spec, "tag       = \"galley\"", evil);
    edit(shop.path(), spec, "out   = [\"galley\"]", "out   = [\"galley\\u001b[31m\\u202e\\u0007\"]");
    for format in ["human", "plain", "json"] {
        let ran = pintle_in(shop.path(), &["inspect", "--format", format, spec]);
        // A name with hidden characters is refused, and the refusal passes none of them on.
        assert_eq!(ran.code, 2, "{format}: {}", ran.out);
        assert!(ran.out.contains("hidden-character"), "{format}: {}", ran.out);
        for bad in ['\u{1b}', '\u{202e}', '\u{7}'] {
            assert!(!ran.out.contains(bad), "{format} passes {bad:?} on");
        }
    }
    let ran = pintle_in(shop.path(), &["weigh", spec]);
    assert!(ran.err.contains("galley") && !ran.err.contains('\u{1b}'), "{}", ran.err);
}

#[test]
fn units_can_be_asked_for() {
    let metric =
        pintle(&["inspect", "--format", "plain", "--units", "metric", "specs/builds/overload-6x12.toml"]).out;
    let line = metric.lines().find(|line| line.contains("towing/over-gvwr")).unwrap();
    assert!(line.contains("1,379 kg ±") && line.contains(" kg, more than 1,356 kg"), "{line}");
}
