//! Parts that are moved together, and how their places are restated.

use pintle_calc::space::room::{self, Along};
use pintle_finding::{Change, Written};
use pintle_quantity::Quantity;
use pintle_spec::node::{Node, NodeValue};
use pintle_spec::schema::item;
use pintle_spec::{Build, Item, Known, State, Table, Zone, patch};

use super::aim::Aim;
use super::measure::{self, Tape};

/// A part with all that goes along when it is moved.
#[derive(Debug, Clone)]
pub(super) struct Group {
    /// Indices of [`Build::items`], the part itself first.
    pub(super) items: Vec<usize>,
}

/// A thing with a place in the spec.
struct Placed {
    /// The keys that lead to its table.
    steps: Vec<String>,
}

impl Group {
    /// A part that can be moved by itself, with what goes along; none for one that is fixed, or that stands on or in
    /// another.
    pub(super) fn of(build: &Build, index: usize) -> Known<Option<Self>> {
        let Some(item) = build.items.get(index).filter(|item| is_movable(item)) else { return Ok(None) };
        if item.zone == Zone::Inside && room::stands_on_another(build, index)? {
            return Ok(None);
        }
        Ok(Some(Self { items: room::carried(build, index)? }))
    }

    /// The part that is moved.
    pub(super) fn head<'b>(&self, build: &'b Build) -> Option<&'b Item> {
        build.items.get(*self.items.first()?)
    }

    /// How messages call it: "item `galley` with what is on and in it".
    pub(super) fn called(&self, build: &Build) -> String {
        let head = self.head(build).map_or_else(String::new, Item::called);
        let loaded = build
            .states
            .iter()
            .any(|state| room::loads_carried(build, state, &self.items).is_ok_and(|loads| !loads.is_empty()));
        if self.items.len() > 1 || loaded { format!("{head} with what is on and in it") } else { head }
    }

    /// What it weighs in the state that a finding is about, and where, behind the ball and right of the centreline.
    pub(super) fn weight(&self, build: &Build, aim: &Aim) -> Option<(f64, f64, f64)> {
        let called: Vec<String> =
            self.items.iter().filter_map(|at| build.items.get(*at)).map(Item::called).collect();
        let fitted = aim.weight_of(|body| {
            called.iter().any(|name| body.name == *name || body.name.ends_with(&format!(" in {name}")))
        });
        let (mut mass, mut x, mut y) = fitted.unwrap_or_default();
        (x, y) = (x * mass, y * mass);
        if let Some(state) = &aim.state {
            for (at, _) in room::loads_carried(build, state, &self.items).ok()? {
                let load = state.loads.get(at)?;
                let weight = load.mass.value.si();
                mass += weight;
                x += weight * load.extent.x.cg.as_ref().ok()?.metres;
                y += weight * load.extent.y.cg.as_ref().ok()?.metres;
            }
        }
        (mass > 0.0).then(|| (mass, x / mass, y / mass))
    }

    /// What it weighs by itself, as far as that is given.
    pub(super) fn mass(&self, build: &Build) -> f64 {
        let items = self.items.iter().filter_map(|at| build.items.get(*at));
        items.filter_map(|item| item.record.quantity(&item::MASS)).map(|mass| mass.value.si()).sum()
    }

    /// The changes that move it by so many metres; none where a place is not stated in that direction, or a load cannot
    /// be told from another.
    pub(super) fn shifted(&self, build: &Build, root: &Node, along: Along, by: f64) -> Option<Vec<Change>> {
        self.placed(build)?.iter().map(|placed| placed.shifted(root, along, by)).collect()
    }

    /// The changes that put each of its parts as far from the other wall as it is from this one.
    pub(super) fn mirrored(&self, build: &Build, root: &Node) -> Option<Vec<Change>> {
        let changes: Option<Vec<Vec<Change>>> =
            self.placed(build)?.iter().map(|placed| placed.mirrored(root)).collect();
        changes.map(|changes| changes.concat())
    }

    /// The tape that its place was measured with.
    pub(super) fn tape(&self, build: &Build, root: &Node, along: Along) -> Option<Tape> {
        let item = self.head(build)?;
        let placed = Placed { steps: vec![item.table.key().to_owned(), item.tag.value.clone()] };
        placed.gap(root, along).map(|(_, written)| Tape::of(written))
    }

    /// All that has a place of its own to restate.
    fn placed(&self, build: &Build) -> Option<Vec<Placed>> {
        let mut placed = Vec::new();
        for index in &self.items {
            let item = build.items.get(*index)?;
            let follows = match item.zone {
                Zone::Rack(host) | Zone::Locker(host) | Zone::Tent(host) => self.items.contains(&host),
                _ => false,
            };
            if !follows {
                placed.push(Placed { steps: vec![item.table.key().to_owned(), item.tag.value.clone()] });
            }
        }
        for state in &build.states {
            for (at, follows) in room::loads_carried(build, state, &self.items).ok()? {
                if !follows {
                    placed.push(Placed { steps: load_steps(state, at)? });
                }
            }
        }
        Some(placed)
    }
}

