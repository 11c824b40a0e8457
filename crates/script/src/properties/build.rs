//! What can be asked of the build as a whole.

use pintle_quantity::Dimension;
use std::rc::Rc;

use pintle_calc::air::{self, ApplianceKind};
use pintle_calc::arrange::{End, Extremum};
use pintle_calc::weights::Weights;
use pintle_calc::{Figure, Known, road, roof, space};
use pintle_spec::schema::kinds::{alarm, berth};
use pintle_spec::{Build, Missing, Table, Zone};

use super::{Found, Gives, Property};
use crate::run::Run;
use crate::thing::What;

fn of_kind(build: &Build, kind: &'static str) -> Found {
    Found::Things(build.of_kind(kind).map(|(at, _)| What::Item(at)).collect())
}

fn needed(build: &Build) -> Known<air::Needed> {
    let plan = space::plan_area(build)?;
    air::needed(&plan, air::appliance_kind(build)?)?.ok_or_else(|| {
        Missing::new(
            "a figure for so large a plan area",
            Some(build.number.span),
            "the table at hand ends at 15 m² for room-sealed appliances or none: set the vents by a maker's or inspector's figure",
        )
    })
}

/// A figure of the arrangement at which another is least or greatest.
fn at(run: &Run, what: Extremum, end: End, figure: fn(&Rc<Weights>) -> Known<Figure>) -> Known<Found> {
    Ok(figure(&run.extreme(what, end)?)?.into())
}

/// What that arrangement is called.
fn called(run: &Run, what: Extremum, end: End) -> Known<Found> {
    let at = run.extremes.at(what, end)?;
    Ok(Found::Text(run.extremes.state(at).map(|state| state.name.value.clone()).unwrap_or_default()))
}

