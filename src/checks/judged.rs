//! Torques held against the threads and classes of the parts they tighten, and the words that show the sum.
use super::Subject;
use crate::model::Body;
use crate::model::declarations::{Condition, Part};
use crate::model::fastener::friction::{Friction, Surface};
use crate::model::fastener::preload::{Fastener, Judgement, figures, force};
use crate::model::fastener::strength::{self, STRONGEST};
use crate::model::fastener::thread::{Thread, thread};
use crate::model::quantity::{Dimension, Quantity, as_float};
use crate::model::tightening::Tightening;
use crate::model::torque::{PassTarget, Torque};
use crate::report::Finding;
use crate::source::Span;
use std::collections::HashSet;

/// A value that cannot be used as it is, and the part it tightens.
pub struct Judged<'a> {
    pub part: &'a Part,
    pub value: Quantity,
    /// The value where it stands in this file, else the fastener in its step.
    pub span: Span,
    /// Where the state of the thread is said.
    pub stated_at: Option<Span>,
    pub judgement: Judgement,
}

/// The values in the end of a list: what is left in the fastener. None where it is loosened again after them.
pub fn ends(torque: &Torque) -> impl Iterator<Item = &Quantity> {
    let last = torque.passes.last().map(|pass| &pass.target);
    let loosened = matches!(
        last,
        Some(
            PassTarget::LoosenToFeel(_)
                | PassTarget::LoosenTo(_)
                | PassTarget::BackOff(_)
                | PassTarget::Feel(_)
        )
    );
    let ends = [&torque.value, &torque.new, &torque.reused].into_iter().flatten();
    ends.filter(move |value| !loosened && value.dimension() == Dimension::Torque)
}

/// What is on a thread when it is tightened, as far as it is said.
pub fn surface(tightening: &Tightening<'_>, subject: &Subject<'_>) -> Option<(Surface, Span)> {
    let applied = tightening.applied.map(|it| {
        let supply = subject.document.declarations.supply(it.supply);
        let text = supply.map_or("", |supply| supply.thing.text.as_str());
        let surface = match it.is_locker {
            true => Surface::Locker,
            false if text.to_lowercase().contains("seize") => Surface::AntiSeize,
            false => Surface::Oiled,
        };
        (surface, it.span)
    });
    applied.or(tightening.stated.map(|it| (it.value.into(), it.span)))
}

/// The thread of a part, where it has one that is known.
pub fn thread_of(part: &Part) -> Option<Thread> {
    let written = part.thread.as_ref()?;
    thread(written.designation.as_str(), written.series.as_ref().map(|it| it.as_str())).ok()
}

/// The part as far as a torque goes. `None` without a thread, or where thread or class is unknown: that has its
/// own finding.
pub fn fastener(part: &Part, surface: Option<Surface>) -> Option<Fastener> {
    let thread = thread_of(part)?;
    let strength = match &part.strength {
        Some(written) => Some(strength::strength(written.system, written.value.as_str(), &thread).ok()?),
        None => None,
    };
    Some(Fastener { thread, strength, surface })
}

/// The torques that cannot be used as they are, each once.
pub fn of<'a>(subject: &Subject<'a>) -> Vec<Judged<'a>> {
    let mut judged = Vec::new();
    let document = subject.document;
    if document.declarations.parts.iter().all(|part| part.thread.is_none()) {
        return judged;
    }
    let (mut seen, mut told) = (HashSet::new(), HashSet::new());
    for tightening in subject.tightenings() {
        let Some(of) = tightening.fastener.filter(|it| it.part.thread.is_some()) else { continue };
        let surface = surface(tightening, subject);
        let goes_on = goes_on(&tightening.torque);
        // Most parts are tightened to one torque, however often.
        let is_new = |value: &&Quantity| {
            let sort = surface.map(|it| std::mem::discriminant(&it.0));
            seen.insert((of.id, value.span(), sort, goes_on))
        };
        let values: Vec<&Quantity> = ends(&tightening.torque).filter(is_new).collect();
        if values.is_empty() {
            continue;
        }
        let Some(fastener) = fastener(of.part, surface.map(|it| it.0)) else { continue };
        for value in values {
            let bad = fastener.judge(value, goes_on).filter(|it| it.verdict.is_bad());
            let Some(judgement) = bad.filter(|_| told.insert((of.id, value.span()))) else { continue };
            let span = Some(value.span()).filter(|span| subject.owns(*span)).unwrap_or(tightening.span());
            let stated_at = surface.map(|it| it.1);
            judged.push(Judged { part: of.part, value: value.clone(), span, stated_at, judgement });
        }
    }
    // In a catalogue nothing is tightened; its torques are looked at where they stand.
    if let Body::Catalogue { .. } = document.body {
        let own = document.declarations.parts.iter().filter(|part| subject.owns(part.thing.span));
        own.for_each(|part| declared(part, &mut judged));
    }
    judged
}

