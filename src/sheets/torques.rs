//! The table of tightening values, and the few words it says them in.
use super::{Sheet, html};
use crate::model::Action;
use crate::model::action::Work;
use crate::model::declarations::{Condition, Name};
use crate::model::quantity::{Number, Quantity};
use crate::model::torque::{AlignWay, Pass, PassTarget, Pattern, Torque, percent_of};
use std::borrow::Cow;

/// One row of the table for each tightening of the procedure, in the order of the steps.
pub fn rows(sheet: &Sheet<'_>) -> String {
    let mut out = String::with_capacity(2_048);
    for step in sheet.procedure.steps() {
        for work in step.actions.iter().filter_map(Action::work) {
            if let Some(torque) = work.torque.as_ref().filter(|torque| torque.says_something()) {
                row(&mut out, sheet, step.number, work, torque);
            }
        }
    }
    out
}

fn row(out: &mut String, sheet: &Sheet<'_>, step: u32, work: &Work, torque: &Torque) {
    out.push_str("<tr><td class=\"step-no\"><a href=\"#step-");
    html::number(out, step);
    out.push_str("\">");
    html::number(out, step);
    out.push_str("</a></td><th scope=\"row\">");
    fasteners(out, sheet, work);
    out.push_str("</th><td class=\"values\">");
    let values = values(sheet, torque);
    if values.len() > 1 && torque.passes.len() > 1 {
        html::open(out, "ol", "");
        values.iter().for_each(|value| html::element(out, "li", "", value));
        html::close(out, "ol");
    } else {
        values.iter().for_each(|value| html::element(out, "p", "", value));
    }
    out.push_str("</td><td>");
    how(sheet, torque).iter().for_each(|line| html::element(out, "p", "", line));
    out.push_str("</td><td>");
    wrenches(out, sheet, work);
    out.push_str("</td></tr>\n");
}

/// How many of what: "6 × Gland screw, M10 x 30".
fn fasteners(out: &mut String, sheet: &Sheet<'_>, work: &Work) {
    let mut count = 0;
    let mut names = Vec::new();
    for object in &work.objects {
        let Some(Name::Part(id)) = object.name else { continue };
        let Some(part) = sheet.declarations.part(id) else { continue };
        let piece = part.pieces.iter().any(|p| p.value == object.word.value);
        count += object.count.unwrap_or(if piece { 1 } else { part.count });
        names.push(if piece {
            Cow::Owned(object.word.value.replace('-', " "))
        } else {
            Cow::Borrowed(part.thing.text.as_str())
        });
    }
    if count > 1 {
        html::number(out, count);
        out.push_str(" × ");
    }
    html::escape(out, &names.join("; "));
}

fn wrenches(out: &mut String, sheet: &Sheet<'_>, work: &Work) {
    let tools = work.tools.iter().filter_map(|tool| sheet.declarations.thing(tool.name?));
    for (index, tool) in tools.enumerate() {
        out.push_str(if index > 0 { ", " } else { "" });
        html::escape(out, &tool.text.value);
    }
}

/// The values of a tightening list, one line each.
pub fn values(sheet: &Sheet<'_>, torque: &Torque) -> Vec<String> {
    let mut lines = Vec::new();
    // Passes that are shares of the two values say them.
    if !torque.passes.iter().any(|pass| matches!(pass.target, PassTarget::Percent(_))) {
        lines.extend(torque.new.as_ref().map(|q| new(sheet, q)));
        lines.extend(torque.reused.as_ref().map(|q| reused(sheet, q)));
    }
    lines.extend(torque.check.as_ref().map(|q| format!("must not turn below {}", sheet.quantity(q))));
    if torque.passes.is_empty() {
        lines.extend(torque.value.as_ref().map(|q| sheet.quantity(q)));
    }
    lines.extend(torque.passes.iter().map(|p| pass(sheet, torque, p)));
    if torque.not_specified.is_some() {
        lines.push("not specified".to_owned());
    }
    lines
}

