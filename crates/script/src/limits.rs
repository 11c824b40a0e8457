//! A rule's limits, as a script asks for them: `limit.least`.

use std::rc::Rc;

use pintle_finding::nearest;
use rhai::{EvalAltResult, ImmutableString};

use crate::desk::Desk;
use crate::measured::{Limit, Measured};
use crate::stop::failed;

/// A rule's limits, as a script sees them.
#[derive(Debug, Clone)]
pub(crate) struct Limits(pub(crate) Rc<[Rc<Limit>]>);

impl Limits {
    fn get(&self, name: &str) -> Result<Measured, Box<EvalAltResult>> {
        match self.0.iter().find(|limit| limit.name == name) {
            Some(limit) => {
                let figure = pintle_calc::Figure::constant(limit.value);
                Ok(Measured { limit: Some(Rc::clone(limit)), ..Measured::new(figure, "") })
            }
            None => Err(failed(match nearest(name, self.0.iter().map(|limit| limit.name.as_str())) {
                Some(near) => format!("the rule has no limit `{name}`; did you mean `{near}`?"),
                None => format!("the rule has no limit `{name}`"),
            })),
        }
    }
}

/// Teaches an engine to look limits up.
pub(crate) fn register(desk: &mut Desk<'_>) {
    desk.register_type_with_name::<Limits>("limits");
    desk.engine().register_indexer_get(|limits: &mut Limits, name: ImmutableString| limits.get(&name));
}
