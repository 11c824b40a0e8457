//! Where a part stands, against places added up by hand.

use super::Bench;

/// The hob's near faces are 44 + 1.5 + 10 in behind the ball, 69 / 2 - 10 in left of the centreline, and 21 in above the
/// ground; it is 10 x 10 x 4 in, and the axle is 100 in behind the ball.
#[test]
fn a_part_says_where_its_centre_of_gravity_is() {
    let mut bench = Bench::new();
    for (name, inches) in [
        ("behind_ball", "60.5 in"),
        ("behind_axle", "-39.5 in"),
        ("off_centre", "-19.5 in"),
        ("above_ground", "23 in"),
    ] {
        let judgement = bench
            .judge_a(
                "item",
                &format!(
                    "reading(item.{name}).at_most(quantity(\"{inches}\")); reading(item.{name}).at_least(quantity(\"{inches}\"));"
                ),
            )
            .unwrap();
        assert_eq!(judgement.drafts.len(), 2, "{name}");
        assert!(judgement.drafts.iter().all(|draft| draft.passes), "{name}: {:?}", judgement.drafts);
        let off = "reading(item.NAME).at_least(quantity(\"60.6 in\"));".replace("NAME", name);
        assert!(!bench.judge_a("item", &off).unwrap().drafts[0].passes, "{name}");
    }
}
