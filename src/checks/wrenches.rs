//! The torques of a step, and how they lie on the wrenches it names.
use super::Subject;
use crate::model::Name;
use crate::model::action::{Object, Work};
use crate::model::declarations::{Declarations, Tool};
use crate::model::fastener::wrench::{self, Fit};
use crate::model::quantity::{Exact, Quantity};
use crate::model::tightening::{self, Tightening};
use crate::source::Span;
use std::collections::HashSet;

/// One step's tightenings with all the torques they need a wrench for; at least one.
pub struct OfOneStep<'a> {
    pub work: &'a Work,
    pub values: Vec<Quantity>,
    /// `None` without a wrench, or where its lever is not known, or the torque itself is in doubt.
    worst: Option<Worst<'a>>,
}

/// Every step that needs a torque wrench.
pub fn steps<'a>(subject: &Subject<'a>) -> Vec<OfOneStep<'a>> {
    let bad = subject.judged().iter().filter(|it| it.judgement.verdict.is_bad());
    let bad: HashSet<Span> = bad.map(|it| it.value.span()).collect();
    let groups = subject.tightenings().chunk_by(|a, b| std::ptr::eq(a.work, b.work));
    let of_one = |tightenings: &[Tightening<'a>]| {
        let work = tightenings.first()?.work;
        let values: Vec<Quantity> =
            tightenings.iter().flat_map(Tightening::wanted).map(|wanted| wanted.value).collect();
        if values.is_empty() {
            return None;
        }
        // A torque that cannot be meant for its fastener says nothing against the wrench.
        let doubted = values.iter().any(|value| bad.contains(&value.span()));
        let worst = if doubted { None } else { worst(work, &values, &subject.document.declarations) };
        Some(OfOneStep { work, values, worst })
    };
    groups.filter_map(of_one).collect()
}

/// Whether any torque wrench is declared, here or in a catalogue in use.
pub fn any(subject: &Subject<'_>) -> bool {
    all(subject).next().is_some()
}

fn all<'s>(subject: &'s Subject<'_>) -> impl Iterator<Item = &'s Tool> {
    let declarations = &subject.document.declarations;
    let tools = declarations.tools.iter().chain(&declarations.other_wrenches);
    tools.filter(|tool| wrench::scale(tool).is_some())
}

/// The torque that lies worst on a wrench that the step names for it.
#[derive(Clone, Copy)]
pub struct Worst<'a> {
    pub fit: Fit,
    pub wrench: &'a Tool,
    /// Which of the step's values.
    value: usize,
    /// Of the value, what the wrench shows.
    pub share: Exact,
}

/// Each torque is read off the named wrench that suits it best.
fn worst<'a>(work: &Work, values: &[Quantity], declarations: &'a Declarations) -> Option<Worst<'a>> {
    let scaled = |object: &Object| match object.name {
        Some(Name::Tool(id)) => declarations.tool(id).filter(|tool| wrench::scale(tool).is_some()),
        _ => None,
    };
    let of_value = |(at, value): (usize, &Quantity)| {
        let on = work.tools.iter().filter_map(scaled).filter_map(|wrench| {
            let share = share(work, wrench, declarations)?;
            Some(Worst { fit: wrench::fit(wrench::scale(wrench)?, value, share), wrench, value: at, share })
        });
        on.min_by_key(|on| on.fit)
    };
    // Of equals the first.
    let all = values.iter().enumerate().filter_map(of_value);
    all.reduce(|worst, next| if next.fit > worst.fit { next } else { worst })
}

/// What the wrench would show of a torque; `None` where its lever is not known.
fn share(work: &Work, tool: &Tool, declarations: &Declarations) -> Option<Exact> {
    let adapters = tightening::adapters(work, declarations).map(|(_, adapter)| adapter);
    wrench::share_with(tool, adapters, work.adapter_angle.as_ref())
}

impl<'a> OfOneStep<'a> {
    /// Names a torque wrench, or what may be one.
    pub fn has_wrench(&self, subject: &Subject<'_>) -> bool {
        let declarations = &subject.document.declarations;
        // A range that could not be read has its own finding.
        let torn = |tool: &Tool| subject.unclear(tool.thing.span) || subject.is_faulty(tool.thing.span.file);
        self.work.tools.iter().any(|tool| match tool.name {
            // A name nobody declared has its own finding; it may well be the wrench.
            None => true,
            Some(Name::Tool(id)) => {
                declarations.tool(id).is_some_and(|tool| wrench::scale(tool).is_some() || torn(tool))
            }
            Some(_) => false,
        })
    }

    /// The declared wrench that suits all the torques best, with the adapters the step names.
    pub fn best<'s>(&self, subject: &'s Subject<'_>) -> Option<&'s Tool> {
        wrench::best(all(subject), &self.values, |tool| self.share(tool, subject))
    }

    /// What the wrench would show of a torque; `None` where its lever is not known.
    pub fn share(&self, tool: &Tool, subject: &Subject<'_>) -> Option<Exact> {
        share(self.work, tool, &subject.document.declarations)
    }

    /// The torque that lies worst on the wrenches that the step names, and how.
    pub fn worst(&self) -> Option<(Worst<'a>, &Quantity)> {
        let worst = self.worst?;
        Some((worst, self.values.get(worst.value)?))
    }
}
