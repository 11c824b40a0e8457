//! What a table of a file may hold: its fields, their kinds and their ranges.
//!
//! A field is a static; code asks a record for `&trailer::GVWR`, never for a string, so a misspelt field does not
//! compile. The same statics check files, offer nearest names, name script properties and (later) the schema.

use pintle_quantity::Dimension;

/// One field of a table.
#[derive(Debug)]
pub struct Field {
    /// Its key in the file.
    pub key: &'static str,
    /// What it holds.
    pub kind: Kind,
    /// Whether a table without it is refused.
    pub required: bool,
    /// What it means, in a sentence.
    pub doc: &'static str,
}

/// What a field holds.
#[derive(Debug, Clone, Copy)]
pub enum Kind {
    /// A quantity of a dimension, within a range.
    Quantity(Dimension, Range),
    /// A quantity of any dimension.
    AnyQuantity,
    /// Free text.
    Text,
    /// One of a closed list of words.
    Word(&'static [&'static str]),
    /// Several of a closed list of words.
    Words(&'static [&'static str]),
    /// True or false.
    Flag,
    /// A whole number, this or more.
    Count(u32),
    /// A list of free texts.
    Texts,
    /// A table.
    Table(&'static Schema),
    /// A list of tables.
    Tables(&'static Schema),
    /// A table whose keys are names of the author's and whose values are tables.
    Named(&'static Schema),
    /// A table whose keys are names of the author's and whose values are shares, `"0 %"` to `"100 %"`.
    Shares,
    /// A table whose keys are names of the author's and whose values are masses, zero or more.
    Masses,
    /// Anything; taken as it stands.
    Raw,
}

/// Which values of a dimension can be real.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Range {
    /// Any finite value.
    Any,
    /// Zero or more.
    NotNegative,
    /// More than zero.
    Positive,
    /// `0 %` to `100 %`.
    Share,
}

impl Range {
    /// What a value in SI must be that is not in the range; none for one that is.
    pub fn refuses(self, si: f64) -> Option<&'static str> {
        match self {
            Self::NotNegative if si < 0.0 => Some("zero or more"),
            Self::Positive if si <= 0.0 => Some("more than zero"),
            Self::Share if !(0.0..=1.0).contains(&si) => Some("from 0 % to 100 %"),
            _ => None,
        }
    }
}

/// The fields of one kind of table.
#[derive(Debug)]
pub struct Schema {
    /// What such a table describes, such as "trailer".
    pub name: &'static str,
    /// Its own fields.
    pub fields: &'static [&'static Field],
    /// Fields it shares with others.
    pub common: Option<&'static Schema>,
}

impl Schema {
    /// All fields, shared ones last.
    pub fn all(&self) -> impl Iterator<Item = &'static Field> + Clone {
        let common: &[&Field] = self.common.map_or(&[], |schema| schema.fields);
        self.fields.iter().chain(common).copied()
    }

    /// The field with a key.
    pub fn find(&self, key: &str) -> Option<&'static Field> {
        self.all().find(|field| field.key == key)
    }
}

/// Declares the fields of one kind of table, each a public static, and `SCHEMA` over them all.
#[macro_export]
macro_rules! schema {
    (
        $(#[$meta:meta])*
        $name:literal $(with $common:path)?;
        $($id:ident = $key:literal: $kind:expr $(, $required:ident)?; $doc:literal)*
    ) => {
        $(#[$meta])*
        pub static SCHEMA: $crate::field::Schema = $crate::field::Schema {
            name: $name,
            fields: &[$(&$id,)*],
            common: $crate::schema!(@common $($common)?),
        };
        $(
            #[doc = $doc]
            pub static $id: $crate::field::Field = $crate::field::Field {
                key: $key,
                kind: $kind,
                required: $crate::schema!(@required $($required)?),
                doc: $doc,
            };
        )*
    };
    (@common) => { None };
    (@common $common:path) => { Some(&$common) };
    (@required) => { false };
    (@required required) => { true };
}
