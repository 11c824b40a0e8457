//! Rulebook files that stand on each other, and the rulebook of one build.

use std::path::Path;

use serde_json::Value;

use crate::tool::{Ran, demo_shop, edit, pintle_in};

const SPEC: &str = "builds/sound-6x12-round.toml";

fn write(folder: &Path, file: &str, text: &str) {
    let path = folder.join(file);
    std::fs::create_dir_all(path.parent().unwrap()).unwrap();
    std::fs::write(path, text).unwrap();
}

fn limit(value: &str, reason: &str) -> String {
    format!(
        "[[limit]]\nrule = \"towing/light-tongue\"\nlimit = \"least\"\nvalue = \"{value}\"\nreason = \"{reason}\"\n"
    )
}

/// A repository with a company's rulebook, and in `shop` a copy of the demo shop that stands on it.
fn repository(company: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let top = folder.path();
    std::fs::create_dir(top.join(".git")).unwrap();
    std::fs::create_dir(top.join("shop")).unwrap();
    crate::tool::copy(&crate::tool::top().join("specs"), &top.join("shop"));
    write(top, "company/pintle.toml", company);
    let own = std::fs::read_to_string(top.join("shop/pintle.toml")).unwrap();
    let own: String = own
        .lines()
        .filter(|line| !line.starts_with("from"))
        .fold(String::new(), |text, line| text + line + "\n");
    write(top, "shop/pintle.toml", &format!("from = [\"../company/pintle.toml\"]\n{own}"));
    folder
}

fn json(ran: &Ran) -> Value {
    serde_json::from_str(&ran.out).unwrap_or_else(|error| panic!("{error}: {} {}", ran.out, ran.err))
}

#[test]
fn explain_shows_everybody_who_set_a_limit() {
    let folder = repository(&limit("11 %", "long wheelbases"));
    let shop = folder.path().join("shop");
    let own = std::fs::read_to_string(shop.join("pintle.toml")).unwrap();
    write(&shop, "pintle.toml", &(own + limit("10.5 %", "ours are shorter").as_str()));
    let ran = pintle_in(folder.path(), &["explain", "towing/light-tongue", "--at", "shop"]);
    assert_eq!(ran.code, 0, "{}", ran.out);
    let at = ran.out.find("least = 10.5 % (shop), set by shop/pintle.toml:").unwrap();
    let lines: Vec<&str> = ran.out.split_at(at).1.lines().skip(1).take(3).map(str::trim).collect();
    assert!(lines[0].starts_with("- 10 %, rules/towing/light-tongue.toml:"), "{lines:#?}");
    assert!(lines[1].starts_with("- 11 %, company/pintle.toml:4: long wheelbases"), "{lines:#?}");
    assert!(lines[2].starts_with("- 10.5 %, shop/pintle.toml:") && lines[2].ends_with(": ours are shorter"));
    let ran =
        pintle_in(folder.path(), &["explain", "towing/light-tongue", "--at", "shop", "--format", "json"]);
    let document = json(&ran);
    assert_eq!(
        (&document["format"], &document["rule"]),
        (&"pintle-rule".into(), &"towing/light-tongue".into())
    );
    assert_eq!(document["waivable"], false);
    let chain = document["limits"][0]["set_by"]["chain"].as_array().unwrap();
    let files: Vec<&str> = chain.iter().map(|one| one["file"].as_str().unwrap()).collect();
    assert_eq!(files, ["rules/towing/light-tongue.toml", "company/pintle.toml", "shop/pintle.toml"]);
    assert_eq!(chain[1]["place"]["start"]["line"], 4);
    // The same is carried in the readings, and the rulebook says which files it is made of.
    let ran = pintle_in(folder.path(), &["inspect", "--format", "json", &format!("shop/{SPEC}")]);
    let document = json(&ran);
    let readings = document["specs"][0]["readings"].as_array().unwrap();
    let tongue = readings.iter().find(|reading| reading["rule"] == "towing/light-tongue").unwrap();
    assert_eq!(tongue["limit"]["set_by"]["chain"][1]["reason"], "long wheelbases");
    let layers = document["rulebooks"][0]["layers"].as_array().unwrap();
    assert_eq!(layers, &[Value::from("company/pintle.toml"), Value::from("shop/pintle.toml")]);
    // 10.5 % is looser than the company's 11 %, of a rule that cannot be waived: it is held, and says so.
    let of_shop = document["rulebooks"][0]["readings"].as_array().unwrap();
    let loose =
        |reading: &&Value| reading["rule"] == "record/limit-loosened" && reading["verdict"] == "fault";
    let loose: Vec<&Value> = of_shop.iter().filter(loose).collect();
    assert_eq!((loose.len(), &loose[0]["grade"], ran.code), (1, &"critical".into(), 1));
}

#[test]
fn paths_count_from_the_file_that_writes_them() {
    let folder = repository("stock = [\"parts\"]\npacks = [\"./rules/ours\", \"towing\"]\n");
    let top = folder.path();
    std::fs::rename(top.join("shop/stock"), top.join("company/parts")).unwrap();
    let own = std::fs::read_to_string(top.join("shop/pintle.toml")).unwrap();
    let own: String = own
        .lines()
        .take_while(|line| !line.starts_with("[["))
        .filter(|line| !line.starts_with("stock") && !line.starts_with("packs"))
        .fold(String::new(), |text, line| text + line + "\n");
    write(top, "shop/pintle.toml", &own);
    write(top, "company/rules/ours/README.md", "no rules yet\n");
    let ran = pintle_in(top, &["inspect", "--format", "json", &format!("shop/{SPEC}")]);
    let document = json(&ran);
    assert_eq!((ran.code, &document["problems"]), (0, &Value::Array(Vec::new())), "{}", ran.out);
    let readings = document["specs"][0]["readings"].as_array().unwrap();
    assert!(readings.iter().all(|reading| reading["rule"].as_str().unwrap().starts_with("towing/")));
}

