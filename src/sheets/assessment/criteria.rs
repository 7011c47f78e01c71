//! What is judged: the safety messages, and of each section how the machine is made safe, its holds, marks, looks at what is
//! easily mistaken, sides, tests, tightened values, readings and renewed parts.
use crate::model::action::{Hold, Work};
use crate::model::declarations::Name;
use crate::model::document::Section;
use crate::model::verb::Effect;
use crate::model::{Action, Step};
use crate::sheets::blanks::{self, Blank, Kind};
use crate::sheets::warnings::{self, Warning};
use crate::sheets::{Sheet, fitted, html, prose, sentences, torques};
use std::ops::RangeInclusive;

/// The steps of a lockout (29 CFR 1910.147(d)): whoever leaves one out works on a machine that can start.
/// Stored energy is let off by verbs of everyday work too (`drain`, `bleed`): its messages stand for that.
const MAKES_SAFE: [Effect; 4] = [Effect::Isolates, Effect::LocksOut, Effect::Tags, Effect::VerifiesDead];

/// What learners forget, and nobody sees afterwards.
const IS_SEEN_TO: [Effect; 3] = [Effect::Marks, Effect::Identifies, Effect::Tests];

/// One line that is passed or not yet.
pub struct Criterion {
    /// Which machines and findings it is for, each as markup.
    pub limits_html: Vec<String>,
    pub what_html: String,
    /// Values and words beside it; may be empty.
    pub more_html: String,
    /// Where it is seen.
    pub steps: Vec<RangeInclusive<u32>>,
    /// Not passed, it fails the whole.
    pub critical: bool,
    /// The unit of the reading that the assessor takes too.
    pub reading: Option<&'static str>,
}

/// Criteria under one heading; there is none without any.
pub struct Group<'a> {
    pub title: &'a str,
    /// The language of the title, where it is the author's and not that of the page.
    pub own: Option<&'static str>,
    pub criteria: Vec<Criterion>,
}

/// Safety first, then the sections in order.
pub fn of<'a>(sheet: &Sheet<'a>) -> Vec<Group<'a>> {
    let safety = warnings::of(sheet).iter().map(|warning| obeyed(sheet, warning)).collect();
    let safety = Group { title: sheet.label("safety"), own: None, criteria: safety };
    let section = |section: &'a Section| Group {
        title: section.title.as_ref().map_or_else(|| sheet.label("steps"), |title| title.as_str()),
        own: section.title.as_ref().and(sheet.context.own()),
        criteria: section.steps.iter().flat_map(|step| of_step(sheet, step)).collect(),
    };
    let sections = sheet.procedure.sections.iter().map(section);
    std::iter::once(safety).chain(sections).filter(|group| !group.criteria.is_empty()).collect()
}

/// A message that guards people is obeyed wherever it holds; one of damage counts like any other line.
fn obeyed(sheet: &Sheet<'_>, warning: &Warning<'_>) -> Criterion {
    let message = warning.message;
    let hazard = message.hazard.as_ref().map_or("", |it| sheet.context.words.hazard(it.value));
    let mut what = html::escaped(&sheet.say("obeys", &[("hazard", hazard.into())]));
    if let Some(avoid) = &message.avoid {
        what.push(' ');
        prose::inline(&mut what, avoid, sheet);
    }
    let wear = message.wear.iter().map(|it| html::escaped(sheet.context.words.wear(it.value)));
    Criterion {
        limits_html: Vec::new(),
        what_html: what,
        more_html: wear.collect::<Vec<_>>().join(" · "),
        steps: warning.steps.clone(),
        critical: message.guards_people(),
        reading: None,
    }
}

fn of_step(sheet: &Sheet<'_>, step: &Step) -> Vec<Criterion> {
    let mut found = Vec::new();
    let limits = sentences::limits(sheet, step);
    let mut add = |what_html: String, more_html: String, critical: bool, reading: Option<&'static str>| {
        let steps = vec![step.number..=step.number];
        let limits_html = limits.clone();
        found.push(Criterion { limits_html, what_html, more_html, steps, critical, reading });
    };
    for action in &step.actions {
        match action {
            Action::Hold(hold) => add(held(sheet, hold), String::new(), true, None),
            Action::Work(work) => {
                let does = |effects: &[Effect]| effects.iter().any(|effect| work.verb.does(*effect));
                let makes_safe = does(&MAKES_SAFE);
                // A test with a value has the line of its reading.
                let is_seen_to = does(&IS_SEEN_TO) && work.quantity.is_none();
                if makes_safe || is_seen_to || work.facing.is_some() {
                    add(sentences::of_action(sheet, action), String::new(), makes_safe, None);
                }
                for part in renewed(sheet, work) {
                    add(part, String::new(), false, None);
                }
                for (what, values) in tightened(sheet, work) {
                    add(what, values, false, None);
                }
            }
            _ => {}
        }
    }
    for blank in blanks::of(sheet, step).iter().filter(|blank| blank.kind == Kind::Reading) {
        add(read(sheet, blank), html::escaped(&blank.limits.join("; ")), false, Some(blank.unit));
    }
    found
}

fn held(sheet: &Sheet<'_>, hold: &Hold) -> String {
    let role = html::sentence_case(&hold.role.value);
    let mut out = html::escaped(&sheet.say("waits-for", &[("role", role.into())]));
    if let Some(statement) = &hold.statement {
        out.push(' ');
        out.push_str(&sentences::sentence(sheet, &statement.value));
    }
    out
}

/// Single-use parts that go in new.
fn renewed(sheet: &Sheet<'_>, work: &Work) -> Vec<String> {
    let part = |name: Option<Name>| match name {
        Some(Name::Part(id)) => sheet.declarations.part(id).filter(|part| part.single_use.is_some()),
        _ => None,
    };
    let fitted =
        fitted::new_objects(work).filter(|(_, fits)| *fits).filter_map(|(object, _)| part(object.name));
    let words = |part: &crate::model::declarations::Part| {
        let text = part.thing.text.as_str();
        let named = match &part.thing.number {
            Some(number) => format!("{text} ({})", number.value),
            None => text.to_owned(),
        };
        html::escaped(&sheet.say("fits-new", &[("part", named.into())]))
    };
    fitted.map(words).collect()
}

/// What is tightened, and to what.
fn tightened(sheet: &Sheet<'_>, work: &Work) -> Vec<(String, String)> {
    let valued = sheet.tightenings_of(work).filter(|it| it.torque.says_something());
    let words = |it: &crate::model::tightening::Tightening<'_>| {
        let what = sheet.say("tightens", &[("what", torques::fastener(sheet, it).into())]);
        let mut values = torques::values(sheet, &it.torque);
        values.extend(torques::how(sheet, &it.torque));
        (html::escaped(&what), html::escaped(&values.join("; ")))
    };
    valued.map(words).collect()
}

fn read(sheet: &Sheet<'_>, blank: &Blank) -> String {
    html::escaped(&sheet.say("reads", &[("what", blank.label.as_str().into())]))
}
