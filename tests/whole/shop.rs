//! A shop's own rulebook: overrides, its own rules, `explain` and `trial`.

use crate::tool::{demo_shop, edit, pintle, pintle_in, top};

#[test]
fn explain_says_which_limit_is_in_force_and_who_set_it() {
    let shop = demo_shop();
    let ran = pintle_in(shop.path(), &["explain", "towing/heavy-tongue"]);
    assert_eq!(ran.code, 0);
    assert!(ran.out.contains("most = 14 % (shop), set by pintle.toml:"), "{}", ran.out);
    assert!(ran.out.contains("(the rule says 15 %)"), "{}", ran.out);
    let ran = pintle_in(shop.path(), &["explain", "towing/light-tongue"]);
    assert!(
        ran.out.contains("least = 10 % (common practice), set by rules/towing/light-tongue.toml"),
        "{}",
        ran.out
    );
    let ran = pintle_in(shop.path(), &["explain", "towing/light-tounge"]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.contains("did you mean `towing/light-tongue`?"), "{}", ran.out);
}

#[test]
fn an_override_changes_the_verdict_and_shows_in_it() {
    let shop = demo_shop();
    let spec = "builds/sound-6x12-round.toml";
    assert_eq!(pintle_in(shop.path(), &["inspect", spec]).code, 0);
    edit(shop.path(), "pintle.toml", "value  = \"14 %\"", "value  = \"12 %\"");
    let ran = pintle_in(shop.path(), &["inspect", "--format", "plain", spec]);
    assert_eq!(ran.code, 1);
    let line = ran.out.lines().find(|line| line.contains(": towing/heavy-tongue: ")).unwrap();
    assert!(line.contains("more than 12 % (most)") && line.contains("limit set by pintle.toml:"), "{line}");
}

#[test]
fn mistakes_in_the_rulebook_are_said() {
    let shop = demo_shop();
    edit(shop.path(), "pintle.toml", "rule   = \"towing/heavy-tongue\"", "rule   = \"towing/heavy-toung\"");
    edit(
        shop.path(),
        "pintle.toml",
        "stock = [\"stock\"]",
        "stock = [\"stock\"]\npacks = [\"towing\", \"gass\"]",
    );
    let ran = pintle_in(shop.path(), &["inspect", "--format", "plain", "builds/sound-5x8-round.toml"]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.contains("did you mean `towing/heavy-tongue`?"), "{}", ran.out);
    assert!(ran.out.contains("did you mean `gas`?"), "{}", ran.out);
}

