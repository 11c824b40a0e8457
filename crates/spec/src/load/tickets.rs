//! `[[record.ticket]]`: the states that scale tickets name.

use pintle_finding::{Label, Problem, Role};

use crate::node::{Node, NodeValue};
use crate::read::list;
use crate::record::Record;
use crate::say::{PAST_HELP, full, near, past_help, shown};
use crate::schema::record::{self, ticket};
use crate::schema::state;

/// Says which tickets name a state that the spec does not have.
pub(super) fn check_tickets(record: Option<&Record>, states: Option<&Node>, problems: &mut Vec<Problem>) {
    let Some(record) = record else { return };
    // Names as they are written: a state that could not be read has a name all the same.
    let nodes = match states.map(|states| &states.value) {
        Some(NodeValue::Array(nodes)) => nodes.as_slice(),
        _ => &[],
    };
    let known = || nodes.iter().filter_map(|node| node.child(state::NAME.key).and_then(Node::text));
    for entry in record.tables(&record::TICKETS) {
        if full(problems) {
            break;
        }
        let Some(named) = entry.text(&ticket::STATE) else { continue };
        if known().any(|name| name == named.value) {
            continue;
        }
        let said = problems.len();
        let help = match near(named.value, known(), said) {
            None if past_help(said) => PAST_HELP.to_owned(),
            Some(near) => format!("did you mean `{}`?", shown(near)),
            None if known().next().is_none() => {
                "add a `[[state]]` for how the trailer stood on the scale".to_owned()
            }
            None => format!("the states are {}", list(known())),
        };
        problems.push(
            Problem::new(
                "unknown-state",
                format!("a scale ticket names the state `{}`, and there is none", shown(named.value)),
            )
            .at(Label::new(named.span, Role::Subject, "no state has this name"))
            .help(help),
        );
    }
}