#[test]
fn files_that_cannot_be_stood_on_are_refused_where_they_are_named() {
    for (company, from, code, said) in [
        (
            "from = [\"../shop/pintle.toml\"]",
            "../company/pintle.toml",
            "ring-of-rulebooks",
            "`shop/pintle.toml` on `company/pintle.toml` on `shop/pintle.toml`",
        ),
        ("", "pintle.toml", "ring-of-rulebooks", "in a ring: `shop/pintle.toml` on `shop/pintle.toml`"),
        ("", "../company/pintel.toml", "no-rulebook", "cannot be opened: there is no such file"),
        ("", "../company", "no-rulebook", "is not a file"),
        ("", "/etc/hostname", "out-of-repository", "leads out of the repository"),
        ("", "../../../pintle.toml", "no-rulebook", "cannot be opened"),
        ("[[limt]]", "../company/pintle.toml", "unknown-key", "`limt`"),
    ] {
        let folder = repository(company);
        edit(folder.path(), "shop/pintle.toml", "../company/pintle.toml", from);
        let ran = pintle_in(folder.path(), &["inspect", "--format", "plain", &format!("shop/{SPEC}")]);
        assert_eq!(ran.code, 2, "{from}: {}", ran.out);
        let line = ran.out.lines().find(|line| line.contains(code)).unwrap_or_else(|| panic!("{}", ran.out));
        assert!(line.contains(said), "{from}: {line}");
        let file = if company.is_empty() { "shop/pintle.toml:" } else { "company/pintle.toml:" };
        assert!(line.starts_with(file), "{from}: {line}");
    }
}

#[test]
fn a_bomb_of_rulebooks_goes_off_at_once() {
    // Seven rows of four, each standing on all four of the next: 4^7 ways from top to bottom, and 28 files.
    let folder = repository("");
    let row = |row: usize| (0..4).map(|at| format!("\"row-{row}-{at}.toml\"")).collect::<Vec<_>>().join(", ");
    for at in 0..7 {
        for file in 0..4 {
            let text = if at == 6 { String::new() } else { format!("from = [{}]\n", row(at + 1)) };
            write(folder.path(), &format!("company/row-{at}-{file}.toml"), &text);
        }
    }
    write(folder.path(), "company/pintle.toml", &format!("from = [{}]\n", row(0)));
    let ran = pintle_in(folder.path(), &["inspect", "--format", "plain", &format!("shop/{SPEC}")]);
    assert_eq!(ran.code, 2, "{}", ran.out);
    assert!(ran.out.contains("more than 8 rulebooks stand on each other in a row"), "{}", ran.out);
    // A wide one: forty files in one list.
    let many: Vec<String> = (0..40).map(|at| format!("\"wide-{at}.toml\"")).collect();
    for at in 0..40 {
        write(folder.path(), &format!("company/wide-{at}.toml"), "");
    }
    write(folder.path(), "company/pintle.toml", &format!("from = [{}]\n", many.join(", ")));
    let ran = pintle_in(folder.path(), &["inspect", "--format", "plain", &format!("shop/{SPEC}")]);
    let said: Vec<&str> = ran.out.lines().filter(|line| line.contains("many-rulebooks")).collect();
    assert_eq!((ran.code, said.len()), (2, 1), "{}", ran.out);
    assert!(said[0].contains("more than 32 files"), "{said:?}");
}

#[test]
fn a_build_has_a_rulebook_of_its_own_and_no_other_build_has_it() {
    let shop = demo_shop();
    let own = "[[limit]]\nrule = \"towing/heavy-tongue\"\nlimit = \"most\"\nvalue = \"12 %\"\nreason = \"its wagon\"\n";
    write(shop.path(), "builds/sound-6x12-round.pintle.toml", own);
    let of = |spec: &str| {
        let ran = pintle_in(shop.path(), &["inspect", "--format", "plain", spec]);
        (ran.code, ran.out.lines().filter(|line| line.contains(": towing/heavy-tongue: ")).count())
    };
    let (code, faults) = of(SPEC);
    assert!(code == 1 && faults > 0, "{code}, {faults}");
    assert_eq!(of("builds/sound-7x14-tandem.toml").0, 0);
    // All at once it is the same, and the file itself is taken for no spec.
    let ran = pintle_in(shop.path(), &["inspect", "--format", "plain", "builds"]);
    assert!(ran.out.contains("looked at 12 specs;") && ran.code == 1, "{}", ran.out);
    assert!(ran.out.contains(
        "limit set by builds/sound-6x12-round.pintle.toml:4:9: its wagon (was 14 % by pintle.toml:"
    ));
    // A file without its spec is seen, and so is what such a file may not set.
    write(shop.path(), "builds/sound-6x13-round.pintle.toml", own);
    let ran = pintle_in(shop.path(), &["inspect", "--format", "plain", "builds"]);
    assert_eq!(ran.code, 2);
    assert!(
        ran.out.contains("stray-rulebook: `builds/sound-6x13-round.pintle.toml` is the rulebook of no build")
    );
    write(shop.path(), "builds/sound-6x12-round.pintle.toml", "packs = [\"gas\"]\n");
    let ran = pintle_in(shop.path(), &["inspect", "--format", "plain", SPEC]);
    assert_eq!(ran.code, 2);
    assert!(
        ran.out.contains("builds/sound-6x12-round.pintle.toml:1:9: input wrong: not-of-a-build"),
        "{}",
        ran.out
    );
}
