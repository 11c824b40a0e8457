//! What findings point at: the weight where it is, the limit where it is written.

use pintle_finding::{Role, Verdict};
use pintle_quantity::Units;

use crate::bench::Bench;

#[test]
fn a_light_tongue_marks_what_takes_most_off_it_with_its_pounds() {
    let mut bench = Bench::builtin();
    let build = bench.build("rear-galley-5x8", &[]);
    let fault = bench.fault("towing/light-tongue", build);
    let taken: Vec<_> = fault
        .contributions
        .iter()
        .filter(|part| part.amount.si() < 0.0)
        .take(3)
        .map(|part| {
            format!("{} takes {} off the tongue weight", part.name, part.amount.abs().show(Units::AsWritten))
        })
        .collect();
    assert_eq!(taken.len(), 3, "{:#?}", fault.contributions);
    let labels: Vec<_> = fault.labels.iter().filter(|label| label.role == Role::Contributor).collect();
    let words: Vec<&str> = labels.iter().map(|label| label.text.as_str()).collect();
    assert_eq!(words, taken);
    assert!(words.iter().any(|words| words.contains("`galley`")), "{words:?}");
    assert!(words.iter().any(|words| words.contains("`fresh`")), "{words:?}");
    assert!(words.iter().all(|words| words.contains(" lb ")), "{words:?}");
    let galley = labels.iter().find(|label| label.text.contains("`galley`")).unwrap();
    assert_eq!(bench.sources.slice(galley.span), "\"galley\"");
    assert!(bench.sources.name(galley.span.source).ends_with("rear-galley-5x8.toml"));
}

/// The pounds add up: the parts of the tongue weight, signed, are the tongue weight. A difference of which it is the
/// first, such as with one person more at the rear, has its parts.
#[test]
fn contributions_add_up_to_what_is_read() {
    let mut bench = Bench::builtin();
    for (rule, spec, sum) in [
        ("towing/tongue-lift", "rear-galley-5x8", "tongue weight"),
        ("towing/over-gvwr", "overload-6x12", "gross weight"),
    ] {
        let build = bench.build(spec, &[]);
        let readings = bench.readings(rule, build);
        let mut plain = 0;
        for reading in &readings {
            assert!(!reading.contributions.is_empty());
            assert_eq!(reading.sum, Some(sum), "{rule}");
            let first = readings.iter().find(|one| one.path == reading.path && one.what == sum).unwrap();
            plain += usize::from(reading.what == sum);
            let added: f64 = reading.contributions.iter().map(|part| part.amount.si()).sum();
            let value = first.value.unwrap().si();
            assert!((added - value).abs() <= 1e-9 * value.abs().max(1.0), "{rule}: {added} against {value}");
        }
        assert!(plain >= 2, "{rule}");
    }
}

#[test]
fn over_gvwr_marks_the_rating_in_the_stock_and_the_heaviest_items() {
    let mut bench = Bench::builtin();
    let build = bench.build("overload-6x12", &[]);
    let fault = bench.fault("towing/over-gvwr", build);
    let limit = fault.labels.iter().find(|label| label.role == Role::Limit).unwrap();
    assert!(bench.sources.name(limit.span.source).ends_with("stock/trailers.toml"));
    assert_eq!(bench.sources.slice(limit.span), "\"2990 lb\"");
    assert!(limit.text.contains("gvwr") && limit.text.contains("2,990 lb"), "{}", limit.text);
    let heaviest: Vec<String> = fault
        .contributions
        .iter()
        .take(3)
        .map(|part| format!("{} adds {} to the gross weight", part.name, part.amount.show(Units::AsWritten)))
        .collect();
    let words: Vec<&str> = fault
        .labels
        .iter()
        .filter(|label| label.role == Role::Contributor)
        .map(|label| label.text.as_str())
        .collect();
    assert_eq!(words, heaviest);
    assert_eq!(words.len(), 3);
}

#[test]
fn narrow_stance_marks_what_raises_the_centre_of_gravity() {
    let mut bench = Bench::builtin();
    let build = bench.build("tall-rack-6x10", &[("trailer.axle.track", "\"60 in\"")]);
    let fault = bench.fault("towing/narrow-stance", build);
    let words: Vec<&str> = fault
        .labels
        .iter()
        .filter(|label| label.role == Role::Contributor)
        .map(|label| label.text.as_str())
        .collect();
    assert!(!words.is_empty() && words.len() <= 3, "{:#?}", fault.labels);
    assert!(words.iter().all(|words| words.contains("adds")), "what stands high adds to it: {words:?}");
    assert!(words.iter().any(|words| words.contains("`tent`")), "{words:?}");
    let track = fault.labels.iter().find(|label| label.text.contains("track")).unwrap();
    assert_eq!(bench.sources.slice(track.span), "\"60 in\"");
}

#[test]
fn a_missing_value_is_marked_where_it_is_missing() {
    let mut bench = Bench::builtin();
    let crate_ = r#"{ kind = "module", at = { front = "40 in", left = "0 in" }, length = "10 in", width = "10 in", height = "10 in" }"#;
    let build = bench.build("sound-6x12-round", &[("item.crate", crate_)]);
    let readings = bench.readings("towing/light-tongue", build);
    for reading in &readings {
        assert_eq!(reading.verdict, Verdict::CannotJudge);
        assert_eq!(reading.labels[0].role, Role::Missing);
        assert!(reading.reason.as_deref().unwrap().contains("mass"), "{reading:?}");
        assert!(reading.reason.as_deref().unwrap().contains("`crate`"), "{reading:?}");
    }
    assert_eq!(readings.len(), 4);
}

#[test]
fn passing_readings_have_no_labels_and_faults_have_a_remedy() {
    let mut bench = Bench::builtin();
    for stem in ["sound-6x12-round", "overload-6x12"] {
        let build = bench.build(stem, &[]);
        let inspection = bench.inspect(build);
        for reading in &inspection.readings {
            match reading.verdict {
                Verdict::Pass | Verdict::NotApplicable => {
                    assert_eq!(reading.labels, [], "{}", reading.rule.id);
                    assert_eq!(reading.remedy, None, "{}", reading.rule.id);
                }
                _ => assert!(!reading.labels.is_empty(), "{}", reading.rule.id),
            }
        }
    }
}
