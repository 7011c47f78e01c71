//! Declared things with their facts.
use super::shape::{self, Callout, Facts};
use super::{Maker, text};
use crate::model::declarations::{
    Applies, Condition, Figure, Name, Part, StrengthSystem, Supply, Thing, Tool,
};
use crate::source::{Spanned, Text};

impl Maker<'_> {
    pub(super) fn part(&self, part: &Part) -> shape::Part {
        let names = |names: &[Spanned<Name>]| -> Vec<String> {
            names.iter().filter_map(|name| self.name(name.value)).collect()
        };
        let one = |name: &Option<Spanned<Name>>| name.as_ref().and_then(|name| self.name(name.value));
        let looks_like = part.looks_like.iter().filter_map(|it| {
            Some(shape::LooksLike { other: self.name(it.other.value)?, by: it.by.as_ref().map(text) })
        });
        let callout = |it: &crate::model::declarations::Callout| Callout {
            number: it.number.value,
            figure: it.figure.as_ref().and_then(|figure| self.name(figure.value)),
        };
        shape::Part {
            thing: thing(&part.thing),
            count: part.count,
            pieces: part.pieces.iter().map(text).collect(),
            applies: applies(&part.applies),
            single_use: part.single_use.is_some(),
            reuse_if: part.reuse_if.as_ref().map(text),
            sided: part.sided.is_some(),
            starts_off: part.starts_off,
            stays_off: part.stays_off,
            made_from: one(&part.made_from),
            in_place_of: one(&part.in_place_of),
            matched: names(&part.matched),
            set_with: names(&part.set_with),
            looks_like: looks_like.collect(),
            never: names(&part.never),
            holds: names(&part.holds),
            locks: names(&part.locks),
            thread: part.thread.as_ref().map(|thread| {
                let series = thread.series.as_ref().map(|series| format!(" {}", series.value));
                format!("{}{}", thread.designation.value, series.unwrap_or_default())
            }),
            strength: part.strength.as_ref().map(|strength| {
                let system = match strength.system {
                    StrengthSystem::Class => "class",
                    StrengthSystem::Grade => "grade",
                };
                format!("{system} {}", strength.value.value)
            }),
            condition: part.condition.as_ref().map(|it| condition(it.value)),
            torque: part.torque.as_ref().map(|it| self.torque(it)),
            facts: self.facts(&part.facts),
            callouts: part.callouts.iter().map(callout).collect(),
        }
    }

    fn facts(&self, facts: &crate::model::declarations::Facts) -> Facts {
        Facts {
            spring_loaded: facts.spring_loaded.is_some(),
            pressed: facts.pressed.is_some(),
            sharp: facts.sharp.is_some(),
            rotating: facts.rotating.is_some(),
            pressurised: self.perhaps(facts.pressurised.as_ref()),
            hot: self.perhaps(facts.hot.as_ref()),
            live: self.perhaps(facts.live.as_ref()),
            mass: self.perhaps(facts.mass.as_ref()),
            contains: facts.contains.as_ref().map(text),
        }
    }

    pub(super) fn tool(&self, tool: &Tool) -> shape::Tool {
        shape::Tool {
            thing: thing(&tool.thing),
            count: tool.count,
            range: self.perhaps(tool.range.as_ref()),
            length: self.perhaps(tool.length.as_ref()),
            adapter: self.perhaps(tool.adapter.as_ref()),
            capacity: self.perhaps(tool.capacity.as_ref()),
            temporary: tool.temporary.is_some(),
        }
    }

    pub(super) fn supply(&self, supply: &Supply) -> shape::Supply {
        shape::Supply {
            thing: thing(&supply.thing),
            hazards: supply.hazards.iter().map(text).collect(),
            cure: supply.cure.as_ref().map(|cure| self.amount(&cure.time)),
            cure_at: supply.cure.as_ref().and_then(|cure| self.perhaps(cure.at.as_ref())),
            thread_locker: supply.thread_locker.is_some(),
            lubricant: supply.lubricant.is_some(),
            needs_clean: supply.needs_clean.is_some(),
            needs_dry: supply.needs_dry.is_some(),
        }
    }

    pub(super) fn name(&self, name: Name) -> Option<String> {
        self.sheet.declarations.thing(name).map(|thing| text(&thing.name))
    }
}

pub(super) fn figure(figure: &Figure) -> shape::Figure {
    shape::Figure {
        thing: thing(&figure.thing),
        picture: figure.illustration.as_ref().map(|it| text(&it.path)),
        alt: figure.alt.as_ref().map(text),
    }
}

fn thing(thing: &Thing) -> shape::Thing {
    shape::Thing { name: text(&thing.name), text: text(&thing.text), number: thing.number.as_ref().map(text) }
}

pub(super) fn applies(applies: &Applies) -> shape::Applies {
    shape::Applies {
        models: applies.models.iter().map(text).collect(),
        serials: applies.serials.as_ref().map(|serials: &Text| text(serials)),
        if_fitted: applies.if_fitted.is_some(),
    }
}

pub(super) fn condition(condition: Condition) -> &'static str {
    match condition {
        Condition::Dry => "dry",
        Condition::Oiled => "oiled",
        Condition::Plated => "plated",
    }
}
