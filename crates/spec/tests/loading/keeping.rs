//! Laws of what rides together: what is taken and what is refused, against a plain reckoning over all parts.

use std::fmt::Write as _;

use proptest::prelude::*;

use super::aboard::{PARTS, state};
use super::bench::{STOCK, load, with};

/// How many modules there are.
const MODULES: usize = 6;

/// Six removable modules: which of them each needs, and the group that each is in, if any.
fn modules(needs: &[Vec<usize>], groups: &[usize]) -> String {
    let mut spec = String::new();
    for (at, needs) in needs.iter().enumerate() {
        let needs: Vec<String> = needs.iter().map(|needed| format!("\"m{needed}\"")).collect();
        let _ = writeln!(
            spec,
            "[[item]]\ntag = \"m{at}\"\npart = \"galley\"\nat = {{ front = \"1 in\", left = \"1 in\" }}\nneeds = [{}]",
            needs.join(", ")
        );
    }
    for group in 0..2 {
        let members: Vec<String> = members(groups, group).map(|at| format!("\"m{at}\"")).collect();
        if members.len() > 1 {
            let _ =
                writeln!(spec, "[[either]]\nname = \"g{group}\"\nof = [{}]\nnone = true", members.join(", "));
        }
    }
    spec
}

fn members(groups: &[usize], group: usize) -> impl Iterator<Item = usize> {
    groups.iter().enumerate().filter(move |(_, held)| **held == group).map(|(at, _)| at)
}

/// What comes with each part, by Warshall's closure of the needs.
fn closure(needs: &[Vec<usize>]) -> Vec<Vec<bool>> {
    let mut with: Vec<Vec<bool>> =
        needs.iter().map(|needs| (0..MODULES).map(|at| needs.contains(&at)).collect()).collect();
    for by in 0..MODULES {
        for from in 0..MODULES {
            for to in 0..MODULES {
                with[from][to] |= with[from][by] && with[by][to];
            }
        }
    }
    with
}

fn some_needs() -> impl Strategy<Value = Vec<Vec<usize>>> {
    let of_one = prop::sample::subsequence((0..MODULES).collect::<Vec<_>>(), 0..=2);
    let of_one = prop_oneof![Just(Vec::new()), of_one];
    prop::collection::vec(of_one, MODULES)
}

/// A state over [`PARTS`]: all that can be chosen.
#[derive(Debug, Clone)]
struct Choice {
    out: Vec<&'static str>,
    food: Option<f64>,
    bikes: Option<f64>,
    ice: Option<f64>,
    fresh: Option<u32>,
    can: Option<u32>,
    people: u32,
    in_tent: bool,
    none: bool,
}

impl Choice {
    fn spec(&self) -> String {
        let table = |amounts: &[(&str, Option<String>)]| {
            let given =
                amounts.iter().filter_map(|(tag, amount)| Some(format!("{tag} = \"{}\"", amount.as_ref()?)));
            given.collect::<Vec<_>>().join(", ")
        };
        let pounds = |mass: Option<f64>| mass.map(|mass| format!("{mass} lb"));
        let percent = |share: Option<u32>| share.map(|share| format!("{share} %"));
        let zone = if self.in_tent { "tent" } else { "inside" };
        state(&format!(
            "out = {:?}\ncarry = {{ {} }}\nfill = {{ {} }}\npeople = [{{ berth = \"bed\", count = {} }}]\n\
             load = [{{ what = \"a\", mass = \"1 lb\", zone = \"{zone}\", at = {{ front = \"1 in\" }} }}]\n\
             [[either]]\nname = \"g\"\nof = [\"galley\", \"can\", \"bikes\"]\nnone = {}\n\
             [water]\nuse_order = [\"can\", \"fresh\"]",
            self.out,
            table(&[("food", pounds(self.food)), ("bikes", pounds(self.bikes)), ("ice", pounds(self.ice))]),
            table(&[("fresh", percent(self.fresh)), ("can", percent(self.can))]),
            self.people,
            self.none,
        ))
    }

