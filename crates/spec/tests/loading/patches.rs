//! Changing a parsed spec: what a rule's trial does to its base.

use pintle_finding::Problem;
use pintle_source::{SourceId, Sources, Span};
use pintle_spec::node::{Node, NodeValue, parse};
use pintle_spec::{Stock, patch, read_build_node, read_stock};

use super::bench::{STOCK, with, worded};

const ITEMS: &str = "[[item]]\ntag = \"galley\"\npart = \"galley\"\nat = { front = \"3 in\", left = \"0 in\" }\n\
    [[tank]]\ntag = \"fresh\"\npart = \"tank-20\"\nat = { front = \"60 in\", left = \"0 in\" }\n\
    [[state]]\nname = \"loaded for the road\"\nuse = \"road\"\nfill = { fresh = \"50 %\" }\n";

/// A base spec, its stock, and a file in which changes are written.
struct Base {
    sources: Sources,
    stock: Stock,
    spec: SourceId,
    root: Node,
    path: Span,
}

fn base() -> Base {
    let mut sources = Sources::new();
    let stock = sources.add("stock.toml", STOCK);
    let spec = sources.add("spec.toml", &with(ITEMS));
    let rule = sources.add("rule.toml", "with = 1\n");
    let mut problems = Vec::new();
    let stock = read_stock(&sources, &[stock], &mut problems);
    let root = parse(&sources, spec, &mut problems);
    assert_eq!(problems, []);
    Base { sources, stock, spec, root, path: Span::new(rule, 0, 4) }
}

impl Base {
    /// A value as a change in the rule's file would give it.
    fn value(&mut self, text: &str) -> Node {
        let id = self.sources.add("rule.toml", &format!("v = {text}\n"));
        let root = parse(&self.sources, id, &mut Vec::new());
        root.child("v").unwrap().clone()
    }

    fn set(&mut self, path: &str, text: &str) -> Result<(), Problem> {
        let value = self.value(text);
        patch::set(&mut self.root, path, self.path, &value)
    }

    fn text(&self, path: &str) -> Option<&str> {
        patch::find(&self.root, path).and_then(Node::text)
    }

    fn codes(&self) -> Vec<&'static str> {
        let mut problems = Vec::new();
        let build = read_build_node(&self.root, self.spec, &self.stock, &mut problems);
        assert_eq!(build.is_some(), problems.is_empty());
        problems.iter().map(|problem| problem.code).collect()
    }
}

#[track_caller]
fn refused(result: Result<(), Problem>, message: &str, help: &str) {
    let problem = result.unwrap_err();
    worded(&problem);
    assert_eq!(
        (problem.code, problem.message.as_str(), problem.help.as_deref()),
        ("unknown-path", message, Some(help))
    );
}

const PATH: &str = "a path is such as `trailer.gvwr`, `item.galley.at` or `state.homeward.fill.fresh`";

#[test]
fn what_is_found_by_a_path() {
    let base = base();
    // (path, text found)
    for (path, found) in [
        ("trailer.part", Some("box")),
        ("item.galley.part", Some("galley")),
        ("item.galley.at.front", Some("3 in")),
        ("state.loaded for the road.fill.fresh", Some("50 %")),
        ("tank.fresh.tag", Some("fresh")),
        ("item.fresh.tag", None),
        ("trailer.gvwr", None),
        ("trailer.part.box", None),
        ("", None),
        ("item", None),
        ("item.", None),
    ] {
        assert_eq!(base.text(path), found, "{path}");
    }
    assert!(matches!(patch::find(&base.root, "item").unwrap().value, NodeValue::Array(_)));
    assert!(matches!(patch::find(&base.root, "item.galley").unwrap().value, NodeValue::Table(_)));
}

#[test]
fn values_are_put_in_place_and_keep_the_place_where_the_change_is_written() {
    let mut base = base();
    for (path, text) in [
        ("trailer.gvwr", "3500 lb"),
        ("item.galley.at.front", "9 in"),
        ("item.galley.cg.front", "1 in"),
        ("state.loaded for the road.fill.fresh", "100 %"),
        ("tow.rating", "5000 lb"),
    ] {
        base.set(path, &format!("\"{text}\"")).unwrap();
        assert_eq!(base.text(path), Some(text), "{path}");
        let place = patch::find(&base.root, path).unwrap().span;
        assert_eq!(
            (base.sources.name(place.source), base.sources.slice(place)),
            ("rule.toml", &*format!("\"{text}\""))
        );
    }
    assert_eq!(base.text("item.galley.at.left"), Some("0 in"), "what stands beside it stays");
    assert_eq!(base.codes(), [""; 0]);
}