/// A shop's own rule, written from nothing.
#[test]
fn a_shop_writes_a_rule() {
    let shop = demo_shop();
    let pack = shop.path().join("rules/ours");
    std::fs::create_dir_all(&pack).unwrap();
    edit(
        shop.path(),
        "pintle.toml",
        "stock = [\"stock\"]",
        "stock = [\"stock\"]\npacks = [\"built-in\", \"./rules/ours\"]",
    );
    let rule = r#"
title  = "galley heavier than two people lift"
why    = "Two people carry a galley out on every trip."
judges = "removable"
grade  = "major"
from   = "design"

[limit.most]
value = "100 lb"
basis = "shop"

[[source]]
basis = "shop"
says  = "two people lift no more than 100 lb between them"

[[trial]]
name   = "a galley of 119 lb"
base   = "sound-6x12-round"
with   = { "item.galley.mass" = "119 lb ± 1 lb", "item.galley.mass_basis" = "weighed" }
expect = "fault"
marks  = "item.galley"
"#;
    std::fs::write(pack.join("too-heavy-to-lift.toml"), rule).unwrap();
    let ran = pintle_in(shop.path(), &["trial", "ours"]);
    assert_eq!(ran.code, 2, "a rule without its script");
    assert!(ran.out.contains("has no script beside it"), "{}", ran.out);

    let script =
        "reading(item.mass)\n    .at_most(limit.most)\n    .remedy(\"split it, or give it wheels\");\n";
    std::fs::write(pack.join("too-heavy-to-lift.rhai"), script).unwrap();
    let ran = pintle_in(shop.path(), &["trial", "ours"]);
    assert_eq!((ran.code, ran.out.as_str()), (0, "1 rule, 1 trial: 1 as expected, 0 not\n"));
    let ran = pintle_in(shop.path(), &["inspect", "--format", "plain", "builds/sound-6x12-round.toml"]);
    assert!(ran.out.contains("ours/too-heavy-to-lift"), "{}", ran.out);

    // Two rules of one name, in two folders of the pack.
    std::fs::create_dir_all(pack.join("more")).unwrap();
    for ending in ["toml", "rhai"] {
        let name = format!("too-heavy-to-lift.{ending}");
        std::fs::copy(pack.join(&name), pack.join("more").join(&name)).unwrap();
    }
    let ran = pintle_in(shop.path(), &["trial", "ours"]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.contains("two rules are called `ours/too-heavy-to-lift`"), "{}", ran.out);
    std::fs::remove_dir_all(pack.join("more")).unwrap();

    // A mistake in the script is found on loading, at its line.
    std::fs::write(pack.join("too-heavy-to-lift.rhai"), "reading(itm.mass).at_most(limit.most);\n").unwrap();
    let ran = pintle_in(shop.path(), &["inspect", "--format", "plain", "builds/sound-6x12-round.toml"]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.contains("rules/ours/too-heavy-to-lift.rhai:1:9"), "{}", ran.out);
    // So is a field that no part has.
    std::fs::write(pack.join("too-heavy-to-lift.rhai"), "reading(item.mas).at_most(limit.most);\n").unwrap();
    let ran = pintle_in(shop.path(), &["inspect", "--format", "plain", "builds/sound-6x12-round.toml"]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.contains("has no `mas`") && ran.out.contains("did you mean `mass`?"), "{}", ran.out);
    // A mistake that only shows when it runs is broken, never a pass.
    let script =
        "reading(item.mass / (item.length - item.length)).named(\"x\").at_most(limit.most / item.length);\n";
    std::fs::write(pack.join("too-heavy-to-lift.rhai"), script).unwrap();
    let ran = pintle_in(shop.path(), &["inspect", "--format", "plain", "builds/sound-6x12-round.toml"]);
    assert_eq!(ran.code, 3, "{}", ran.out);
    assert!(ran.out.contains("by zero"), "{}", ran.out);
}

#[test]
fn trials_of_built_in_rules_run_by_pack_and_by_name() {
    let ran = pintle(&["trial", "water", "gas/cylinder-indoors"]);
    assert_eq!(ran.code, 0, "{}", ran.out);
    assert!(ran.out.starts_with("10 rules, "), "{}", ran.out);
}

#[test]
fn without_a_rulebook_all_built_in_packs_are_in_use() {
    let folder = tempfile::tempdir().unwrap();
    let ran = pintle_in(folder.path(), &["explain", "gas/cylinder-indoors"]);
    assert_eq!(ran.code, 0);
    assert!(ran.out.contains("675 IAC 15-2-74(c) (published)"), "{}", ran.out);
}

/// Every mass of the demo, in stock lists and in specs, says how it is known; a guess says how far it may be off.
#[test]
fn the_demo_says_how_each_mass_is_known() {
    let mut masses = 0;
    for folder in ["specs/stock", "specs/builds"] {
        for entry in std::fs::read_dir(top().join(folder)).unwrap() {
            let path = entry.unwrap().path();
            let file: toml::Table = std::fs::read_to_string(&path).unwrap().parse().unwrap();
            let lists =
                file.iter().filter(|(name, _)| *name != "state").filter_map(|(_, list)| list.as_array());
            for part in lists.flatten() {
                let word = |key: &str| part.get(key).and_then(toml::Value::as_str);
                let Some(mass) = word("mass").filter(|_| word("kind") != Some("tow vehicle")) else {
                    continue;
                };
                let basis = word("mass_basis").unwrap_or_else(|| panic!("{}: {part:?}", path.display()));
                assert!(basis != "guessed" || mass.contains('±'), "{}: a guess of {mass}", path.display());
                masses += 1;
            }
        }
    }
    assert!(masses > 100, "only {masses} masses");
}
