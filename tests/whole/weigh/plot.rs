//! `pintle weigh --plot`. What is drawn is read back in `crates/report`.

use std::path::Path;

use super::{SOUND, before_berths};
use crate::tool::{Ran, demo_shop, edit, pintle_in};

fn plot(folder: &Path, spec: &str, file: &str) -> Ran {
    pintle_in(folder, &["weigh", spec, "--plot", file])
}

/// Names in a folder.
fn names(folder: &Path) -> Vec<String> {
    let entries = std::fs::read_dir(folder).unwrap();
    let mut names: Vec<String> =
        entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

#[test]
fn the_envelope_is_drawn_beside_the_table() {
    let shop = demo_shop();
    let before = names(shop.path());
    let ran = plot(shop.path(), SOUND, "envelope.svg");
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    assert!(
        ran.out.contains("gross ") && ran.out.ends_with("the envelope is drawn in `envelope.svg`\n"),
        "{}",
        ran.out
    );
    let svg = std::fs::read_to_string(shop.path().join("envelope.svg")).unwrap();
    assert!(svg.starts_with("<svg ") && svg.ends_with("</svg>\n"));
    for said in ["OM-112", "departure: everything aboard", "most tongue share", "tongue share at most 14 %"] {
        assert!(svg.contains(said), "no `{said}` in {svg}");
    }
    // Nothing else is left behind.
    let mut after = names(shop.path());
    after.retain(|name| name != "envelope.svg");
    assert_eq!(after, before);
}

#[test]
fn json_stays_json_and_both_say_the_same() {
    let shop = demo_shop();
    let ran =
        pintle_in(shop.path(), &["weigh", SOUND, "--plot", "e.svg", "--format", "json", "--units", "metric"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let document: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    let envelope = &document["specs"][0]["arrangements"]["envelope"];
    let points = envelope["points"].as_array().unwrap();
    assert_eq!(points.len() as u64, document["specs"][0]["arrangements"]["count"].as_u64().unwrap());
    let svg = std::fs::read_to_string(shop.path().join("e.svg")).unwrap();
    let (_, told) = svg.split_once("<desc>").unwrap();
    assert!(told.starts_with(&format!("{} arrangements", points.len())), "{told}");
    let heaviest = envelope["extremes"][1]["gross"]["shown"].as_str().unwrap();
    assert!(svg.contains(&format!("{heaviest} gross")), "no {heaviest} in {svg}");
}

/// Too many to be listed: the bounds and those marked are drawn, and it is said how many there are.
#[test]
fn more_arrangements_than_are_drawn_are_counted() {
    let shop = demo_shop();
    let crate_ = |number: usize| {
        format!(
            "[[item]]\ntag = \"crate-{number}\"\nkind = \"equipment\"\nmass = \"{number} lb\"\nlength = \"9 in\"\n\
             width = \"9 in\"\nheight = \"9 in\"\nat = {{ front = \"{number} in\", left = \"1 in\" }}\nremovable = true\n\n"
        )
    };
    let boxes: String = (1..12).map(crate_).collect();
    before_berths(shop.path(), &boxes);
    let ran = pintle_in(shop.path(), &["weigh", SOUND, "--plot", "e.svg", "--format", "json"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let document: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    let arrangements = &document["specs"][0]["arrangements"];
    assert!(arrangements["envelope"]["points"].is_null());
    assert_eq!(arrangements["envelope"]["not_listed"], arrangements["count"]);
    let count = arrangements["count"].as_u64().unwrap();
    assert!(count > 4096);
    let svg = std::fs::read_to_string(shop.path().join("e.svg")).unwrap();
    let shown = format!("{},{:03}", count / 1000, count % 1000);
    assert!(svg.contains(&format!("bounds of all {shown}")), "no {shown} in {svg}");
    assert!(svg.contains("too many to draw each"), "{svg}");
}

#[test]
fn an_earlier_drawing_is_replaced_and_nothing_else_is() {
    let shop = demo_shop();
    assert_eq!(plot(shop.path(), SOUND, "e.svg").code, 0);
    let first = std::fs::read_to_string(shop.path().join("e.svg")).unwrap();
    assert_eq!(plot(shop.path(), "builds/overload-6x12.toml", "e.svg").code, 0);
    let second = std::fs::read_to_string(shop.path().join("e.svg")).unwrap();
    assert!(first.contains("OM-112") && second.contains("OM-126") && !second.contains("OM-112"));
    for (file, text) in [("notes.txt", "mine"), ("mine.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\"/>")] {
        std::fs::write(shop.path().join(file), text).unwrap();
        let ran = plot(shop.path(), SOUND, file);
        assert_eq!(ran.code, 2);
        assert!(ran.err.contains("it is there already, and is no drawing of this tool's"), "{}", ran.err);
        assert_eq!(std::fs::read_to_string(shop.path().join(file)).unwrap(), text);
    }
    // A spec named by mistake is not drawn over.
    let spec = std::fs::read_to_string(shop.path().join(SOUND)).unwrap();
    assert_eq!(plot(shop.path(), SOUND, SOUND).code, 2);
    assert_eq!(std::fs::read_to_string(shop.path().join(SOUND)).unwrap(), spec);
}

#[test]
fn places_that_cannot_be_written_are_said() {
    let shop = demo_shop();
    for (file, said) in [
        ("builds", "it is a folder"),
        ("nowhere/e.svg", "there is no folder"),
        ("pintle.toml/e.svg", "there is no folder"),
        ("", "it is a folder"),
    ] {
        let ran = plot(shop.path(), SOUND, file);
        assert_eq!(ran.code, 2, "{file}");
        assert!(ran.err.contains(said), "{file}: {}", ran.err);
        assert!(ran.err.contains("help: "), "{}", ran.err);
    }
}

#[cfg(unix)]
#[test]
fn links_are_followed_and_new_files_are_open_to_others() {
    use std::os::unix::fs::{PermissionsExt, symlink};

    let shop = demo_shop();
    assert_eq!(plot(shop.path(), SOUND, "e.svg").code, 0);
    let plain = shop.path().join("plain");
    std::fs::write(&plain, "").unwrap();
    let mode = |path: &Path| path.metadata().unwrap().permissions().mode() & 0o777;
    assert_eq!(mode(&shop.path().join("e.svg")), mode(&plain), "as any new file");
    symlink("e.svg", shop.path().join("link.svg")).unwrap();
    assert_eq!(plot(shop.path(), "builds/overload-6x12.toml", "link.svg").code, 0);
    assert!(shop.path().join("link.svg").is_symlink());
    assert!(std::fs::read_to_string(shop.path().join("e.svg")).unwrap().contains("OM-126"));
}

#[test]
fn several_specs_and_one_that_is_not_known_are_not_drawn() {
    let shop = demo_shop();
    let ran = plot(shop.path(), "builds", "e.svg");
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert!(ran.err.contains("`--plot` draws one spec, and 12 are named"), "{}", ran.err);
    let ran = plot(shop.path(), "builds/quote-6x12.toml", "e.svg");
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("the envelope cannot be drawn without `mass` of item `cabinet`"), "{}", ran.err);
    assert!(ran.err.contains("quote-6x12.toml:"), "it says where: {}", ran.err);
    assert!(ran.out.contains("quote"), "the table is printed all the same");
    assert!(!shop.path().join("e.svg").exists());
}

/// Tags and titles are text: they are written out, and turn nothing round.
#[test]
fn hostile_words_are_only_words() {
    let shop = demo_shop();
    let title = "6x12 round nose, kerb-side galley, settee, roof tent";
    edit(shop.path(), SOUND, title, "</title><script>alert('1')</script> & \\\" \\u05d0");
    edit(shop.path(), SOUND, "\"galley\"", "\"<g onload='x'>&amp;\"");
    assert_eq!(plot(shop.path(), SOUND, "e.svg").code, 0);
    let svg = std::fs::read_to_string(shop.path().join("e.svg")).unwrap();
    assert!(!svg.contains("<script") && !svg.contains("<g onload"), "{svg}");
    assert!(svg.contains("&lt;/title&gt;&lt;script&gt;") && svg.contains("&amp;amp;"), "{svg}");
}
