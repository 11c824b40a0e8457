//! Values over values: a spec's over its stock part's, a variant's over its base's; each keeps its own file.

use pintle_spec::schema::{item, kinds::rack, trailer};
use pintle_spec::{Known, Missing, Spanned};

use super::bench::{HEAD, load, part, written};

const STOCK: &str = "\
[[part]]
name = \"base\"
kind = \"trailer\"
mass = \"1000 lb\"
gvwr = \"2990 lb\"
nose = { shape = \"wedge\", depth = \"30 in\" }
axle = { ball = \"130 in\", count = 1, gawr = \"3500 lb\" }
lamps = [\"tail\", \"stop\"]

[[part]]
name = \"middle\"
part = \"base\"
gvwr = \"2500 lb\"
axle = { ball = \"120 in\" }

[[part]]
name = \"top\"
part = \"middle\"
axle = { count = 2 }

[[part]]
name = \"rack\"
kind = \"rack\"
moving = \"100 lb\"
zone = \"roof\"
removable = true
cg = { front = \"1 in\", left = \"2 in\" }
";

const SPEC: &str = "\
[trailer]
part = \"top\"
nose = { depth = \"28 in\" }
axle = { gawr = \"3000 lb\" }
lamps = [\"turn\"]

[[item]]
tag = \"r\"
part = \"rack\"
at = { front = \"1 in\" }
removable = false
cg = { left = \"3 in\" }
";

#[test]
fn tables_are_filled_in_field_by_field_and_each_value_keeps_its_file() {
    let read = load(&format!("{HEAD}{SPEC}"), STOCK);
    let build = read.build.as_ref().unwrap();
    let at = |value: Spanned<pintle_quantity::Quantity>| written(&read.sources, &value);
    let t = &build.trailer;
    assert_eq!(at(t.quantity(&trailer::MASS).unwrap()), ("stock.toml", "\"1000 lb\""), "from the base");
    assert_eq!(at(t.quantity(&trailer::GVWR).unwrap()), ("stock.toml", "\"2500 lb\""), "from the variant");
    let nose = t.table(&trailer::NOSE).unwrap();
    assert_eq!(
        written(&read.sources, &nose.word(&trailer::nose::SHAPE).unwrap()),
        ("stock.toml", "\"wedge\"")
    );
    assert_eq!(at(nose.quantity(&trailer::nose::DEPTH).unwrap()), ("spec.toml", "\"28 in\""));
    let axle = t.table(&trailer::AXLE).unwrap();
    assert_eq!(at(axle.quantity(&trailer::axle::BALL).unwrap()), ("stock.toml", "\"120 in\""));
    assert_eq!(at(axle.quantity(&trailer::axle::GAWR).unwrap()), ("spec.toml", "\"3000 lb\""));
    let count = axle.count(&trailer::axle::COUNT).unwrap();
    assert_eq!((count.value, written(&read.sources, &count)), (2, ("stock.toml", "2")));
    let lamps: Vec<&str> = t.words(&trailer::LAMPS).unwrap().iter().map(|lamp| lamp.value).collect();
    assert_eq!(lamps, ["turn"], "a list is taken whole");
}

#[test]
fn an_item_takes_its_zone_and_its_flags_from_stock_unless_it_restates_them() {
    let read = load(&format!("{HEAD}{SPEC}"), STOCK);
    let build = read.build.as_ref().unwrap();
    let r = part(build, "r");
    assert_eq!(r.zone, pintle_spec::Zone::Roof);
    assert!(!r.removable, "restated in the spec");
    let moving = r.record.quantity(&rack::MOVING).unwrap();
    assert_eq!(written(&read.sources, &moving), ("stock.toml", "\"100 lb\""));
    let cg = r.record.table(&item::CG).unwrap();
    assert_eq!(
        written(&read.sources, &cg.quantity(&pintle_spec::schema::place::cg::FRONT).unwrap()).0,
        "stock.toml"
    );
    assert_eq!(
        written(&read.sources, &cg.quantity(&pintle_spec::schema::place::cg::LEFT).unwrap()).0,
        "spec.toml"
    );
}

#[test]
fn what_is_missing_is_named_for_the_spec_and_marked_where_the_part_is_named() {
    let read = load(&format!("{HEAD}{SPEC}"), STOCK);
    let build = read.build.as_ref().unwrap();
    let missing =
        |known: Known<_>| -> Missing { known.map(|_: Spanned<pintle_quantity::Quantity>| ()).unwrap_err() };
    let wall = missing(build.trailer.need(&trailer::WALL));
    assert_eq!(wall.what, "`wall` of the trailer");
    assert_eq!(read.sources.slice(wall.span.unwrap()), "\"top\"");
    let track = missing(build.trailer.table(&trailer::AXLE).unwrap().need(&trailer::axle::TRACK));
    assert_eq!(track.what, "`track` of `axle` of the trailer", "and not of the stock part");
    let mass = missing(part(build, "r").record.need(&item::MASS));
    assert_eq!(mass.what, "`mass` of item `r`");
    assert_eq!(read.sources.slice(mass.span.unwrap()), "\"r\"");
}

#[test]
fn filling_from_never_changes_what_is_given() {
    let read = load(&format!("{HEAD}{SPEC}"), STOCK);
    let build = read.build.as_ref().unwrap();
    let mut twice = build.trailer.clone();
    twice.fill_from(&build.trailer);
    assert_eq!(twice, build.trailer);
    let mut filled = part(build, "r").record.clone();
    let before = filled.clone();
    filled.fill_from(&build.trailer);
    for key in before.keys() {
        if key != "cg" {
            assert_eq!(filled.value(key), before.value(key), "{key}");
        }
    }
    assert!(filled.value("gvwr").is_some(), "what was not given is filled in");
}