/// The keys that lead to a load of a state; none where two loads of it are called alike.
pub(super) fn load_steps(state: &State, at: usize) -> Option<Vec<String>> {
    let what = &state.loads.get(at)?.what.value;
    let alike = state.loads.iter().filter(|load| load.what.value == *what).count();
    let steps = ["state", &state.name.value, "load", what];
    (alike == 1).then(|| steps.iter().map(|step| (*step).to_owned()).collect())
}

/// Fitted parts that a shop can put elsewhere. Vents and bulkheads are built into the box; alarms weigh nothing.
fn is_movable(item: &Item) -> bool {
    let sort = matches!(item.table, Table::Item | Table::Tank | Table::Locker | Table::Berth);
    let zone = !matches!(item.zone, Zone::FrontWall | Zone::RearDoor | Zone::Floor | Zone::Tent(_));
    sort && zone && item.kind != "alarm"
}

impl Placed {
    /// The gap that states its place in a direction, and its key.
    fn gap(&self, root: &Node, along: Along) -> Option<(&'static str, Quantity)> {
        let keys: &[&'static str] = match along {
            Along::Length => &["front", "nose", "ball", "axle", "rear", "box"],
            Along::Width => &["left", "right", "centre"],
        };
        let steps: Vec<&str> = self.steps.iter().map(String::as_str).chain(["at"]).collect();
        let at = patch::find_at(root, &steps)?;
        let key = keys.iter().find(|key| at.child(key).is_some())?;
        let text = at.child(key).and_then(Node::text)?;
        Some((key, Quantity::parse(text).ok()?))
    }

    fn key(&self, key: &str) -> Vec<String> {
        self.steps.iter().cloned().chain(["at".to_owned(), key.to_owned()]).collect()
    }

    fn shifted(&self, root: &Node, along: Along, by: f64) -> Option<Change> {
        let (key, written) = self.gap(root, along)?;
        let by = if matches!(key, "rear" | "box" | "right") { -by } else { by };
        Some(Change { at: self.key(key), to: Some(measure::written(written.si() + by, written)) })
    }

    fn mirrored(&self, root: &Node) -> Option<Vec<Change>> {
        // What states no place across lies on the centreline.
        let Some((key, written)) = self.gap(root, Along::Width) else { return Some(Vec::new()) };
        let other = match key {
            "left" => "right",
            "right" => "left",
            _ => {
                let to = Some(measure::written(-written.si(), written));
                return Some(vec![Change { at: self.key(key), to }]);
            }
        };
        let to = Some(Written::Text(self.text(root, key)?));
        Some(vec![Change { at: self.key(key), to: None }, Change { at: self.key(other), to }])
    }

    fn text(&self, root: &Node, key: &str) -> Option<String> {
        let at = self.key(key);
        let steps: Vec<&str> = at.iter().map(String::as_str).collect();
        match &patch::find_at(root, &steps)?.value {
            NodeValue::Text { text, .. } => Some(text.clone()),
            _ => None,
        }
    }
}
