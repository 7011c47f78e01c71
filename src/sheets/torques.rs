//! The table of tightening values, and the few words it says them in.
use super::{Sheet, html, withhold};
use crate::model::Step;
use crate::model::declarations::{Condition, Part, StrengthSystem};
use crate::model::quantity::{Exact, Number, Quantity};
use crate::model::tightening::{self, Tightening};
use crate::model::torque::{AlignWay, Feel, Pass, PassTarget, Pattern, Torque, percent_of};
use std::borrow::Cow;

/// The heads of the columns; one that stays empty in every row is left out.
const HEADS: [&str; 10] = [
    "step",
    "head-fastener",
    "head-thread",
    "head-on-the-thread",
    "head-passes",
    "head-torque",
    "head-how",
    "head-with",
    "head-wrench-set-to",
    "head-source",
];

/// One row, a cell a column, as markup.
type Row = [String; HEADS.len()];

/// The table of all tightenings of the procedure, in the order of the steps; empty where there is none.
pub fn table(sheet: &Sheet<'_>) -> String {
    let mut rows: Vec<Row> = Vec::new();
    for step in sheet.procedure.steps() {
        for work in step.actions.iter().filter_map(crate::model::Action::work) {
            let said = sheet.tightenings_of(work).filter(|it| it.torque.says_something());
            rows.extend(said.map(|it| row(sheet, step, it)));
        }
    }
    if rows.is_empty() {
        return String::new();
    }
    let shown: Vec<bool> = (0..HEADS.len())
        .map(|at| rows.iter().any(|row| row.get(at).is_some_and(|it| !it.is_empty())))
        .collect();
    let heads = HEADS.map(|head| sheet.label(head));
    let columns = || shown.iter().zip(heads).enumerate().filter(|(_, (shown, _))| **shown);
    let mut out = String::with_capacity(2_048);
    out.push_str("<table>\n<thead><tr>");
    for (_, (_, head)) in columns() {
        out.push_str("<th scope=\"col\">");
        html::escape(&mut out, head);
        out.push_str("</th>");
    }
    out.push_str("</tr></thead>\n<tbody>\n");
    for row in &rows {
        out.push_str("<tr>");
        for (at, (_, head)) in columns() {
            cell(&mut out, at, head, row.get(at).map_or("", String::as_str));
        }
        out.push_str("</tr>\n");
    }
    out.push_str("</tbody>\n</table>\n");
    out
}

/// The fastener heads its row; the others say on a phone what column they are of.
fn cell(out: &mut String, at: usize, head: &str, markup: &str) {
    match at {
        0 => out.push_str("<td class=\"step-no\">"),
        1 => out.push_str("<th scope=\"row\">"),
        _ => {
            out.push_str(if at == 5 { "<td class=\"values\" data-head=\"" } else { "<td data-head=\"" });
            html::escape(out, head);
            out.push_str("\">");
        }
    }
    out.push_str(markup);
    html::close(out, if at == 1 { "th" } else { "td" });
}

fn row(sheet: &Sheet<'_>, step: &Step, it: &Tightening<'_>) -> Row {
    let part = it.fastener.map(|fastener| fastener.part);
    let (passes, end) = passes_and_end(sheet, &it.torque);
    let set = set_to(sheet, it);
    let hides = sheet.withhold.torque;
    let number = step.number;
    [
        format!("<a href=\"#step-{number}\">{number}</a>"),
        sheet.own(&fastener(sheet, it)),
        part.map(|part| thread(sheet, part)).map_or_else(String::new, |words| html::escaped(&words)),
        in_one(sheet, on_the_thread(sheet, it)),
        if hides { blanked(sheet, passes) } else { list(&passes) },
        if hides { blanked(sheet, end) } else { paragraphs(&end) },
        sheet.numbers.blanked(sheet, paragraphs(&how(sheet, &it.torque))),
        in_one(sheet, tools(sheet, it)),
        if hides { blanked(sheet, set) } else { list_or_one(&set) },
        step.from.as_ref().map_or_else(String::new, |from| sheet.own(&from.value)),
    ]
}

/// On a phone each element of a cell stands on its own: words with marks in them are one.
fn in_one(sheet: &Sheet<'_>, markup: String) -> String {
    match sheet.context.own() {
        Some(_) if !markup.is_empty() => format!("<span>{markup}</span>"),
        _ => markup,
    }
}

/// How many of what: "6 × Gland screw, M10 x 30".
pub fn fastener(sheet: &Sheet<'_>, it: &Tightening<'_>) -> String {
    let Some(fastener) = it.fastener else {
        let things = it.work.objects.iter().filter_map(|object| sheet.declarations.thing(object.name?));
        return things.map(|thing| thing.text.as_str()).collect::<Vec<_>>().join("; ");
    };
    let name = match fastener.piece {
        Some(piece) => Cow::Owned(html::sentence_case(&piece.value.replace('-', " "))),
        None => Cow::Borrowed(fastener.part.thing.text.as_str()),
    };
    if it.count() > 1 { format!("{} × {name}", it.count()) } else { name.into_owned() }
}

