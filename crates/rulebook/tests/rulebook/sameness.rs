//! The same build, judged twice, gives the same readings: with one judge, and with a fresh one.

use pintle_rulebook::{Detail, Judge};

use crate::bench::Bench;

#[test]
fn the_same_build_gives_equal_readings() {
    let mut bench = Bench::builtin();
    let stems: Vec<String> = bench.specs.iter().map(|(stem, _)| stem.clone()).collect();
    let judge_of_all = Bench::builtin();
    let kept = Judge::new(&judge_of_all.rulebook);
    for stem in &stems {
        let inspections: Vec<_> = (0..2)
            .map(|_| {
                let build = bench.build(stem, &[]);
                bench.inspect(build)
            })
            .collect();
        assert!(!inspections[0].readings.is_empty(), "{stem}");
        assert_eq!(inspections[0], inspections[1], "{stem} with a fresh judge");
        // The kept judge has judged the specs before this one.
        let build = bench.build(stem, &[]);
        let again = kept.inspect(build, &bench.sources, Detail::Everything);
        assert_eq!(inspections[0], again, "{stem} with a judge that judged others first");
        assert_eq!(format!("{:?}", inspections[0]), format!("{again:?}"), "{stem}, byte for byte");
    }
}

#[test]
fn findings_are_the_same_with_and_without_all_detail() {
    let mut bench = Bench::builtin();
    let build = bench.build("overload-6x12", &[]);
    let full = bench.inspect(build);
    let build = bench.build("overload-6x12", &[]);
    let brief = Judge::new(&bench.rulebook).inspect(build, &bench.sources, Detail::Findings);
    assert_eq!(full.findings().collect::<Vec<_>>(), brief.findings().collect::<Vec<_>>());
    assert!(full.findings().count() > 0);
    let verdicts = |inspection: &pintle_finding::Inspection| {
        // The ± of a value that passes is part of the detail.
        let value = |reading: &pintle_finding::Reading| reading.value.map(|value| value.si().to_bits());
        inspection.readings.iter().map(|reading| (reading.verdict, value(reading))).collect::<Vec<_>>()
    };
    assert_eq!(verdicts(&full), verdicts(&brief));
}
