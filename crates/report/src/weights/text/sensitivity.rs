//! What small changes do to the tongue weight, as a table.

use super::Lines;
use crate::weights::sensitivity::Sensitivity;
use crate::weights::table::table;

/// A line for each thing that a step of its weight or place changes the tongue weight by.
pub(super) fn sensitivity(steps: &Sensitivity, lines: &mut Lines) {
    lines.line("what small changes add to the tongue weight");
    let (place, mass) = (steps.place_step.cell(), steps.mass_step.cell());
    let heavier = format!("{mass} more");
    let aft = format!("{place} further aft");
    let things =
        steps.things.iter().map(|thing| vec![thing.name.clone(), thing.heavier.cell(), thing.aft.cell()]);
    let axle =
        steps.axle.as_result().map(|axle| vec!["the axle".to_owned(), String::new(), axle.tongue.cell()]);
    let rows: Vec<Vec<String>> = axle.into_iter().chain(things).collect();
    if !rows.is_empty() {
        lines.lines(table(&["", &heavier, &aft], &rows, lines.width));
    }
    if let Ok(axle) = steps.axle.as_result() {
        lines.words(&format!("the axle's line is for: {}", axle.arrangement));
    }
    lines.not_known(
        steps.axle.as_result().err().into_iter().chain(steps.not_known.iter().map(String::as_str)),
    );
}
