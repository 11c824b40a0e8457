//! For tests: one figure of many, and what it came to.

use super::Working;
use crate::space::trial::value;

#[track_caller]
pub(crate) fn one<'w>(all: &'w [Working], key: &str, of: &str) -> &'w Working {
    let told = || all.iter().filter(|one| one.key == key).map(|one| one.of.clone()).collect::<Vec<_>>();
    all.iter().find(|one| one.key == key && one.of == of).unwrap_or_else(|| panic!("{key}: {:?}", told()))
}

#[track_caller]
pub(crate) fn is(all: &[Working], key: &str, of: &str, expected: f64, unit: &str) {
    let found = value(one(all, key, of).figure().unwrap(), unit);
    assert!(
        (found - expected).abs() <= 1e-9 * expected.abs().max(1.0),
        "{key}: {found}, not {expected} {unit}"
    );
}