fn pass(sheet: &Sheet<'_>, torque: &Torque, pass: &Pass) -> String {
    let mut words = match &pass.target {
        PassTarget::Torque(q) => sheet.quantity(q),
        PassTarget::Percent(percent) => share(sheet, torque, percent),
        PassTarget::Angle(q) => format!("turn {} further", q.print()),
        PassTarget::LoosenToFeel(feel) => format!("loosen to {}", feel.name()),
        PassTarget::LoosenTo(q) => format!("loosen to {}", sheet.quantity(q)),
        PassTarget::BackOff(q) => format!("back off {}", q.print()),
        PassTarget::Feel(feel) => feel.name().to_owned(),
        PassTarget::Length(q) => format!("stretch to {}", sheet.quantity(q)),
    };
    if let Some(during) = &pass.during {
        words.push_str(" while ");
        words.push_str(&during.value);
    }
    if let Some(order) = &pass.pattern {
        words.push_str(", ");
        words.push_str(&pattern(&order.value));
    }
    words
}

fn new(sheet: &Sheet<'_>, value: &Quantity) -> String {
    format!("new: {}", sheet.quantity(value))
}

fn reused(sheet: &Sheet<'_>, value: &Quantity) -> String {
    format!("reused: {}", sheet.quantity(value))
}

/// "3.5–4.5 N·m (31.0–39.8 lbf·in) (50 %)"; where a new and a reused fastener differ, of both.
fn share(sheet: &Sheet<'_>, torque: &Torque, percent: &Number) -> String {
    let part = |whole: &Option<Quantity>| whole.as_ref().and_then(|it| percent_of(it, percent));
    let variants =
        [part(&torque.new).map(|it| new(sheet, &it)), part(&torque.reused).map(|it| reused(sheet, &it))];
    let mut words = variants.into_iter().flatten().collect::<Vec<_>>().join(", ");
    if words.is_empty() {
        words = part(&torque.value).map(|it| sheet.quantity(&it)).unwrap_or_default();
    }
    let written = percent.to_string();
    match (words.is_empty(), written == "100") {
        (true, _) => format!("{written} %"),
        (false, true) => words,
        (false, false) => format!("{words} ({written} %)"),
    }
}

fn how(sheet: &Sheet<'_>, torque: &Torque) -> Vec<String> {
    let mut lines = Vec::new();
    lines.extend(torque.pattern.as_ref().map(|p| pattern(&p.value)));
    lines.extend(torque.condition.map(|c| condition(c.value).to_owned()));
    lines.extend(torque.plus_drag.map(|_| "measure the running torque of the nut and add it".to_owned()));
    if let Some(align) = &torque.align {
        let way = match align.way {
            AlignWay::Tightening => "by tightening",
            AlignWay::Loosening => "by loosening",
            AlignWay::Either => "either way",
            AlignWay::NeverMoved => "",
        };
        let mut line = match align.way {
            AlignWay::NeverMoved => "never move it to align".to_owned(),
            _ => format!("align the {} {way}", align.feature.value),
        };
        if let Some(limit) = &align.not_above {
            line.push_str(&format!(", not above {}", sheet.quantity(limit)));
        }
        lines.push(line);
    }
    lines
}

fn pattern(pattern: &Pattern) -> String {
    match pattern {
        Pattern::Crosswise => "crosswise".to_owned(),
        Pattern::Clockwise => "clockwise".to_owned(),
        Pattern::FromCentre => "from the centre outwards".to_owned(),
        Pattern::Order(order) => {
            let numbers: Vec<String> = order.iter().map(u32::to_string).collect();
            format!("in the order {}", numbers.join(" "))
        }
    }
}

fn condition(condition: Condition) -> &'static str {
    match condition {
        Condition::Dry => "dry threads",
        Condition::Oiled => "oiled threads",
        Condition::Plated => "plated threads",
    }
}