    fn may_be(&self, road: bool) -> bool {
        let out = |tag: &str| self.out.contains(&tag);
        let some = |mass: Option<f64>| mass.unwrap_or(0.0) > 0.0;
        let tent_out = out("tent") || out("rack");
        let carried = self.food.is_none_or(|mass| mass <= 40.0)
            && self.bikes.is_none_or(|mass| mass <= 60.0)
            && self.ice.is_none_or(|mass| mass <= 20.0);
        let stands = !(out("rack") && some(self.bikes))
            && !(tent_out && (self.people > 0 || self.in_tent))
            && !(out("can") && self.can.unwrap_or(0) > 0);
        let needs = (out("galley") || !out("power")) && (!out("galley") || !some(self.ice));
        if !road || !carried || !stands || !needs {
            return carried && stands && needs;
        }
        let grouped =
            [!out("galley"), !out("can"), some(self.bikes)].into_iter().filter(|aboard| *aboard).count();
        let group = grouped == 1 || (grouped == 0 && self.none);
        let fresh = self.fresh.is_none_or(|fresh| (10..=90).contains(&fresh));
        let order = match (self.can, self.fresh) {
            (Some(can), Some(fresh)) if !out("can") => can == 0 || fresh >= 90,
            _ => true,
        };
        self.food.is_some_and(|food| food >= 5.0) && group && fresh && order
    }
}

fn choice() -> impl Strategy<Value = Choice> {
    let mass = |masses: &'static [f64]| prop::option::weighted(0.9, prop::sample::select(masses));
    let share = |shares: &'static [u32]| prop::option::weighted(0.8, prop::sample::select(shares));
    let out = prop::sample::subsequence(vec!["rack", "tent", "galley", "power", "can"], 0..=3);
    let loads = (
        mass(&[4.0, 5.0, 5.0, 5.0, 40.0, 40.0, 41.0]),
        mass(&[0.0, 0.0, 0.0, 1.0, 60.0, 61.0]),
        mass(&[0.0, 0.0, 1.0, 21.0]),
    );
    let fill = (share(&[9, 10, 50, 90, 90, 90, 91]), share(&[0, 0, 0, 1, 100]));
    let rest = (prop::sample::select(vec![0_u32, 0, 0, 2]), prop::bool::weighted(0.2), any::<bool>());
    (out, loads, fill, rest).prop_map(|(out, (food, bikes, ice), (fresh, can), (people, in_tent, none))| {
        Choice { out, food, bikes, ice, fresh, can, people, in_tent, none }
    })
}

proptest! {
    #[test]
    fn a_part_can_be_aboard_or_it_is_refused(
        needs in some_needs(),
        groups in prop::collection::vec(0..3_usize, MODULES),
    ) {
        let comes = closure(&needs);
        let loops = (0..MODULES).any(|at| comes[at][at]);
        let two_of_one = (0..MODULES).any(|at| {
            (0..2).any(|group| members(&groups, group).filter(|with| *with == at || comes[at][*with]).count() > 1)
        });
        let read = load(&with(&modules(&needs, &groups)), STOCK);
        prop_assert_eq!(read.build.is_some(), !loops && !two_of_one, "{:?}", read.said());
        let said = |code: &str| read.codes().contains(&code);
        prop_assert_eq!(said("needs-loop"), loops);
        if !loops {
            prop_assert_eq!(said("never-aboard"), two_of_one);
        }
    }

    #[test]
    fn a_state_can_be_or_it_is_refused(choice in choice()) {
        let road = with(&choice.spec());
        let read = load(&road, STOCK);
        prop_assert_eq!(read.build.is_some(), choice.may_be(true), "{:?}", read.said());
        let camp = load(&road.replace("use = \"road\"", "use = \"camp\""), STOCK);
        prop_assert_eq!(camp.build.is_some(), choice.may_be(false), "{:?}", camp.said());
    }
}

#[test]
fn the_parts_that_are_chosen_from_are_sound() {
    assert_eq!(load(&with(PARTS), STOCK).said(), []);
}
