//! `pintle sheet`.

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::path::Path;

use base64::Engine as _;
use scraper::{Html, Selector};
use sha2::{Digest as _, Sha256};

use crate::tool::{demo_shop, edit, pintle, pintle_in};

const SOUND: &str = "specs/builds/sound-6x12-round.toml";

fn sheet(spec: &str) -> (String, Html) {
    let ran = pintle(&["sheet", spec, "-o", "-"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let page = Html::parse_document(&ran.out);
    (ran.out, page)
}

fn all<'p>(page: &'p Html, selector: &str) -> Vec<scraper::ElementRef<'p>> {
    page.select(&Selector::parse(selector).unwrap()).collect()
}

/// Law 9 for pages: the page can hold nothing of its own but what the policy lets run, and reaches nothing.
fn holds_nothing_foreign(text: &str, page: &Html) {
    assert_eq!(all(page, "script").len(), 1);
    assert_eq!(all(page, "style").len(), 1);
    let policy = all(page, "meta[http-equiv='Content-Security-Policy']")[0]
        .value()
        .attr("content")
        .unwrap()
        .to_owned();
    for name in ["script", "style"] {
        let inner: String = all(page, name)[0].text().collect();
        let hash = base64::engine::general_purpose::STANDARD.encode(Sha256::digest(inner.as_bytes()));
        assert!(policy.contains(&format!("{name}-src 'sha256-{hash}'")), "{name}: {policy}");
    }
    assert!(policy.starts_with("default-src 'none'") && !policy.contains("unsafe"), "{policy}");
    let mut seen = 0;
    for element in all(page, "*") {
        for (name, value) in element.value().attrs() {
            seen += 1;
            assert!(
                name != "style" && !name.starts_with("on"),
                "<{}> has {name}={value}",
                element.value().name()
            );
            let address = ["href", "src", "action", "data", "xlink:href", "formaction"].contains(&name);
            let ending = Path::new(value).extension().and_then(|ending| ending.to_str());
            let inside = value.starts_with('#') || ending == Some("html") && !value.contains([':', '/']);
            assert!(!address || inside, "<{}> has {name}={value}", element.value().name());
        }
    }
    assert!(seen > 20);
    assert!(!text.contains("@import") && !text.contains("url(http"), "nothing is fetched");
}

#[test]
fn every_sheet_of_the_demo_holds_nothing_foreign() {
    for spec in ["sound-6x12-round", "overload-6x12", "stuffy-5x8", "quote-6x12", "sound-6x10-wedge"] {
        let (text, page) = sheet(&format!("specs/builds/{spec}.toml"));
        holds_nothing_foreign(&text, &page);
    }
}

/// Not looked at is not a pass: every rule in use is on the page, as what it came to.
#[test]
fn every_rule_and_every_finding_is_on_the_page() {
    for spec in ["specs/builds/overload-6x12.toml", "specs/builds/quote-6x12.toml", SOUND] {
        let (_, page) = sheet(spec);
        let shown: BTreeSet<String> = all(&page, "code").iter().map(|code| code.text().collect()).collect();
        let rules = pintle(&["rules", "--at", spec, "--format", "json"]);
        let rules: serde_json::Value = serde_json::from_str(&rules.out).unwrap();
        let mut count = 0;
        for rule in rules["rules"].as_array().unwrap() {
            let id = rule["rule"].as_str().or_else(|| rule["id"].as_str()).unwrap();
            // The tool's own rules judge the rulebook, and leave a reading only where it sets something.
            if rule["kept"].as_bool().unwrap_or(false) || id.starts_with("record/waiver-") {
                continue;
            }
            count += 1;
            let of_rulebook = [
                "record/limit-loosened",
                "record/grade-lowered",
                "record/stage-put-off",
                "record/backlog-stale",
            ];
            assert!(shown.contains(id) || of_rulebook.contains(&id), "{spec}: {id} is not on the page");
        }
        assert!(count > 200, "{count}");
        let judged = pintle(&["inspect", spec, "--format", "json"]);
        let judged: serde_json::Value = serde_json::from_str(&judged.out).unwrap();
        let readings = judged["specs"][0]["readings"].as_array().unwrap();
        let findings = readings.iter().filter(|reading| {
            ["fault", "cannot judge", "broken"].iter().any(|word| reading["verdict"] == *word)
        });
        assert_eq!(all(&page, "article.finding").len(), findings.count(), "{spec}");
    }
}

