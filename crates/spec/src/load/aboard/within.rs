//! What a state carries and how full its tanks are, against the least and the most of each.

use pintle_finding::{Label, Problem, Role};
use pintle_quantity::{Quantity, Units};
use pintle_source::Spanned;

use super::{Rules, Stated};
use crate::build::{Item, Use};
use crate::load::amounts::{Amounts, on_the_road};
use crate::say::{full, shown};

impl Rules<'_> {
    pub(super) fn check_carry(&self, state: &Stated<'_>, problems: &mut Vec<Problem>) {
        let what = state.what;
        for (at, mass) in state.carry {
            let Some(load) = self.item(*at) else { continue };
            let Some(amounts) = Amounts::of_load(load) else { continue };
            if full(problems) {
                return;
            }
            let least = (state.used == Some(Use::Road)).then_some(amounts.least);
            problems.extend(outside(
                *mass,
                least,
                amounts.most,
                &format!("`{}` in `carry` of {what}", shown(&load.tag.value)),
                &format!("of {}", load.called()),
            ));
        }
        if state.used != Some(Use::Road) || !state.all_carry {
            return;
        }
        for (at, least) in &self.always {
            if full(problems) {
                return;
            }
            if let (false, Some(load)) =
                (state.carry.iter().any(|(carried, _)| carried == at), self.item(*at))
            {
                // It stays behind with what carries it.
                if self.host_out(load.zone, state).is_some() {
                    continue;
                }
                let tag = shown(&load.tag.value);
                let shown_least = least.value.show(Units::AsWritten);
                let message = format!(
                    "{what} does not carry {}, of which at least `{shown_least}` always rides along",
                    load.called()
                );
                problems.push(
                    Problem::new("missing-value", message)
                        .at(Label::new(state.span, Role::Missing, format!("`carry` does not name `{tag}`")))
                        .at(Label::new(least.span, Role::Subject, "the least of it"))
                        .help(format!("give it, such as `carry = {{ {tag} = \"{shown_least}\" }}`, or let it stay at home with `least = \"0 lb\"`")),
                );
            }
        }
    }

    pub(super) fn check_fill(&self, state: &Stated<'_>, problems: &mut Vec<Problem>) {
        for (at, share) in state.fill.iter().filter(|(at, _)| !state.leaves.contains_key(at)) {
            let Some(tank) = self.item(*at) else { continue };
            let Some(Amounts { least, most }) = Amounts::of_tank(tank) else { continue };
            if full(problems) {
                return;
            }
            problems.extend(outside(
                *share,
                Some(least),
                most,
                &format!("`{}` in `fill` of {}", shown(&tank.tag.value), state.what),
                &format!("of {} on the road", tank.called()),
            ));
        }
    }

    /// Each tank is emptied before the next is begun: none is short of its most while one before it holds more than its
    /// least.
    pub(super) fn check_use_order(&self, state: &Stated<'_>, problems: &mut Vec<Problem>) {
        let mut before: Option<(&Item, Spanned<Quantity>, Quantity)> = None;
        for at in self.use_order {
            let filled = state.fill.iter().find(|(filled, _)| filled == at);
            let (Some(tank), Some((_, share)), false) =
                (self.item(*at), filled, state.leaves.contains_key(at))
            else {
                continue;
            };
            let Some((least, most)) = on_the_road(tank) else { continue };
            if let Some((first, held, its_least)) = &before
                && share.value.at_least(most) != Ok(true)
                && !full(problems)
            {
                let [share_shown, most_shown, held_shown, least_shown] =
                    [share.value, most, held.value, *its_least].map(|amount| amount.show(Units::AsWritten));
                let message = format!(
                    "{} begins {} while {}, which is emptied before it, is at `{held_shown}`",
                    state.what,
                    tank.called(),
                    first.called()
                );
                problems.push(
                    Problem::new("use-order", message)
                        .at(Label::new(share.span, Role::Subject, format!("begun: `{share_shown}` of `{most_shown}`")))
                        .at(Label::new(held.span, Role::Subject, "not yet empty"))
                        .help(format!(
                            "fill `{}` to `{most_shown}`, or empty `{}` to `{least_shown}`, as `use_order` says",
                            shown(&tank.tag.value),
                            shown(&first.tag.value)
                        )),
                );
            }
            if share.value.at_most(least) != Ok(true) {
                before = Some((tank, *share, least));
            }
        }
    }
}

/// The problem of an amount outside its range.
fn outside(
    amount: Spanned<Quantity>,
    least: Option<Spanned<Quantity>>,
    most: Spanned<Quantity>,
    name: &str,
    owner: &str,
) -> Option<Problem> {
    let (bound, than, key, within) = if amount.value.at_most(most.value) == Ok(true) {
        let least = least.filter(|least| amount.value.at_least(least.value) != Ok(true))?;
        (least, "less than the least", "the least", "no less than")
    } else {
        (most, "more than the most", "the most", "no more than")
    };
    let [amount_shown, bound_shown] = [amount.value, bound.value].map(|amount| amount.show(Units::AsWritten));
    let message = format!("{name} is `{amount_shown}`, which is {than} {owner}, `{bound_shown}`");
    Some(
        Problem::new("out-of-range", message)
            .at(Label::new(amount.span, Role::Subject, than))
            .at(Label::new(bound.span, Role::Subject, key))
            .help(format!("give {within} `{bound_shown}`, or change {key} where it is stated")),
    )
}
