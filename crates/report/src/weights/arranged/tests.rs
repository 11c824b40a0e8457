//! How many there are, as it is written.

use super::*;

#[test]
fn a_count_is_whole_while_a_double_holds_it() {
    let written = |number: f64| {
        let count = Count::of(number);
        (count.in_words(), serde_json::to_string(&count).unwrap())
    };
    assert_eq!(written(1.0), ("1".to_owned(), "1".to_owned()));
    assert_eq!(written(524_288.0), ("524,288".to_owned(), "524288".to_owned()));
    assert_eq!(written(1e30), ("about 1.000e30".to_owned(), "1e+30".to_owned()));
    let beyond = "more than 1e308".to_owned();
    assert_eq!(written(f64::INFINITY), (beyond.clone(), format!("\"{beyond}\"")));
}