/// "M8, class 8.8".
fn thread(sheet: &Sheet<'_>, part: &Part) -> String {
    let designation = part.thread.as_ref().map(|thread| match &thread.series {
        Some(series) => format!("{} {}", thread.designation.value, series.value),
        None => thread.designation.value.to_string(),
    });
    let strength = part.strength.as_ref().map(|strength| {
        let value = strength.value.as_str();
        match strength.system {
            StrengthSystem::Class => sheet.say("strength-class", &[("class", value.into())]),
            StrengthSystem::Grade => sheet.say("strength-grade", &[("grade", value.into())]),
        }
    });
    designation.into_iter().chain(strength).collect::<Vec<_>>().join(", ")
}

/// "dry", "oiled", "thread locker".
fn on_the_thread(sheet: &Sheet<'_>, it: &Tightening<'_>) -> String {
    let stated = it.stated.map(|stated| html::escaped(sheet.label(state(stated.value))));
    let supply = it.applied.and_then(|applied| sheet.declarations.supply(applied.supply));
    let applied = supply.map(|supply| sheet.own(&supply.thing.noun.singular));
    stated.into_iter().chain(applied).collect::<Vec<_>>().join(", ")
}

fn tools(sheet: &Sheet<'_>, it: &Tightening<'_>) -> String {
    let tools = it.work.tools.iter().filter_map(|tool| sheet.declarations.thing(tool.name?));
    let at_angle = |angle| html::escaped(&sheet.say("at-angle", &[("angle", sheet.quantity(angle).into())]));
    let angle = it.work.adapter_angle.as_ref().map(at_angle);
    tools.map(|tool| sheet.own(tool.text.as_str())).chain(angle).collect::<Vec<_>>().join(", ")
}

/// The passes before the last, and what is reached in the end.
fn passes_and_end(sheet: &Sheet<'_>, torque: &Torque) -> (Vec<String>, Vec<String>) {
    let all = values(sheet, torque);
    if torque.passes.len() < 2 {
        return (Vec::new(), all);
    }
    let passes: Vec<String> = torque.passes.iter().map(|it| pass(sheet, torque, it)).collect();
    let end = match torque.passes.as_slice() {
        [.., before, last] if matches!(last.target, PassTarget::Angle(_)) => {
            let (first, then) = (pass(sheet, torque, before), pass(sheet, torque, last));
            vec![sheet.say("value-then", &[("first", first.into()), ("then", then.into())])]
        }
        [.., last] => vec![pass(sheet, torque, last)],
        [] => Vec::new(),
    };
    (passes, end)
}

/// What the wrench is set to, pass by pass, where an adapter changes it.
pub fn set_to(sheet: &Sheet<'_>, it: &Tightening<'_>) -> Vec<String> {
    let declarations = sheet.declarations;
    if it.adapters(declarations).next().is_none() {
        return Vec::new();
    }
    let set = |value: Quantity| {
        let setting = tightening::setting(it.work, &value, declarations)?;
        (setting.share != Exact::from_integer(1)).then(|| sheet.quantity(&setting.value))
    };
    it.wanted().into_iter().filter_map(|wanted| set(wanted.value)).collect()
}

/// The lines with blanks for values which are withheld; words alone ("snug") stay.
fn blanked(sheet: &Sheet<'_>, lines: Vec<String>) -> String {
    let mut out = String::new();
    for line in lines {
        if !withhold::has_figures(&line) {
            element(&mut out, "p", &line);
            continue;
        }
        html::open(&mut out, "p", "");
        withhold::blank(&mut out, sheet);
        html::close(&mut out, "p");
    }
    out
}

fn list(lines: &[String]) -> String {
    let mut out = String::new();
    if !lines.is_empty() {
        html::open(&mut out, "ol", "");
        lines.iter().for_each(|line| element(&mut out, "li", line));
        html::close(&mut out, "ol");
    }
    out
}

fn list_or_one(lines: &[String]) -> String {
    if lines.len() > 1 { list(lines) } else { paragraphs(lines) }
}

fn paragraphs(lines: &[String]) -> String {
    let mut out = String::with_capacity(lines.len() * 128);
    lines.iter().for_each(|line| element(&mut out, "p", line));
    out
}

/// The cells are narrow: no line ends inside "20–24 N·m" or "(14.8–17.7 lbf·ft)".
fn element(out: &mut String, tag: &str, line: &str) {
    html::open(out, tag, "");
    for (index, piece) in line.split(" (").enumerate() {
        let (inside, [opens, closes], after) = match piece.split_once(')').filter(|_| index > 0) {
            Some((inside, after)) => (inside, ["(", ")"], after),
            None => (piece, ["", ""], ""),
        };
        out.push_str(if index > 0 { " " } else { "" });
        let length = opens.len() + inside.chars().count() + closes.len();
        let whole = length <= LONGEST_UNBROKEN && inside.contains(|c: char| c.is_ascii_digit());
        html::open(out, "span", if whole { "whole" } else { "" });
        out.push_str(opens);
        html::escape(out, inside);
        out.push_str(closes);
        html::close(out, "span");
        html::escape(out, after);
    }
    html::close(out, tag);
}