#[test]
fn the_head_says_what_came_of_it() {
    let verdict = |spec: &str| -> String {
        let (_, page) = sheet(spec);
        all(&page, ".verdict")[0].text().collect::<String>().split_whitespace().collect::<Vec<_>>().join(" ")
    };
    assert_eq!(verdict(SOUND), "✓released nothing at or above major is open");
    assert!(verdict("specs/builds/overload-6x12.toml").starts_with("✕held by "));
    assert!(verdict("specs/builds/quote-6x12.toml").contains("could not be judged"));
}

#[test]
fn the_same_files_give_the_same_page_and_any_change_another_revision() {
    let (first, page) = sheet(SOUND);
    assert_eq!(first, sheet(SOUND).0);
    let revision = |page: &Html| -> String {
        let facts = all(page, ".head .facts > div");
        let text: Vec<String> = facts.iter().map(|fact| fact.text().collect()).collect();
        text.into_iter().find_map(|fact| fact.strip_prefix("revision").map(str::to_owned)).unwrap()
    };
    let shop = demo_shop();
    let here = || {
        let ran = pintle_in(shop.path(), &["sheet", "builds/sound-6x12-round.toml", "-o", "-"]);
        revision(&Html::parse_document(&ran.out))
    };
    let before = here();
    assert_eq!(before.len(), 12);
    assert_eq!(before, here());
    edit(shop.path(), "stock/water.toml", "# ", "#  ");
    assert_ne!(before, here(), "a comment in the stock list is a change of its text");
    assert_eq!(revision(&page).len(), 12);
}

const EVIL: &str = "</style></script><script>alert(1)</script><img src=x onerror=alert(1)>\\\" onmouseover=\\\"alert(1) ' שלום";

/// Puts hostile words into every text of a spec that its author may choose.
fn hostile(shop: &Path, letters: usize) {
    let path = shop.join("builds/slid-axle-5x8.toml");
    let text = std::fs::read_to_string(&path).unwrap();
    let mut changed = String::new();
    let mut count = 0;
    for line in text.lines() {
        let key = line.split('=').next().unwrap_or_default().trim();
        if ["number", "title", "note", "by", "instrument", "who"].contains(&key) && line.contains('"') {
            count += 1;
            writeln!(changed, "{key} = \"{EVIL}{count}\"").unwrap();
        } else {
            changed.push_str(line);
            changed.push('\n');
        }
    }
    assert!(count > 5, "{count}");
    // A tag is a key too: it is quoted wherever it stands.
    let long = "x".repeat(letters);
    let changed = changed.replace("\"galley\"", &format!("\"{EVIL}{long}\""));
    std::fs::write(path, changed).unwrap();
}