#[test]
fn a_tagged_table_is_replaced_but_keeps_its_tag() {
    let mut base = base();
    base.set("item.galley", "{ part = \"rack-low\", zone = \"roof\", at = { front = \"1 in\" } }").unwrap();
    assert_eq!(base.text("item.galley.tag"), Some("galley"));
    assert_eq!(base.text("item.galley.part"), Some("rack-low"));
    assert_eq!(base.text("item.galley.at.left"), None);
    assert_eq!(base.codes(), [""; 0]);
    base.set(
        "item.galley",
        "{ tag = \"other\", part = \"galley\", at = { front = \"1 in\", left = \"1 in\" } }",
    )
    .unwrap();
    assert_eq!((base.text("item.galley.tag"), base.text("item.other.tag")), (None, Some("other")));
    base.set("item.other", "5").unwrap();
    assert_eq!(base.codes(), ["wrong-type"], "what is put in is judged when the spec is read");
}

#[test]
fn a_tag_or_a_list_that_is_not_there_yet_is_added() {
    let mut base = base();
    base.set("item.stove", "{ kind = \"appliance\", at = { front = \"1 in\", left = \"1 in\" } }").unwrap();
    base.set("vent.low.zone", "\"left wall\"").unwrap();
    base.set(
        "load.bags",
        "{ mass = \"9 lb\", least = \"0 lb\", at = { front = \"1 in\", left = \"1 in\" } }",
    )
    .unwrap();
    base.set(
        "load.food",
        "{ mass = \"9 lb\", least = \"0 lb\", at = { front = \"1 in\", left = \"1 in\" } }",
    )
    .unwrap();
    base.set("either.bags or food.of", "[\"bags\", \"food\"]").unwrap();
    base.set("either.bags or food.none", "true").unwrap();
    assert_eq!(base.text("item.stove.tag"), Some("stove"));
    assert_eq!(base.text("vent.low.tag"), Some("low"));
    assert_eq!(base.text("load.bags.mass"), Some("9 lb"));
    assert_eq!(base.text("either.bags or food.name"), Some("bags or food"));
    assert_eq!(base.text("item.galley.tag"), Some("galley"));
    assert_eq!(base.codes(), [""; 0]);
}

#[test]
fn what_is_taken_away() {
    let mut base = base();
    patch::remove(&mut base.root, "item.galley.at.left", base.path).unwrap();
    assert_eq!((base.text("item.galley.at.left"), base.text("item.galley.at.front")), (None, Some("3 in")));
    patch::remove(&mut base.root, "item.galley", base.path).unwrap();
    assert!(patch::find(&base.root, "item.galley").is_none());
    patch::remove(&mut base.root, "state", base.path).unwrap();
    patch::remove(&mut base.root, "trailer.part", base.path).unwrap();
    assert!(
        patch::find(&base.root, "trailer").is_some() && patch::find(&base.root, "trailer.part").is_none()
    );
}

#[test]
fn paths_that_lead_nowhere() {
    let mut base = base();
    let root = base.root.clone();
    for path in ["", "trailer.", ".gvwr", "item..at", "trailer.part.x", "item.galley.part.x.y"] {
        let told = format!("`{path}` leads nowhere in the base spec");
        refused(base.set(path, "1"), &told, PATH);
    }
    for path in ["", "trailer.gvwr", "tow", "item.galley.cg", "trailer.part.x"] {
        let told = format!("`{path}` leads nowhere in the base spec");
        refused(patch::remove(&mut base.root, path, base.path), &told, PATH);
    }
    let near = patch::remove(&mut base.root, "item.galey.at", base.path);
    refused(near, "the base spec has no item `galey`", "did you mean `galley`?");
    let none = patch::remove(&mut base.root, "berth.bed", base.path);
    refused(
        none,
        "the base spec has no berth `bed`",
        "a path into a list of tables gives a tag, such as `berth.<tag>`",
    );
    let none = patch::remove(&mut base.root, "state.zzzz", base.path);
    refused(
        none,
        "the base spec has no state `zzzz`",
        "a path into a list of tables gives a name, such as `state.<name>`",
    );
    assert_eq!(base.root, root, "what is refused changes nothing");
}