fn declared<'a>(part: &'a Part, judged: &mut Vec<Judged<'a>>) {
    let Some(torque) = part.torque.as_ref() else { return };
    let stated = torque.condition.or(part.condition);
    let Some(fastener) = fastener(part, stated.map(|it| it.value.into())) else { return };
    let values = ends(torque).filter_map(|value| Some((value, fastener.judge(value, goes_on(torque))?)));
    let values = values.filter(|(_, judgement)| judgement.verdict.is_bad());
    let stated_at = stated.map(|it| it.span);
    judged.extend(values.map(|(value, judgement)| Judged {
        part,
        value: value.clone(),
        span: value.span(),
        stated_at,
        judgement,
    }));
}

/// Whether an angle or a stretch comes after the torque.
fn goes_on(torque: &Torque) -> bool {
    torque.passes.iter().any(|pass| matches!(pass.target, PassTarget::Angle(_) | PassTarget::Length(_)))
}

impl Judged<'_> {
    pub fn name(&self) -> &str {
        self.part.thing.name.as_str()
    }

    /// "M6 class 8.8"; without a class "M6".
    pub fn fastener_name(&self) -> String {
        let thread = self.part.thread.as_ref().map_or("", |it| it.designation.as_str());
        match &self.part.strength {
            Some(it) => format!("{thread} {} {}", strength::word(it.system), it.value.value),
            None => thread.to_owned(),
        }
    }

    /// Shows the sum at the places its terms are taken from.
    pub fn with_sum(&self, mut finding: Finding, subject: &Subject<'_>) -> Finding {
        let area = figures(self.judgement.fastener.thread.stress_area());
        let thread_at = self.part.thread.as_ref().map(|it| it.designation.span);
        if let Some(span) = thread_at.filter(|span| subject.owns(*span)) {
            finding = finding.label(span, format!("stress area {area} mm², {}", self.loads()));
        }
        let Friction { low, high, source, .. } = self.judgement.fastener.friction();
        let preload = self.judgement.preload;
        let (least, most) = (force(preload.least), force(preload.most));
        let text =
            format!("preload F = T / (K·d) is {least} to {most} with K {high:.2} to {low:.2}: {source}");
        match self.stated_at.or(thread_at).filter(|span| subject.owns(*span)) {
            Some(span) => finding.label(span, text),
            None => finding,
        }
    }

    fn loads(&self) -> String {
        let fastener = &self.judgement.fastener;
        match (fastener.proof_load(), fastener.yield_load()) {
            (Some(proof), Some(limit)) => format!("proof load {}, yield at {}", force(proof), force(limit)),
            _ => {
                let limit = STRONGEST.limit * fastener.thread.stress_area();
                format!("no class; even class 12.9 would yield at {}", force(limit))
            }
        }
    }

    /// "M6 class 8.8 yields at 12.9 kN".
    pub fn yield_load(&self) -> String {
        let fastener = &self.judgement.fastener;
        let name = self.fastener_name();
        match fastener.yield_load() {
            Some(limit) => format!("{name} yields at {}", force(limit)),
            None => {
                let limit = STRONGEST.limit * fastener.thread.stress_area();
                format!("even {name} class 12.9 yields at {}", force(limit))
            }
        }
    }

    /// The preload at the usual friction, as a share of [`Judged::whose_proof_load`].
    pub fn usual_share(&self) -> f64 {
        let fastener = &self.judgement.fastener;
        let load = fastener.proof_load().unwrap_or(STRONGEST.proof * fastener.thread.stress_area());
        self.judgement.preload.usual / load
    }

    /// "the proof load of M6 class 8.8".
    pub fn whose_proof_load(&self) -> String {
        let stands_in = if self.part.strength.is_some() { "" } else { " class 12.9, the strongest" };
        format!("the proof load of {}{stands_in}", self.fastener_name())
    }

    /// What the torque usually is, in the author's unit, for a help: "three quarters of the proof load take about
    /// 9.4 N·m".
    pub fn customary(&self) -> Option<String> {
        let unit = self.value.unit();
        let torque = self.judgement.fastener.customary()? / as_float(unit.factor);
        Some(format!("three quarters of the proof load take about {} {}", figures(torque), unit.symbol))
    }
}

/// Whether the part's own words say that its thread is oiled.
pub fn is_oiled(part: &Part) -> Option<Span> {
    let stated = [part.condition, part.torque.as_ref().and_then(|torque| torque.condition)];
    stated.into_iter().flatten().find(|it| it.value == Condition::Oiled).map(|it| it.span)
}
