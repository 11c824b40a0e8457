//! The table of checks from outside.

use super::builds::{Found, part};
use crate::anchor::bolts::{Thread, steel, torque};
use crate::anchor::europe::{pressed_down, safety};
use crate::anchor::forces::{self, Against, Way, front_wall, pull, tiedowns};
use crate::anchor::tiedowns::{Tiedown, working_pounds};
use crate::anchor::tipping::steadiness;
use crate::checks::{self, Given};

const POUND: f64 = 0.453_592_37;

fn thread(given: &Given<'_>) -> Thread {
    Thread::parse(given.word("size")).unwrap()
}

fn proof(given: &Given<'_>, grade: &str) -> f64 {
    let thread = thread(given);
    steel(grade, thread.d).unwrap().0.proof.unwrap() * thread.stress_area()
}

fn tie<'t>(given: &Given<'_>, sort: &'t str) -> Tiedown<'t> {
    Tiedown { sort, size: given.si("size"), thickness: None, grade: None, made_of: None }
}

fn kilograms(tie: Tiedown<'_>) -> f64 {
    working_pounds(tie).unwrap() * POUND
}

/// Four anchors into the frame by fittings that are said to hold so much.
fn fitted(mass: &str, anchors: &str) -> Found {
    Found::of(&part("module", mass, &format!("[item.anchors]\nfixed_to = \"frame\"\n{anchors}")))
}

fn of_build(of: &str, given: &Given<'_>) -> Vec<f64> {
    match of {
        "galley" => {
            let each = format!("count = 2\neach = {{ working = \"{}\" }}", given.word("each"));
            let found = fitted(given.word("m"), &each);
            let keys = [
                "pull_ahead_breaking",
                "pull_ahead_working",
                "pull_aft_working",
                "aggregate_needed",
                "aggregate",
            ];
            keys.map(|key| found.si(key)).to_vec()
        }
        "module" => {
            let outside = part("module", given.word("m"), "zone = \"roof\"")
                .replace("at = { front = \"20 in\", left = \"0 in\" }", "at = { front = \"20 in\" }");
            let found = Found::of(&outside);
            let keys = [
                "pull_ahead_breaking",
                "pull_aft_breaking",
                "pull_aside_breaking",
                "held_down_needed",
                "aggregate_needed",
            ];
            keys.map(|key| found.si(key)).to_vec()
        }
        "chain_of" => {
            let [track, fitting, strap] = ["track", "fitting", "strap"].map(|link| given.word(link));
            let found = fitted(
                "100 lb",
                &format!(
                    "count = 1\neach = {{ working = \"{fitting}\" }}\nstraps = [{{ sort = \"webbing\", count = 1, working = \"{strap}\" }}]\n\
                     track = {{ working = \"{track}\", fasteners = 4, fastener = {{ working = \"900 lb\" }} }}"
                ),
            );
            vec![found.si("strength_working")]
        }
        "marked" => {
            let marked = given.word("marked");
            let found = fitted(
                "100 lb",
                &format!(
                    "each = {{ working = \"9000 lb\" }}\nstraps = [{{ sort = \"webbing\", size = \"2 in\", count = 1, working = \"{marked}\" }}]"
                ),
            );
            vec![found.si("strength_working") / crate::anchor::G]
        }
        "third" => {
            let each = format!("count = 1\neach = {{ breaking = \"{}\" }}", given.word("breaking"));
            vec![fitted("100 lb", &each).si("strength_working")]
        }
        "cylinder" => {
            vec![Found::of(&part("cylinder", given.word("m"), "")).si("cylinder_hold_needed")]
        }
        other => panic!("nothing is called `{other}`"),
    }
}

#[test]
fn checks_from_outside() {
    checks::run("anchor", |of, given| match of {
        "pulls" => {
            let against =
                if given.word("against") == "breaking" { Against::Breaking } else { Against::Working };
            Way::ALL.map(|way| pull(way, against)).to_vec()
        }
        "held_down" => vec![forces::HELD_DOWN],
        "aggregate_share" => vec![forces::AGGREGATE],
        "half_counted" => vec![forces::HALF_COUNTED],
        "unmarked_mat" => vec![forces::UNMARKED_MAT],
        "tiedowns" => vec![tiedowns(given.si("l"), given.si("m"), given.word("blocked") == "yes")],
        "front_wall" => vec![front_wall(given.si("H"))],
        "webbing" => vec![kilograms(tie(given, "webbing"))],
        "wire_rope" => vec![kilograms(tie(given, "wire rope"))],
        "chain" | "chain_low" => {
            let grades: &[&str] =
                if of == "chain" { &["30", "43", "70", "80", "100"] } else { &["30", "43", "70"] };
            let rated = |grade| kilograms(Tiedown { grade: Some(grade), ..tie(given, "chain") });
            grades.iter().copied().map(rated).collect()
        }
        "rope" => {
            let made = |made_of| kilograms(Tiedown { made_of: Some(made_of), ..tie(given, "rope") });
            ["polyester", "nylon", "polypropylene"].map(made).to_vec()
        }
        "steel_strap" => {
            let thickness = Some(given.si("thickness"));
            vec![kilograms(Tiedown { thickness, ..tie(given, "steel strap") })]
        }
        "unmarked" => vec![kilograms(tie(given, given.word("sort")))],
        "pressed_down" => {
            vec![pressed_down(given.si("mu"), given.si("W"), given.si("legs"), given.si("F"))]
        }
        "short" => {
            let held = pressed_down(given.si("mu"), given.si("W"), given.si("legs"), given.si("F"));
            vec![1.0 - held / (given.si("c") * given.si("W"))]
        }
        "k_of" => vec![2.0 / safety(given.word("ahead") == "yes")],
        "fs" => vec![safety(true), safety(false)],
        "steadiness" => vec![steadiness(given.si("b"), given.si("h"))],
        "steel" => {
            let steel = steel(given.word("grade"), given.si("d")).unwrap().0;
            vec![steel.proof.unwrap(), steel.tensile]
        }
        "tensile" => vec![steel(given.word("grade"), given.si("d")).unwrap().0.tensile],
        "shear_stress" => {
            vec![given.si("q") * steel(given.word("grade"), given.si("d")).unwrap().0.tensile]
        }
        "stress_area" => vec![thread(given).stress_area()],
        "proofs" => ["2", "5", "8"].map(|grade| proof(given, grade)).to_vec(),
        "proof" => vec![proof(given, given.word("grade"))],
        "clamp" => vec![0.75 * proof(given, given.word("grade"))],
        "breaks" => {
            let thread = thread(given);
            vec![steel(given.word("grade"), thread.d).unwrap().0.tensile * thread.stress_area()]
        }
        "torque" => vec![torque(given.si("K"), thread(given).d, given.si("F"))],
        of => of_build(of, given),
    });
}