/// What can be asked of the build.
pub(super) const PROPERTIES: &[Property] = &[
    Property {
        name: "unloaded",
        says: "unloaded weight",
        doc: "weight as built: all parts fitted, full propane, no water, no loads",
        gives: Gives::Quantity(Dimension::MASS),
        get: |run, _| Ok(run.as_built().unloaded()?.into()),
    },
    Property {
        name: "cargo_capacity",
        says: "cargo capacity",
        doc: "GVWR less the unloaded weight: the placard's figure",
        gives: Gives::Quantity(Dimension::MASS),
        get: |run, _| Ok(run.as_built().cargo_capacity()?.into()),
    },
    Property {
        name: "added_weight",
        says: "weight added to the trailer",
        doc: "unloaded weight as built less the empty trailer as it came",
        gives: Gives::Quantity(Dimension::MASS),
        get: |run, _| {
            let bare = pintle_calc::ratings::bare_mass(&run.build)?;
            let added = run.as_built().unloaded()?.minus(&bare);
            Ok(added.map_err(|mismatch| Missing::new(mismatch.to_string(), None, ""))?.into())
        },
    },
    Property {
        name: "cg_foremost",
        says: "foremost centre of gravity",
        doc: "least distance of the centre of gravity behind the ball, over all road arrangements",
        gives: Gives::Quantity(Dimension::LENGTH),
        get: |run, _| at(run, Extremum::CentreX, End::Least, Weights::centre_x),
    },
    Property {
        name: "cg_rearmost",
        says: "rearmost centre of gravity",
        doc: "greatest distance of the centre of gravity behind the ball, over all road arrangements",
        gives: Gives::Quantity(Dimension::LENGTH),
        get: |run, _| at(run, Extremum::CentreX, End::Most, Weights::centre_x),
    },
    Property {
        name: "foremost_arrangement",
        says: "arrangement with the foremost centre of gravity",
        doc: "the arrangement of `cg_foremost`, in words",
        gives: Gives::Text,
        get: |run, _| called(run, Extremum::CentreX, End::Least),
    },
    Property {
        name: "rearmost_arrangement",
        says: "arrangement with the rearmost centre of gravity",
        doc: "the arrangement of `cg_rearmost`, in words",
        gives: Gives::Text,
        get: |run, _| called(run, Extremum::CentreX, End::Most),
    },
    Property {
        name: "tongue_share_least",
        says: "least tongue share",
        doc: "tongue weight as a share of gross weight where it is least, over all road arrangements",
        gives: Gives::Quantity(Dimension::NONE),
        get: |run, _| at(run, Extremum::TongueShare, End::Least, Weights::tongue_share),
    },
    Property {
        name: "tongue_share_most",
        says: "greatest tongue share",
        doc: "tongue weight as a share of gross weight where it is greatest, over all road arrangements",
        gives: Gives::Quantity(Dimension::NONE),
        get: |run, _| at(run, Extremum::TongueShare, End::Most, Weights::tongue_share),
    },
    Property {
        name: "lightest_arrangement",
        says: "arrangement with the least tongue share",
        doc: "the arrangement of `tongue_share_least`, in words",
        gives: Gives::Text,
        get: |run, _| called(run, Extremum::TongueShare, End::Least),
    },
    Property {
        name: "heaviest_arrangement",
        says: "arrangement with the greatest tongue share",
        doc: "the arrangement of `tongue_share_most`, in words",
        gives: Gives::Text,
        get: |run, _| called(run, Extremum::TongueShare, End::Most),
    },
    Property {
        name: "items",
        says: "parts",
        doc: "every fitted part",
        gives: Gives::Parts(None),
        get: |run, _| {
            let parts = run.build.items.iter().enumerate().filter(|(_, item)| item.table != Table::Load);
            Ok(Found::Things(parts.map(|(at, _)| What::Item(at)).collect()))
        },
    },
    Property {
        name: "cylinders",
        says: "cylinders",
        doc: "every gas cylinder",
        gives: Gives::Parts(Some("cylinder")),
        get: |run, _| Ok(of_kind(&run.build, "cylinder")),
    },
    Property {
        name: "appliances",
        says: "appliances",
        doc: "everything that burns fuel",
        gives: Gives::Parts(Some("appliance")),
        get: |run, _| Ok(of_kind(&run.build, "appliance")),
    },
    Property {
        name: "batteries",
        says: "batteries",
        doc: "every battery",
        gives: Gives::Parts(Some("battery")),
        get: |run, _| Ok(of_kind(&run.build, "battery")),
    },
    Property {
        name: "berths",
        says: "berths",
        doc: "every berth, inside and in tents",
        gives: Gives::Parts(Some("berth")),
        get: |run, _| {
            Ok(Found::Things(run.build.of_table(Table::Berth).map(|(at, _)| What::Item(at)).collect()))
        },
    },
    Property {
        name: "sleepers_inside",
        says: "people who sleep inside",
        doc: "people of the berths that are not in a tent",
        gives: Gives::Count,
        get: |run, _| {
            let mut people = 0;
            for (_, bed) in run.build.of_table(Table::Berth) {
                if !matches!(bed.zone, Zone::Tent(_)) {
                    people += bed.record.need_count(&berth::PEOPLE)?.value as usize;
                }
            }
            Ok(Found::Count(people))
        },
    },
    Property {
        name: "senses",
        says: "what alarms sense",
        doc: "what the alarms fitted are set off by",
        gives: Gives::WordsOf(&alarm::SENSES),
        get: |run, _| {
            let mut senses = Vec::new();
            for (_, fitted) in run.build.of_kind("alarm") {
                let words = fitted
                    .record
                    .words(&alarm::SENSES)
                    .ok_or_else(|| fitted.record.missing(&alarm::SENSES))?;
                senses.extend(words.iter().map(|word| word.value.to_owned()));
            }
            Ok(Found::Texts(senses))
        },
    },
    Property {
        name: "plan_area",
        says: "plan area",
        doc: "enclosed plan area inside with the nose, less lockers that are outside the living space",
        gives: Gives::Quantity(Dimension::AREA),
        get: |run, _| Ok(space::plan_area(&run.build)?.into()),
    },
    Property {
        name: "inside_length",
        says: "inside length",
        doc: "inside length on the centreline, with the nose",
        gives: Gives::Quantity(Dimension::LENGTH),
        get: |run, _| Ok(space::inside_length(&run.build)?.into()),
    },
    Property {
        name: "burner_open_to_room",
        says: "burner open to the room",
        doc: "whether a flueless or open-flued appliance is used inside",
        gives: Gives::Flag,
        get: |run, _| {
            Ok(Found::Flag(matches!(air::appliance_kind(&run.build)?, ApplianceKind::OpenToRoom(_))))
        },
    },
    Property {
        name: "burns_inside",
        says: "burns inside",
        doc: "whether any appliance is used inside",
        gives: Gives::Flag,
        get: |run, _| Ok(Found::Flag(air::appliance_kind(&run.build)? != ApplianceKind::None)),
    },
    Property {
        name: "roof_vents",
        says: "free area of fixed roof vents",
        doc: "free area of roof vents that cannot be shut",
        gives: Gives::Quantity(Dimension::AREA),
        get: |run, _| Ok(air::vents(&run.build)?.roof.into()),
    },
    Property {
        name: "high_wall_vents",
        says: "free area of fixed high wall vents",
        doc: "free area of wall vents that cannot be shut, 300 mm or more above the highest mattress",
        gives: Gives::Quantity(Dimension::AREA),
        get: |run, _| Ok(air::vents(&run.build)?.high_wall.into()),
    },
    Property {
        name: "low_vents",
        says: "free area of fixed low vents",
        doc: "free area of vents that cannot be shut, 100 mm or less above the floor",
        gives: Gives::Quantity(Dimension::AREA),
        get: |run, _| Ok(air::vents(&run.build)?.low.into()),
    },
    Property {
        name: "closable_vents",
        says: "free area of vents that can be shut",
        doc: "free area of vents that can be shut",
        gives: Gives::Quantity(Dimension::AREA),
        get: |run, _| Ok(air::vents(&run.build)?.closable.into()),
    },
    Property {
        name: "roof_vents_needed",
        says: "roof vents needed",
        doc: "free area of fixed roof vents that EN 721 asks for, by plan area and appliances",
        gives: Gives::Quantity(Dimension::AREA),
        get: |run, _| Ok(needed(&run.build)?.roof.into()),
    },
    Property {
        name: "high_wall_vents_needed",
        says: "high wall vents needed",
        doc: "free area of fixed high wall vents that EN 721 takes in place of roof vents",
        gives: Gives::Quantity(Dimension::AREA),
        get: |run, _| {
            let figure = needed(&run.build)?.high_wall;
            let none = || Found::None(Missing::new("a figure for high wall vents", None, ""));
            Ok(figure.map_or_else(none, Found::Figure))
        },
    },
    Property {
        name: "low_vents_needed",
        says: "low vents needed",
        doc: "free area of fixed low vents that EN 721 asks for, by plan area and appliances",
        gives: Gives::Quantity(Dimension::AREA),
        get: |run, _| Ok(needed(&run.build)?.low.into()),
    },
    Property {
        name: "overall_width",
        says: "overall width",
        doc: "outside width with rigid fenders",
        gives: Gives::Quantity(Dimension::LENGTH),
        get: |run, _| Ok(road::overall_width(&run.build)?.into()),
    },
    Property {
        name: "overall_length",
        says: "overall length",
        doc: "outside length with tongue and coupler",
        gives: Gives::Quantity(Dimension::LENGTH),
        get: |run, _| Ok(road::overall_length(&run.build)?.into()),
    },
    Property {
        name: "overall_height",
        says: "overall height",
        doc: "height of the roof or of the highest thing on it, tents closed",
        gives: Gives::Quantity(Dimension::LENGTH),
        get: |run, _| Ok(roof::overall_height(&run.build)?.into()),
    },
    Property {
        name: "missing_lamps",
        says: "missing lamps",
        doc: "lamps and reflectors of 49 CFR 571.108 Table I-b that the trailer's size asks for and that are not fitted",
        gives: Gives::Texts,
        get: |run, _| {
            let missing = road::missing_lamps(&run.build)?;
            Ok(Found::Texts(missing.into_iter().map(str::to_owned).collect()))
        },
    },
    Property {
        name: "roof_moving_load",
        says: "load on the roof on the road",
        doc: "mass of all that stands on the roof, with what lies on racks, bedding kept in tents and the most of each load",
        gives: Gives::Quantity(Dimension::MASS),
        get: |run, _| Ok(roof::on_roof(&run.build).moving?.into()),
    },
    Property {
        name: "roof_parked_load",
        says: "load on the roof when parked",
        doc: "mass of the parts on the roof, the most that a camp state loads on it, and the people of the berths in tents",
        gives: Gives::Quantity(Dimension::MASS),
        get: |run, _| Ok(roof::on_roof(&run.build).parked?.into()),
    },
];
