//! What a script leaves behind: readings in the making.

use std::cell::RefCell;
use std::rc::Rc;

use pintle_quantity::{DimensionMismatch, Quantity};
use pintle_source::Span;
use pintle_spec::Missing;
use rhai::{EvalAltResult, ImmutableString, NativeCallContext, Position};

use crate::desk::Desk;
use crate::measured::{MOST_STEPS, Measured};
use crate::stop::{Stop, failed};
use crate::thing::Thing;

/// One reading as the script left it.
#[derive(Debug, Clone)]
pub struct Draft {
    /// What was measured; the figure's own name unless the script named it.
    pub what: String,
    /// The figure measured; none for a bare condition.
    pub value: Option<Measured>,
    /// What it was compared with; none when the script forgot to.
    pub comparison: Option<Comparison>,
    /// Whether it lies within.
    pub passes: bool,
    /// What would put it right.
    pub remedy: Option<String>,
    /// Places the script points at.
    pub marks: Vec<Mark>,
    /// Where in the script it was begun.
    pub position: Position,
}

/// A place that a script points at.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mark {
    /// The place.
    pub span: Span,
    /// The words set against it.
    pub text: String,
}

/// The comparison that a script asked for.
#[derive(Debug, Clone)]
pub enum Comparison {
    /// At least this.
    AtLeast(Measured),
    /// At most this.
    AtMost(Measured),
    /// Between these two.
    Between(Measured, Measured),
    /// Equal to this.
    Equal(Measured),
    /// This condition must hold.
    Holds(String),
}

/// How a script ended.
#[derive(Debug, Clone)]
pub enum End {
    /// At its last line.
    Done,
    /// The rule does not bear on this subject, and why.
    NotApplicable(String),
    /// A value is not given.
    Missing(Missing),
    /// It failed: what happened, and where in the script.
    Failed {
        /// What happened.
        message: String,
        /// Where in the script.
        position: Position,
    },
}

/// All that one run of a script over one subject gave.
#[derive(Debug, Clone)]
pub struct Judgement {
    /// Its readings, in order.
    pub drafts: Vec<Draft>,
    /// How it ended.
    pub end: End,
}

/// The readings of the run under way.
pub(crate) type Drafts = Rc<RefCell<Book>>;

/// The readings of one run, which is told from every other run.
#[derive(Debug, Default)]
pub(crate) struct Book {
    run: u64,
    drafts: Vec<Draft>,
    steps: u32,
}

impl Book {
    /// Begins a run.
    pub(crate) fn begin(&mut self) {
        *self = Self { run: self.run + 1, ..Self::default() };
    }

    /// The readings of the run.
    pub(crate) fn take(&mut self) -> Vec<Draft> {
        std::mem::take(&mut self.drafts)
    }

    /// Counts the figures that one run leaves behind, all of whose traces may have to be shown.
    fn charge(&mut self, value: &Measured) -> Outcome<()> {
        self.steps = self.steps.saturating_add(value.steps);
        if self.steps > MOST_STEPS_IN_ALL {
            return Err(failed(format!("readings of more than {MOST_STEPS_IN_ALL} figures on one subject")));
        }
        Ok(())
    }
}

/// A script's handle on one of its readings.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Handle {
    run: u64,
    at: usize,
}

/// Most readings one run may leave.
const MOST_READINGS: usize = 200;
/// Most places one reading may point at.
const MOST_MARKS: usize = 100;
/// Figures in all the readings and limits of one run.
const MOST_STEPS_IN_ALL: u32 = 20 * MOST_STEPS;

type Outcome<T> = Result<T, Box<EvalAltResult>>;

fn begin(drafts: &Drafts, draft: Draft) -> Outcome<Handle> {
    let mut book = drafts.borrow_mut();
    if book.drafts.len() >= MOST_READINGS {
        return Err(failed(format!("more than {MOST_READINGS} readings on one subject")));
    }
    if let Some(value) = &draft.value {
        book.charge(value)?;
    }
    book.drafts.push(draft);
    Ok(Handle { run: book.run, at: book.drafts.len() - 1 })
}

fn change(
    drafts: &Drafts,
    handle: Handle,
    limits: &[&Measured],
    change: impl FnOnce(&mut Draft) -> Outcome<()>,
) -> Outcome<Handle> {
    let mut book = drafts.borrow_mut();
    if book.run != handle.run {
        return Err(failed("a reading of another run"));
    }
    for limit in limits {
        book.charge(limit)?;
    }
    match book.drafts.get_mut(handle.at) {
        Some(draft) => change(draft)?,
        None => return Err(failed("a reading of another run")),
    }
    Ok(handle)
}

type Compare = fn(Quantity, Quantity) -> Result<bool, DimensionMismatch>;

/// A limit on a plain number is shown as one, though its author wrote it in per cent.
fn like(draft: &Draft, limit: &Measured) -> Measured {
    match draft.value.as_ref().map(|value| value.figure.quantity) {
        Some(value) if value.is_number() => {
            Measured { figure: limit.figure.shown_as(value), ..limit.clone() }
        }
        _ => limit.clone(),
    }
}

