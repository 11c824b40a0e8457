//! What burns the gas: appliances on the cylinders, what they take, and how long the gas lasts.

use pintle_quantity::Dimension;
use pintle_spec::schema::gas;
use pintle_spec::schema::kinds::{appliance, cylinder};
use pintle_spec::{Build, Item, Known, Missing};

use crate::figure::Figure;
use crate::space::{given, sum};

/// Appliances that burn propane, with their indices of [`Build::items`]; whatever they are used for and wherever.
///
/// # Errors
/// `fuel` of an appliance that does not say.
pub fn propane_appliances(build: &Build) -> Known<Vec<(usize, &Item)>> {
    let mut found = Vec::new();
    for (at, burner) in build.of_kind("appliance") {
        if burner.record.need_word(&appliance::FUEL)?.value == "propane" {
            found.push((at, burner));
        }
    }
    Ok(found)
}

/// Heat input of all appliances that burn propane, at full flame together, in W.
///
/// # Errors
/// `fuel` or `input` of one.
pub fn input(build: &Build) -> Known<Figure> {
    let inputs =
        propane_appliances(build)?.into_iter().map(|(_, burner)| given(&burner.record, &appliance::INPUT));
    sum(Dimension::POWER, inputs.collect::<Known<Vec<_>>>()?)
}

/// The connected cylinders, as indices of [`Build::items`]: those that `[gas]` names, or the only one there is.
///
/// # Errors
/// `connected`, where there are several cylinders, or none.
pub fn connected(build: &Build) -> Known<Vec<usize>> {
    let named = build.gas.as_ref().map_or(&[][..], |gas| gas.texts(&gas::CONNECTED));
    if !named.is_empty() {
        let at = |tag: &str| build.items.iter().position(|item| item.tag.value == tag);
        return Ok(named.iter().filter_map(|tag| at(&tag.value)).collect());
    }
    let all: Vec<usize> = build.of_kind("cylinder").map(|(at, _)| at).collect();
    match all.as_slice() {
        [only] => Ok(vec![*only]),
        [] => Err(Missing::new("a cylinder", None, "add an item of the kind `cylinder`")),
        _ => Err(match &build.gas {
            Some(gas) => gas.missing(&gas::CONNECTED),
            None => Missing::new(
                "`connected` of the gas system",
                None,
                format!("give `connected` in [gas]: {}", gas::CONNECTED.doc),
            ),
        }),
    }
}

/// That a cylinder holds propane.
///
/// # Errors
/// Its `fuel`; or that it holds something else, of which nothing is reckoned here.
pub(crate) fn propane(cylinder: &Item) -> Known<()> {
    let fuel = cylinder.record.need_word(&cylinder::FUEL)?;
    if fuel.value == "propane" {
        return Ok(());
    }
    let help = "what is reckoned here holds for propane only; ask the supplier of the gas";
    Err(Missing::new(format!("figures of {} in {}", fuel.value, cylinder.called()), Some(fuel.span), help))
}

/// Weight of the gas in a cylinder when full.
pub(crate) fn gas_in(cylinder: &Item) -> Known<Figure> {
    propane(cylinder)?;
    given(&cylinder.record, &cylinder::GAS)
}
