//! Specs of invented trailers with parts, tanks and loads at random.

use std::fmt::Write as _;

use pintle_source::Sources;
use pintle_spec::{Build, Stock, Use, read_build};

use super::random::Random;

/// A bare trailer of 1,000 lb, 70 in behind the ball and 30 in above the ground; axle 78 in behind the ball; box 96 × 60
/// × 70 in inside from 30 in behind the ball, floor at 20 in.
pub(super) fn spec(more: &str) -> String {
    format!(
        r#"
[build]
number = "T-1"
title = "an invented trailer for a test"
stage = "design"

[trailer]
mass = "1000 lb"
cg = {{ ball = "70 in", centre = "1 in", ground = "30 in" }}
gvwr = "3000 lb"
ball_to_box = "30 in"
length = "96 in"
width = "60 in"
height = "70 in"
wall = "0 in"
roof = "1 in"
floor_height = "20 in"
frame_height = "17 in"
nose = {{ shape = "flat" }}
axle = {{ ball = "78 in", count = 1, gawr = "3500 lb", track = "70 in" }}
{more}
"#
    )
}

const ROAD: &str = "use = \"road\"";
const CAMP: &str = "use = \"camp\"";

/// The build that a spec reads as; nothing where it is refused. What a road state must carry and fill is the loader's
/// affair and none of the search's: the states are read as camp states, which may hold anything, and are made road states
/// after.
pub(super) fn try_read(spec: &str) -> Option<Build> {
    let mut sources = Sources::new();
    let source = sources.add("test.toml", &spec.replace(ROAD, CAMP));
    let mut build = read_build(&sources, source, &Stock::default(), &mut Vec::new())?;
    let uses = spec.lines().filter(|line| matches!(*line, ROAD | CAMP));
    for (state, used) in build.states.iter_mut().zip(uses) {
        state.used = if used == ROAD { Use::Road } else { Use::Camp };
    }
    Some(build)
}

/// A part of a table, 10 × 10 × 10 in, at a place in the box.
pub(super) fn part(
    table: &str,
    tag: &str,
    mass: f64,
    [front, centre, floor]: [f64; 3],
    more: &str,
) -> String {
    format!(
        "[[{table}]]\ntag = \"{tag}\"\nmass = \"{mass} lb\"\nlength = \"10 in\"\nwidth = \"10 in\"\nheight = \"10 in\"\n\
         at = {{ front = \"{front} in\", centre = \"{centre} in\", floor = \"{floor} in\" }}\n{more}\n"
    )
}

fn place(random: &mut Random) -> [f64; 3] {
    [random.between(0.0, 86.0), random.between(-25.0, 25.0), random.between(0.0, 50.0)].map(f64::round)
}

/// A few of some tags, quoted.
fn some(random: &mut Random, tags: &[String], most: usize) -> Vec<String> {
    let wanted = random.below(most + 1);
    let mut tags: Vec<String> = tags.to_vec();
    let mut some = Vec::new();
    while some.len() < wanted && !tags.is_empty() {
        some.push(format!("\"{}\"", tags.swap_remove(random.below(tags.len()))));
    }
    some
}

fn some_needs(random: &mut Random, loose: &[String]) -> String {
    if random.once_in(3) {
        format!("needs = [{}]\n", some(random, loose, 2).join(", "))
    } else {
        String::new()
    }
}

/// A spec as it grows.
struct Draft {
    text: String,
    /// Tags of what may stay at home.
    loose: Vec<String>,
    racked: bool,
    tanks: usize,
}

impl Draft {
    fn loosen(&mut self, tag: &str, may_stay: bool) {
        if may_stay {
            self.loose.push(tag.to_owned());
        }
    }

    fn rack(&mut self, random: &mut Random) {
        let (mass, removable) = (20 + random.below(60), random.once_in(2));
        let _ = writeln!(
            self.text,
            "[[item]]\ntag = \"rack\"\nkind = \"rack\"\nmass = \"{mass} lb\"\nlength = \"60 in\"\nwidth = \"50 in\"\nheight = \"3 in\"\nzone = \"roof\"\nat = {{ front = \"10 in\" }}\nremovable = {removable}"
        );
        self.racked = true;
        self.loosen("rack", removable);
        if random.once_in(2) {
            let removable = random.once_in(2);
            let _ = writeln!(
                self.text,
                "[[item]]\ntag = \"tent\"\nkind = \"tent\"\nmass = \"120 lb\"\nbedding = \"15 lb\"\nlength = \"56 in\"\nwidth = \"48 in\"\nheight = \"12 in\"\nzone = \"rack\"\nat = {{ front = \"2 in\" }}\nremovable = {removable}"
            );
            self.loosen("tent", removable);
        }
    }