/// Longer ones may break anywhere.
const LONGEST_UNBROKEN: usize = 22;

/// The values of a tightening list, one line each.
pub fn values(sheet: &Sheet<'_>, torque: &Torque) -> Vec<String> {
    let mut lines = Vec::new();
    // Passes that are shares of the two values say them.
    if !torque.passes.iter().any(|pass| matches!(pass.target, PassTarget::Percent(_))) {
        lines.extend(torque.new.as_ref().map(|q| new(sheet, q)));
        lines.extend(torque.reused.as_ref().map(|q| reused(sheet, q)));
    }
    lines.extend(torque.check.as_ref().map(|q| of_torque(sheet, "not-below", q)));
    if torque.passes.is_empty() {
        lines.extend(torque.value.as_ref().map(|q| sheet.quantity(q)));
    }
    lines.extend(torque.passes.iter().map(|p| pass(sheet, torque, p)));
    if torque.not_specified.is_some() {
        lines.push(sheet.label("not-specified").to_owned());
    }
    lines
}

fn pass(sheet: &Sheet<'_>, torque: &Torque, pass: &Pass) -> String {
    let mut words = match &pass.target {
        PassTarget::Torque(q) => sheet.quantity(q),
        PassTarget::Percent(percent) => share(sheet, torque, percent),
        PassTarget::Angle(q) => sheet.say("turn-further", &[("angle", sheet.words.print(q).into())]),
        PassTarget::LoosenToFeel(feel) => {
            sheet.say("loosen-to", &[("torque", sheet.label(feel_key(*feel)).into())])
        }
        PassTarget::LoosenTo(q) => of_torque(sheet, "loosen-to", q),
        PassTarget::BackOff(q) => sheet.say("back-off", &[("angle", sheet.words.print(q).into())]),
        PassTarget::Feel(feel) => sheet.label(feel_key(*feel)).to_owned(),
        PassTarget::Length(q) => sheet.say("stretch-to", &[("length", sheet.quantity(q).into())]),
    };
    if let Some(during) = &pass.during {
        words = sheet.say("while-doing", &[("pass", words.into()), ("work", during.as_str().into())]);
    }
    if let Some(order) = &pass.pattern {
        words.push_str(", ");
        words.push_str(&pattern(sheet, &order.value));
    }
    words
}

fn new(sheet: &Sheet<'_>, value: &Quantity) -> String {
    of_torque(sheet, "if-new", value)
}

fn reused(sheet: &Sheet<'_>, value: &Quantity) -> String {
    of_torque(sheet, "if-reused", value)
}

fn of_torque(sheet: &Sheet<'_>, key: &'static str, value: &Quantity) -> String {
    sheet.say(key, &[("torque", sheet.quantity(value).into())])
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
    let written = sheet.words.figures().number(*percent);
    match (words.is_empty(), written == "100") {
        (true, _) => format!("{written} %"),
        (false, true) => words,
        (false, false) => format!("{words} ({written} %)"),
    }
}

pub fn how(sheet: &Sheet<'_>, torque: &Torque) -> Vec<String> {
    let mut lines = Vec::new();
    lines.extend(torque.pattern.as_ref().map(|p| pattern(sheet, &p.value)));
    lines.extend(torque.plus_drag.map(|_| sheet.label("add-running-torque").to_owned()));
    if let Some(align) = &torque.align {
        let feature = [("feature", align.feature.as_str().into())];
        let mut line = match align.way {
            AlignWay::Tightening => sheet.say("align-by-tightening", &feature),
            AlignWay::Loosening => sheet.say("align-by-loosening", &feature),
            AlignWay::Either => sheet.say("align-either-way", &feature),
            AlignWay::Unsaid => sheet.say("align", &feature),
            AlignWay::NeverMoved => sheet.label("never-move-to-align").to_owned(),
        };
        if let Some(limit) = &align.not_above {
            let limit = sheet.quantity(limit);
            line = sheet.say("not-above", &[("how", line.into()), ("torque", limit.into())]);
        }
        lines.push(line);
    }
    lines
}

fn pattern(sheet: &Sheet<'_>, pattern: &Pattern) -> String {
    match pattern {
        Pattern::Crosswise => sheet.label("crosswise").to_owned(),
        Pattern::Clockwise => sheet.label("clockwise").to_owned(),
        Pattern::FromCentre => sheet.label("from-the-centre").to_owned(),
        Pattern::FromEnds => sheet.label("from-the-ends").to_owned(),
        Pattern::Order(order) => {
            let numbers: Vec<String> = order.iter().map(u32::to_string).collect();
            sheet.say("in-the-order", &[("order", numbers.join(" ").into())])
        }
    }
}

fn feel_key(feel: Feel) -> &'static str {
    match feel {
        Feel::FingerTight => "finger-tight",
        Feel::HandTight => "hand-tight",
        Feel::Snug => "snug",
    }
}

fn state(condition: Condition) -> &'static str {
    match condition {
        Condition::Dry => "dry",
        Condition::Oiled => "oiled",
        Condition::Plated => "plated",
    }
}