#[test]
fn a_list_that_is_no_list_takes_no_tag() {
    let mut base = base();
    base.set("berth", "{ tag = \"bed\" }").unwrap();
    let told = "the base spec has no berth `bed`";
    refused(
        base.set("berth.bed.people", "2"),
        told,
        "a path into a list of tables gives a tag, such as `berth.<tag>`",
    );
}

/// The loads of a state are told apart by what they are, and keys given one by one may hold points.
#[test]
fn loads_of_a_state_and_names_with_points() {
    let mut base = base();
    base.set(
        "state.loaded for the road.load",
        "[{ what = \"bags\", mass = \"9 lb\" }, { what = \"5.5 gal\", mass = \"1 lb\" }]",
    )
    .unwrap();
    base.set("state.loaded for the road.load.bags.mass", "\"7 lb\"").unwrap();
    let way = ["state", "loaded for the road", "load", "5.5 gal", "mass"];
    assert_eq!(patch::find_at(&base.root, &way).and_then(Node::text), Some("1 lb"));
    let heavier = base.value("\"3 lb\"");
    patch::set_at(&mut base.root, &way, base.path, &heavier).unwrap();
    assert_eq!(patch::find_at(&base.root, &way).and_then(Node::text), Some("3 lb"));
    assert_eq!(base.text("state.loaded for the road.load.bags.mass"), Some("7 lb"));
    patch::remove_at(&mut base.root, &way[..4], base.path).unwrap();
    assert_eq!(patch::find_at(&base.root, &way[..4]), None);
    assert_eq!(base.text("state.loaded for the road.load.bags.mass"), Some("7 lb"), "the other stays");
    refused(
        patch::remove_at(&mut base.root, &way[..4], base.path),
        "the base spec has no load `5.5 gal`",
        "a path into a list of tables gives a what, such as `load.<what>`",
    );
    refused(
        patch::remove(&mut base.root, "trailer.axle.ball", base.path),
        "`trailer.axle.ball` leads nowhere in the base spec",
        PATH,
    );
}

#[test]
fn tables_of_a_system_are_found_by_their_names() {
    let mut base = base();
    for (path, text) in [
        ("electric.circuit.roof fan.gauge", "14 AWG"),
        ("electric.circuit.lights.gauge", "16 AWG"),
        ("electric.use.lights.power", "4 W"),
        ("gas.line.trunk.length", "11 ft"),
        ("record.ticket.homeward.gross", "2,160 lb"),
    ] {
        base.set(path, &format!("\"{text}\"")).unwrap();
        assert_eq!(base.text(path), Some(text), "{path}");
    }
    let lists = ["electric.circuit", "electric.use", "gas.line", "record.ticket"];
    let counts = lists.map(|path| match &patch::find(&base.root, path).unwrap().value {
        NodeValue::Array(tables) => tables.len(),
        other => panic!("{path} is {other:?}"),
    });
    assert_eq!(counts, [2, 1, 1, 1]);
    for (path, name) in [
        ("electric.circuit.roof fan.name", "roof fan"),
        ("electric.use.lights.what", "lights"),
        ("gas.line.trunk.name", "trunk"),
        ("record.ticket.homeward.state", "homeward"),
    ] {
        assert_eq!(base.text(path), Some(name), "{path}");
    }
    base.set("electric.use.lights", "{ power = \"5 W\" }").unwrap();
    assert_eq!(base.text("electric.use.lights.what"), Some("lights"), "a table keeps what tells it apart");
    patch::remove(&mut base.root, "electric.circuit.lights", base.path).unwrap();
    assert_eq!(base.text("electric.circuit.lights.gauge"), None);
    assert_eq!(base.text("electric.circuit.roof fan.gauge"), Some("14 AWG"), "what stands beside it stays");
}