#[test]
fn hostile_words_of_a_spec_stay_words() {
    let shop = demo_shop();
    hostile(shop.path(), 10_000);
    let refused = pintle_in(shop.path(), &["sheet", "builds/slid-axle-5x8.toml", "-o", "-"]);
    assert_eq!((refused.code, refused.out.as_str()), (2, ""), "a name of ten thousand letters is refused");
    let shop = demo_shop();
    hostile(shop.path(), 1_800);
    let ran = pintle_in(shop.path(), &["sheet", "builds/slid-axle-5x8.toml", "-o", "-"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let page = Html::parse_document(&ran.out);
    holds_nothing_foreign(&ran.out, &page);
    assert!(all(&page, "img").is_empty());
    assert!(
        all(&page, "h1")[0].text().collect::<String>().contains("<script>alert(1)</script>"),
        "shown, not obeyed"
    );
    let all_written = pintle_in(shop.path(), &["sheet", "--all", "site", "builds/slid-axle-5x8.toml"]);
    assert_eq!(all_written.code, 0, "{}", all_written.err);
    let index = std::fs::read_to_string(shop.path().join("site/index.html")).unwrap();
    holds_nothing_foreign(&index, &Html::parse_document(&index));
}

#[test]
fn a_sheet_replaces_a_sheet_and_nothing_else() {
    let shop = demo_shop();
    let spec = "builds/sound-5x8-round.toml";
    let ran = pintle_in(shop.path(), &["sheet", spec]);
    assert_eq!(
        (ran.code, ran.out.as_str()),
        (0, "the sheet of `builds/sound-5x8-round.toml` is in `sound-5x8-round.html`\n")
    );
    assert_eq!(pintle_in(shop.path(), &["sheet", spec]).code, 0, "an earlier sheet is replaced");
    std::fs::write(shop.path().join("mine.html"), "<p>my own</p>").unwrap();
    let refused = pintle_in(shop.path(), &["sheet", spec, "-o", "mine.html"]);
    assert_eq!(refused.code, 2);
    assert!(refused.err.contains("it is there already, and is no sheet of this tool's"), "{}", refused.err);
    assert_eq!(std::fs::read_to_string(shop.path().join("mine.html")).unwrap(), "<p>my own</p>");
    let many = pintle_in(shop.path(), &["sheet", "builds"]);
    assert_eq!(many.code, 2);
    assert!(
        many.err.contains("a sheet is of one spec, and 12 are found") && many.err.contains("--all"),
        "{}",
        many.err
    );
}

#[test]
fn a_folder_of_sheets_has_an_index_that_leaves_nothing_out() {
    let shop = demo_shop();
    std::fs::create_dir(shop.path().join("old")).unwrap();
    std::fs::copy(
        shop.path().join("builds/sound-5x8-round.toml"),
        shop.path().join("old/Sound-5x8-round.toml"),
    )
    .unwrap();
    edit(shop.path(), "builds/tall-rack-6x10.toml", "[trailer]", "[trialer]");
    let ran = pintle_in(shop.path(), &["sheet", "--all", "site"]);
    assert_eq!(ran.code, 2, "one spec cannot be read");
    assert!(ran.err.contains("trialer"), "{}", ran.err);
    let index = std::fs::read_to_string(shop.path().join("site/index.html")).unwrap();
    let page = Html::parse_document(&index);
    assert_eq!(all(&page, "tr[data-verdict]").len(), 13);
    let broken = all(&page, "tr[data-verdict='input wrong']");
    assert_eq!(broken.len(), 1);
    assert!(broken[0].text().collect::<String>().contains("trialer"));
    let links = all(&page, "th a");
    assert_eq!(links.len(), 12);
    for link in links {
        let file = shop.path().join("site").join(link.value().attr("href").unwrap());
        let sheet = std::fs::read_to_string(&file).unwrap();
        assert!(sheet.contains("<title>Inspection sheet "), "{}", file.display());
    }
    let names: BTreeSet<String> = std::fs::read_dir(shop.path().join("site"))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().to_string_lossy().to_lowercase())
        .collect();
    assert_eq!(names.len(), 13, "names differ by more than their case");
}

#[test]
fn a_pdf_needs_a_browser_and_says_so() {
    let shop = demo_shop();
    let run = |path: &str, stated: &str| {
        let output = std::process::Command::new(env!("CARGO_BIN_EXE_pintle"))
            .args(["sheet", "builds/sound-5x8-round.toml", "--pdf"])
            .current_dir(shop.path())
            .env("PATH", path)
            .env("PINTLE_CHROMIUM", stated)
            .output()
            .unwrap();
        (output.status.code(), String::from_utf8(output.stderr).unwrap())
    };
    let (code, said) = run("/nowhere", "");
    assert_eq!(code, Some(2));
    assert!(said.contains("none is installed here") && said.contains("without `--pdf`"), "{said}");
    let (code, said) = run("/nowhere", "/nowhere/chromium");
    assert_eq!(code, Some(2));
    assert!(said.contains("`PINTLE_CHROMIUM` names"), "{said}");
    let (code, said) = run("/nowhere", "/bin/false");
    assert_eq!(code, Some(2));
    assert!(said.contains("did not print the sheet"), "{said}");
    assert!(!shop.path().join("sound-5x8-round.pdf").exists());
}
