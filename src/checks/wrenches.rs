//! The torques of a step, and how they lie on the wrenches it names.
use super::Subject;
use crate::model::Name;
use crate::model::action::Work;
use crate::model::declarations::Tool;
use crate::model::fastener::wrench::{self, Fit};
use crate::model::quantity::{Exact, Quantity};
use crate::model::tightening::{self, Tightening};
use crate::source::Span;
use std::collections::HashSet;

/// One step's tightenings with all the torques they need a wrench for; at least one.
pub struct OfOneStep<'a> {
    pub work: &'a Work,
    pub values: Vec<Quantity>,
    /// Some torque cannot be meant for its fastener, and says nothing against the wrench.
    doubted: bool,
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
        let doubted = values.iter().any(|value| bad.contains(&value.span()));
        (!values.is_empty()).then_some(OfOneStep { work, values, doubted })
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
pub struct Worst<'s> {
    pub fit: Fit,
    pub wrench: &'s Tool,
    pub value: &'s Quantity,
    /// Of the value, what the wrench shows.
    pub share: Exact,
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
        let declarations = &subject.document.declarations;
        let adapters = tightening::adapters(self.work, declarations).map(|(_, adapter)| adapter);
        wrench::share_with(tool, adapters, self.work.adapter_angle.as_ref())
    }

    /// Each torque is read off the named wrench that suits it best. `None` without a wrench, or where its lever is
    /// not known, or the torque itself is in doubt.
    pub fn worst<'s>(&'s self, subject: &'s Subject<'_>) -> Option<Worst<'s>> {
        if self.doubted {
            return None;
        }
        let declarations = &subject.document.declarations;
        let named: Vec<(&Tool, &Quantity, Exact)> = self
            .work
            .tools
            .iter()
            .filter_map(|tool| match tool.name {
                Some(Name::Tool(id)) => declarations.tool(id),
                _ => None,
            })
            .filter_map(|tool| Some((tool, wrench::scale(tool)?, self.share(tool, subject)?)))
            .collect();
        let of_value = |value: &'s Quantity| {
            let on = named.iter().map(|&(wrench, scale, share)| {
                let fit = wrench::fit(scale, value, share);
                Worst { fit, wrench, value, share }
            });
            on.min_by_key(|on| on.fit)
        };
        // Of equals the first.
        self.values
            .iter()
            .filter_map(of_value)
            .reduce(|worst, next| if next.fit > worst.fit { next } else { worst })
    }
}
