//! The fasteners that a step goes round in a pattern.
use super::{Subject, part_objects};
use crate::model::action::{Object, Work};
use crate::model::declarations::Part;
use crate::model::torque::{Pattern, Torque};
use crate::model::verb::Effect;
use crate::source::{Span, Spanned};

pub struct Patterned<'s> {
    pub object: &'s Object,
    pub part: &'s Part,
    pub pattern: &'s Spanned<Pattern>,
    /// How many of them the step goes round.
    pub count: u32,
    /// Whether the step is about this one fastener and no other.
    pub single: bool,
    /// Of one pass, which may leave some out.
    pub of_pass: bool,
}

impl Patterned<'_> {
    /// The pattern's words, where they stand in this file; else the fastener in the step.
    pub fn place(&self, subject: &Subject<'_>) -> Span {
        if subject.owns(self.pattern.span) { self.pattern.span } else { self.object.word.span }
    }
}

/// Every pattern of every step that tightens or loosens, with each set it is for.
pub fn all<'s>(subject: &'s Subject<'_>) -> Vec<Patterned<'s>> {
    let mut found = Vec::new();
    for it in subject.tightenings() {
        if let Some(fastener) = &it.fastener {
            of_one(it.work, fastener.object, fastener.part, &it.torque, &mut found);
        }
    }
    for work in subject.contents.works.iter().filter(|work| work.verb.does(Effect::Loosens)) {
        let Some(torque) = &work.torque else { continue };
        for (_, object, part) in part_objects::of(work, &subject.document.declarations) {
            of_one(work, object, part, torque, &mut found);
        }
    }
    found
}

fn of_one<'s>(
    work: &'s Work,
    object: &'s Object,
    part: &'s Part,
    torque: &'s Torque,
    found: &mut Vec<Patterned<'s>>,
) {
    let piece = part.pieces.iter().any(|piece| piece.value == object.word.value);
    let count = if piece { 1 } else { object.count.unwrap_or(part.count) };
    let single = work.objects.len() == 1 && part.count == 1;
    let whole = torque.pattern.iter().map(|pattern| (pattern, false));
    let passes = torque.passes.iter().filter_map(|pass| Some((pass.pattern.as_ref()?, true)));
    let of = |(pattern, of_pass)| Patterned { object, part, pattern, count, single, of_pass };
    found.extend(whole.chain(passes).map(of));
}