    fn module(&mut self, random: &mut Random, number: usize) {
        let tag = format!("m{number}");
        let (mass, at, removable) = (random.between(0.0, 300.0).round(), place(random), !random.once_in(4));
        let needs = if removable { some_needs(random, &self.loose) } else { String::new() };
        let more = format!("kind = \"module\"\nremovable = {removable}\n{needs}");
        self.text += &part("item", &tag, mass, at, &more);
        self.loosen(&tag, removable);
    }

    fn tank(&mut self, random: &mut Random, number: usize) {
        let tag = format!("t{number}");
        let removable = random.once_in(4);
        let limits = [
            "",
            "on_road = { least = \"10 %\", most = \"60 %\" }\n",
            "on_road = { least = \"50 %\", most = \"50 %\" }\n",
        ][random.below(3)];
        let holds = ["fresh", "grey"][random.below(2)];
        let capacity = 5 + random.below(20);
        let more =
            format!("capacity = \"{capacity} gal\"\nholds = \"{holds}\"\nremovable = {removable}\n{limits}");
        self.text += &part("tank", &tag, 10.0, place(random), &more);
        self.tanks += 1;
        self.loosen(&tag, removable);
    }

    fn load(&mut self, random: &mut Random, number: usize) {
        let tag = format!("l{number}");
        let mass = random.between(1.0, 150.0).round();
        let least = if random.once_in(2) { 0.0 } else { (mass * random.between(0.0, 1.0)).round() };
        let needs = some_needs(random, &self.loose);
        let at = place(random);
        let more = format!("least = \"{least} lb\"\nused_up = {}\n{needs}", random.once_in(2));
        if self.racked && random.once_in(2) {
            let _ = writeln!(
                self.text,
                "[[load]]\ntag = \"{tag}\"\nmass = \"{mass} lb\"\nzone = \"rack\"\nat = {{ front = \"{} in\", left = \"3 in\", gap = \"2 in\" }}\n{more}",
                at[0] / 2.0
            );
        } else {
            self.text += &part("load", &tag, mass, at, &more);
        }
        self.loosen(&tag, least <= 0.0);
    }

    fn state(&mut self, random: &mut Random, number: usize) {
        let (zone, height) =
            if self.racked && random.once_in(2) { ("rack", "gap") } else { ("inside", "floor") };
        let own = random.once_in(2).then(|| {
            let mass = 10 * (1 + number);
            format!("load = [{{ what = \"cooler\", mass = \"{mass} lb\", zone = \"{zone}\", at = {{ front = \"20 in\", left = \"9 in\", {height} = \"1 in\" }} }}]")
        });
        let _ = writeln!(
            self.text,
            "[[state]]\nname = \"road {number}\"\nuse = \"road\"\n{}",
            own.unwrap_or_default()
        );
    }
}

/// A spec with some parts of each sort that depend on each other.
pub(super) fn random_spec(random: &mut Random) -> String {
    let mut draft = Draft { text: String::new(), loose: Vec::new(), racked: false, tanks: 0 };
    if random.once_in(2) {
        draft.rack(random);
    }
    (0..random.below(4)).for_each(|number| draft.module(random, number));
    (0..random.below(3)).for_each(|number| draft.tank(random, number));
    (0..random.below(3)).for_each(|number| draft.load(random, number));
    let of = some(random, &draft.loose, 4);
    if of.len() > 1 && random.once_in(2) {
        let (of, none) = (of.join(", "), random.once_in(2));
        let _ = writeln!(draft.text, "[[either]]\nname = \"bay\"\nof = [{of}]\nnone = {none}");
    }
    if draft.tanks > 1 && random.once_in(2) {
        let order = if random.once_in(2) { "\"t0\", \"t1\"" } else { "\"t1\", \"t0\"" };
        let _ = writeln!(draft.text, "[water]\nuse_order = [{order}]");
    }
    (0..=random.below(2)).for_each(|number| draft.state(random, number));
    spec(&draft.text)
}