fn compare(draft: &mut Draft, with: &[(Compare, &Measured)], comparison: Comparison) -> Outcome<()> {
    if draft.comparison.is_some() {
        return Err(failed("a reading takes one limit; begin another reading for the second"));
    }
    let Some(value) = &draft.value else {
        return Err(failed("a condition takes no limit"));
    };
    let value = value.figure.quantity;
    if !value.si().is_finite() {
        return Err(failed("the value read is not a finite number"));
    }
    let mut passes = true;
    for (compare, limit) in with {
        if !limit.figure.quantity.si().is_finite() {
            return Err(failed("the limit is not a finite number"));
        }
        let within =
            compare(value, limit.figure.quantity).map_err(|mismatch| failed(mismatch.to_string()))?;
        passes = passes && within;
    }
    draft.passes = passes;
    draft.comparison = Some(comparison);
    Ok(())
}

fn mark(draft: &mut Draft, thing: &Thing, words: &str) -> Outcome<()> {
    for mark in thing.marked(words) {
        if draft.marks.len() >= MOST_MARKS {
            return Err(failed(format!("more than {MOST_MARKS} marks on one reading")));
        }
        draft.marks.push(mark);
    }
    Ok(())
}

/// Teaches an engine to take readings into `drafts`.
pub(crate) fn register(desk: &mut Desk<'_>, drafts: &Drafts) {
    desk.register_type_with_name::<Handle>("reading");
    let on = || Rc::clone(drafts);

    let to = on();
    desk.register_fn("reading", move |context: NativeCallContext, value: Measured| {
        begin(
            &to,
            Draft {
                what: value.name.to_owned(),
                value: Some(value),
                comparison: None,
                passes: false,
                remedy: None,
                marks: Vec::new(),
                position: context.call_position(),
            },
        )
    });
    let to = on();
    desk.register_fn(
        "require",
        move |context: NativeCallContext, condition: bool, words: ImmutableString| {
            begin(
                &to,
                Draft {
                    what: String::new(),
                    value: None,
                    comparison: Some(Comparison::Holds(words.to_string())),
                    passes: condition,
                    remedy: None,
                    marks: Vec::new(),
                    position: context.call_position(),
                },
            )
        },
    );
    let to = on();
    desk.register_fn("at_least", move |reading: Handle, limit: Measured| {
        change(&to, reading, &[&limit], |draft| {
            let shown = Comparison::AtLeast(like(draft, &limit));
            compare(draft, &[(Quantity::at_least, &limit)], shown)
        })
    });
    let to = on();
    desk.register_fn("at_most", move |reading: Handle, limit: Measured| {
        change(&to, reading, &[&limit], |draft| {
            let shown = Comparison::AtMost(like(draft, &limit));
            compare(draft, &[(Quantity::at_most, &limit)], shown)
        })
    });
    let to = on();
    desk.register_fn("between", move |reading: Handle, least: Measured, most: Measured| {
        change(&to, reading, &[&least, &most], |draft| {
            let both: [(Compare, &Measured); 2] = [(Quantity::at_least, &least), (Quantity::at_most, &most)];
            let shown = Comparison::Between(like(draft, &least), like(draft, &most));
            compare(draft, &both, shown)
        })
    });
    let to = on();
    desk.register_fn("equals", move |reading: Handle, wanted: Measured| {
        change(&to, reading, &[&wanted], |draft| {
            let shown = Comparison::Equal(like(draft, &wanted));
            compare(draft, &[(Quantity::equals, &wanted)], shown)
        })
    });
    let to = on();
    desk.register_fn("named", move |reading: Handle, name: ImmutableString| {
        change(&to, reading, &[], |draft| {
            draft.what = name.to_string();
            Ok(())
        })
    });
    let to = on();
    desk.register_fn("remedy", move |reading: Handle, words: ImmutableString| {
        change(&to, reading, &[], |draft| {
            if !draft.passes {
                draft.remedy = Some(words.to_string());
            }
            Ok(())
        })
    });
    let to = on();
    desk.register_fn("marks", move |reading: Handle, thing: Thing, words: ImmutableString| {
        change(&to, reading, &[], |draft| if draft.passes { Ok(()) } else { mark(draft, &thing, &words) })
    });
    let to = on();
    desk.register_fn("not_applicable", move |why: ImmutableString| -> Outcome<()> {
        if !to.borrow().drafts.is_empty() {
            return Err(failed("a rule that has taken a reading cannot say that it does not apply"));
        }
        Err(Stop::NotApplicable(why.to_string()).raise())
    });
    desk.register_fn("cannot_judge", |missing: ImmutableString| -> Outcome<()> {
        Err(Stop::Missing(Missing::new(missing.to_string(), None, "state it in the spec")).raise())
    });
}
