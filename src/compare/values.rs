//! Typed values as facts: equal where they allow the same, whatever unit or form they are written in.
use super::change::Kind;
use super::fact::{Fact, one_line};
use crate::model::Torque;
use crate::model::declarations::Applies;
use crate::model::quantity::{Form, Quantity};
use crate::model::torque::{Pass, PassTarget};
use crate::source::{Span, Text};

/// What the quantity allows: its limits in the base unit.
pub fn meaning(quantity: &Quantity) -> String {
    let form = match quantity.form() {
        Form::NewWorn { new, .. } => format!(" new {:?}", new.value()),
        Form::None => " none".to_owned(),
        _ => String::new(),
    };
    let (dimension, unit) = (quantity.dimension(), quantity.unit());
    format!("{dimension:?} {:?} {:?} {:?}{form}", unit.waveform, quantity.lower(), quantity.upper())
}

/// As printed, with what the author wrote beside it.
pub fn words(quantity: &Quantity) -> String {
    let also = quantity.also().map(|also| format!(" ({})", also.print())).unwrap_or_default();
    quantity.print() + &also
}

pub fn fact(kind: Kind, aspect: &str, quantity: &Quantity) -> Fact {
    Fact::new(kind, aspect, meaning(quantity), words(quantity))
}

pub fn torque(aspect: &str, torque: &Torque) -> Fact {
    let (mut meant, mut said) = (Vec::new(), Vec::new());
    let mut add = |name: &str, meaning: String, words: String| {
        meant.push(format!("{name} {meaning}"));
        said.push(if name.is_empty() { words } else { format!("{name} {words}") });
    };
    // A plain torque is both the value and its one pass.
    let plain = |pass: &Pass| match &pass.target {
        PassTarget::Torque(it) => torque.passes.len() == 1 && torque.value.as_ref() == Some(it),
        _ => false,
    };
    let mut quantity = |name: &str, value: &Option<Quantity>| {
        if let Some(value) = value {
            add(name, meaning(value), words(value));
        }
    };
    quantity("", &torque.value);
    quantity("new", &torque.new);
    quantity("reused", &torque.reused);
    quantity("check", &torque.check);
    for pass in &torque.passes {
        let (meaning, words) = target(&pass.target);
        let during = pass.during.as_ref().map(|it| format!("while {}", it.value)).unwrap_or_default();
        let order = pass.pattern.as_ref().map(|it| it.value.written()).unwrap_or_default();
        if !plain(pass) {
            add("", format!("pass {meaning}"), words);
        }
        if !during.is_empty() || !order.is_empty() {
            add("", format!("{during} {order}"), one_line(&format!("{during} {order}")));
        }
    }
    if let Some(it) = &torque.pattern {
        add("", it.value.written(), it.value.written());
    }
    if let Some(condition) = &torque.condition {
        let condition = format!("{:?}", condition.value);
        add("", condition.clone(), condition.to_lowercase());
    }
    if torque.plus_drag.is_some() {
        add("", "drag".to_owned(), "plus drag".to_owned());
    }
    if torque.not_specified.is_some() {
        add("", "unspecified".to_owned(), "not specified".to_owned());
    }
    if let Some(align) = &torque.align {
        let above = align.not_above.as_ref();
        let limit = above.map(|it| format!(", not above {}", words(it))).unwrap_or_default();
        let way = format!("align {} {:?}", align.feature.value, align.way);
        add("", format!("{way} {}", above.map(meaning).unwrap_or_default()), way.to_lowercase() + &limit);
    }
    Fact::new(Kind::Torque, aspect, meant.join("; "), said.join(", "))
}

fn target(target: &PassTarget) -> (String, String) {
    let quantity = |name: &str, it: &Quantity| {
        (format!("{name} {}", meaning(it)), one_line(&format!("{name} {}", words(it))))
    };
    match target {
        PassTarget::Torque(it) => quantity("", it),
        PassTarget::Percent(it) => (format!("percent {:?}", it.value()), format!("{it} %")),
        PassTarget::Angle(it) => quantity("turn", it),
        PassTarget::LoosenToFeel(it) => (format!("loosen {it:?}"), format!("loosen to {}", it.name())),
        PassTarget::LoosenTo(it) => quantity("loosen to", it),
        PassTarget::BackOff(it) => quantity("back off", it),
        PassTarget::Feel(it) => (format!("{it:?}"), it.name().to_owned()),
        PassTarget::Length(it) => quantity("length", it),
    }
}

/// What of the torque in force stands at `place`.
pub fn within(torque: &Torque, place: Span) -> Torque {
    let inside = |span: Span| span.file == place.file && place.start <= span.start && span.end <= place.end;
    let quantity = |it: &Option<Quantity>| it.clone().filter(|it| inside(it.span()));
    Torque {
        passes: torque.passes.iter().filter(|it| inside(it.span)).cloned().collect(),
        value: quantity(&torque.value),
        pattern: torque.pattern.clone().filter(|it| inside(it.span)),
        condition: torque.condition.filter(|it| inside(it.span)),
        plus_drag: torque.plus_drag.filter(|it| inside(*it)),
        new: quantity(&torque.new),
        reused: quantity(&torque.reused),
        align: torque.align.clone().filter(|it| inside(it.span)),
        check: quantity(&torque.check),
        not_specified: torque.not_specified.filter(|it| inside(*it)),
        span: torque.span,
    }
}

/// Which machines it is for; none where it is for all.
pub fn applies(aspect: &str, applies: &Applies) -> Option<Fact> {
    if applies.to_all() {
        return None;
    }
    let mut models: Vec<&str> = applies.models.iter().map(Text::as_str).collect();
    models.sort_unstable();
    let mut parts = vec![models.join(", ")];
    parts.extend(applies.serials.as_ref().map(|it| it.value.to_string()));
    parts.extend(applies.if_fitted.map(|_| "if fitted".to_owned()));
    let words = parts.into_iter().filter(|it| !it.is_empty()).collect::<Vec<_>>().join(", ");
    Some(Fact::new(Kind::Models, aspect, words.clone(), words))
}
