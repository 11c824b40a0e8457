//! A checked build: the model every later room works on.

use pintle_finding::Stage;
use pintle_quantity::Quantity;
use pintle_source::{SourceId, Span, Spanned};

use crate::footing::Footing;
use crate::layout::Extent;
use crate::record::Record;
use crate::say::{a, shown};
use crate::stock::Stock;
use crate::surfaces::Surfaces;

/// One trailer and all that is fitted to it.
#[derive(Debug, Clone)]
pub struct Build {
    /// The spec's file.
    pub source: SourceId,
    /// `[build]`.
    pub head: Record,
    /// The shop's number for it.
    pub number: Spanned<String>,
    /// What it is, in a line.
    pub title: Spanned<String>,
    /// How far it has come.
    pub stage: Spanned<Stage>,
    /// `[trailer]` over its stock part.
    pub trailer: Record,
    /// `[tow]` over its stock part.
    pub tow: Option<Record>,
    /// `[people]`.
    pub people: Option<Record>,
    /// `[gas]`.
    pub gas: Option<Record>,
    /// `[electric]`.
    pub electric: Option<Record>,
    /// `[water]`.
    pub water: Option<Record>,
    /// `[quote]`.
    pub quote: Option<Record>,
    /// `[record]`.
    pub record: Option<Record>,
    /// `[assume]`: what this build assumes otherwise than the rulebook.
    pub assume: Option<Record>,
    /// Where the trailer's surfaces are.
    pub surfaces: Surfaces,
    /// Everything with a tag and a place, in the order of the spec, tables in the order of [`Table`].
    pub items: Vec<Item>,
    /// The states, in the order of the spec.
    pub states: Vec<State>,
    /// Groups of which only one may be aboard.
    pub eithers: Vec<Either>,
    /// The tanks in the order in which they are emptied, where the spec states one; indices count `items`.
    pub use_order: Vec<usize>,
    /// The stock list that it was read with.
    pub stock: Stock,
}

/// Parts or loads of which only one may be aboard on the road.
#[derive(Debug, Clone)]
pub struct Either {
    /// What it is called.
    pub name: Spanned<String>,
    /// Its members; indices count [`Build::items`].
    pub of: Vec<usize>,
    /// Whether all of them may stay at home.
    pub none: bool,
}

/// Which table of the spec a part stands in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Table {
    /// `[[item]]`.
    Item,
    /// `[[tank]]`.
    Tank,
    /// `[[locker]]`.
    Locker,
    /// `[[bulkhead]]`.
    Bulkhead,
    /// `[[berth]]`.
    Berth,
    /// `[[vent]]`.
    Vent,
    /// `[[opening]]`.
    Opening,
    /// `[[load]]`.
    Load,
}

impl Table {
    /// Its key in the spec, which is also what one entry is called in messages.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Item => "item",
            Self::Tank => "tank",
            Self::Locker => "locker",
            Self::Bulkhead => "bulkhead",
            Self::Berth => "berth",
            Self::Vent => "vent",
            Self::Opening => "opening",
            Self::Load => "load",
        }
    }

    /// All tables of parts.
    pub const ALL: &'static [Self] = &[
        Self::Item,
        Self::Tank,
        Self::Locker,
        Self::Bulkhead,
        Self::Berth,
        Self::Vent,
        Self::Opening,
        Self::Load,
    ];
}

/// One fitted part at a place.
#[derive(Debug, Clone)]
pub struct Item {
    /// Its name in this spec.
    pub tag: Spanned<String>,
    /// The table it stands in.
    pub table: Table,
    /// What it is, such as "rack".
    pub kind: &'static str,
    /// Its fields, over its stock part's.
    pub record: Record,
    /// Where it is mounted.
    pub zone: Zone,
    /// Its box, in the trailer's coordinates; that in use, of what folds away.
    pub extent: Extent,
    /// Its box folded away, of what folds.
    pub folded: Option<Extent>,
    /// Whether the customer can take it out.
    pub removable: bool,
    /// What must be aboard whenever this is; indices count [`Build::items`].
    pub needs: Vec<usize>,
}

/// What a part is mounted on or stands in. Indices count [`Build::items`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Zone {
    /// In the box.
    Inside,
    /// On the tongue's frame.
    Tongue,
    /// On the roof skin.
    Roof,
    /// On the outside of the front.
    FrontWall,
    /// On the outside of the rear door.
    RearDoor,
    /// In or on the left wall.
    LeftWall,
    /// In or on the right wall.
    RightWall,
    /// Through the floor.
    Floor,
    /// Hung below the floor.
    Underside,
    /// On a rack.
    Rack(usize),
    /// In a locker.
    Locker(usize),
    /// In a tent.
    Tent(usize),
}

/// What a state is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Use {
    /// On the road.
    Road,
    /// Parked and lived in.
    Camp,
}

/// One way the trailer is used.
#[derive(Debug, Clone)]
pub struct State {
    /// What it is called.
    pub name: Spanned<String>,
    /// Road or camp.
    pub used: Use,
    /// How full each tank is; indices count [`Build::items`]. A tank that is not listed was not stated.
    pub fill: Vec<(usize, Spanned<Quantity>)>,
    /// How much of each load of `[[load]]` is aboard, zero or more; indices count [`Build::items`]. A load that is not
    /// listed stays at home.
    pub carry: Vec<(usize, Spanned<Quantity>)>,
    /// What else is aboard besides fitted parts.
    pub loads: Vec<Load>,
    /// Parts left at home, and those that stand on or in them; indices count [`Build::items`]. Never a load.
    pub out: Vec<usize>,
    /// Berths with people in them and how many; indices count [`Build::items`].
    pub people: Vec<(usize, Spanned<u32>)>,
}

/// Something aboard in one state.
#[derive(Debug, Clone)]
pub struct Load {
    /// What it is.
    pub what: Spanned<String>,
    /// Its weight.
    pub mass: Spanned<Quantity>,
    /// How its weight is known.
    pub footing: Footing,
    /// Where it is.
    pub zone: Zone,
    /// Its box, or its point.
    pub extent: Extent,
    /// The place to label.
    pub span: Span,
}

impl Build {
    /// The part with a tag.
    pub fn item(&self, tag: &str) -> Option<&Item> {
        self.items.iter().find(|item| item.tag.value == tag)
    }

    /// Parts of one table, with their indices.
    pub fn of_table(&self, table: Table) -> impl Iterator<Item = (usize, &Item)> {
        self.items.iter().enumerate().filter(move |(_, item)| item.table == table)
    }

    /// Parts of one kind, with their indices.
    pub fn of_kind<'a>(&'a self, kind: &'a str) -> impl Iterator<Item = (usize, &'a Item)> {
        self.items.iter().enumerate().filter(move |(_, item)| item.kind == kind)
    }
}

/// How messages call a part of a table with a tag, which is empty where the part has none.
pub(crate) fn called(table: Table, tag: &str) -> String {
    match tag {
        "" => a(table.key()),
        tag => format!("{} `{}`", table.key(), shown(tag)),
    }
}

impl Item {
    /// How messages call it, such as "item `galley`".
    pub fn called(&self) -> String {
        called(self.table, &self.tag.value)
    }
}
