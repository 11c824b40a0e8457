//! How a report is to look.

use pintle_quantity::Units;

/// How a report is to look. What it says does not hang on it.
///
/// ```
/// use pintle_report::Look;
///
/// let look = Look { colour: true, ..Look::default() };
/// assert_eq!((look.width, look.unicode), (100, true));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Look {
    /// The units that quantities are shown in.
    pub units: Units,
    /// Whether to write terminal colours. Only [`crate::human`] ever does.
    pub colour: bool,
    /// Columns of the terminal, from 40 on; a smaller number counts as 40.
    pub width: usize,
    /// Whether lines are drawn with box characters or with ASCII ones.
    pub unicode: bool,
}

impl Default for Look {
    fn default() -> Self {
        Self { units: Units::AsWritten, colour: false, width: 100, unicode: true }
    }
}

impl Look {
    /// The narrowest terminal drawn for, in columns.
    pub(crate) const NARROWEST: usize = 40;

    pub(crate) fn columns(self) -> usize {
        self.width.max(Self::NARROWEST)
    }
}
