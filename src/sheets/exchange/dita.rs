//! A machinery task (OASIS, Darwin Information Typing Architecture 1.3, part 3: technical content; machinery task and
//! hazard statement domain).
use super::tree::Element;
use super::{called, element, identifier, limits, preface, scope, sentences, signal, titled, wear, words};
use crate::model::message::Signal;
use crate::sheets::language::Words;
use crate::sheets::machine::{Call, Machine, Message, Part, Section, Step, Thing};

pub const HEAD: &str =
    "<!DOCTYPE task PUBLIC \"-//OASIS//DTD DITA Machinery Task//EN\" \"machineryTask.dtd\">\n";

pub fn of(machine: &Machine, language: &Words) -> Element {
    let description = preface(machine).join(" ");
    let steps = machine.sections.iter().flat_map(|section| section_of(section, language));
    let body = element("taskbody")
        .child(before(machine))
        .child(element("steps").children(steps))
        .child(element("closereqs").child(conditions(&machine.header.afterwards, &due(machine))));
    element("task")
        .with("id", identifier(&machine.number))
        .with("xml:lang", machine.language)
        .child(element("title").text(format!("{} {}", machine.number, machine.title)))
        .child(element("shortdesc").text(description))
        .child(prolog(machine))
        .child(body)
}

fn prolog(machine: &Machine) -> Element {
    let named = |name: &str, value: &str| element("othermeta").with("name", name).with("content", value);
    let header = &machine.header;
    let texts = [
        ("revision", &header.revision),
        ("equipment", &header.equipment),
        ("serial numbers", &header.serials),
        ("approved", &header.approved),
    ];
    let texts = texts.into_iter().filter_map(|(name, value)| value.as_deref().map(|it| named(name, it)));
    let models = header.models.iter().map(|it| named("model", it));
    let sources = header.sources.iter().map(|it| named("source", it));
    let metadata = element("metadata").children(texts).children(models).children(sources);
    element("prolog").child(metadata)
}

fn due(machine: &Machine) -> Vec<String> {
    machine.dues.iter().map(|due| format!("{}: {}", due.when, due.what)).collect()
}

fn before(machine: &Machine) -> Element {
    let people = machine.header.people_html.as_deref().map(words);
    let people = people.map(|people| element("reqpers").child(element("personnel").text(people)));
    let tools = machine.tools.iter().map(|it| element("supequi").text(counted(&it.thing, it.count)));
    let supplies = machine.supplies.iter().map(|it| element("supply").text(counted(&it.thing, 1)));
    let new = machine.parts.iter().filter(|part| part.single_use);
    let only = |it: &Part| limits(&it.applies).map_or_else(String::new, |models| format!(", {models} only"));
    let new = new.map(|it| element("spare").text(counted(&it.thing, it.count) + &only(it)));
    let guards = |message: &&Message| signal(message) > Signal::Notice;
    let messages = machine.sections.iter().flat_map(|it| &it.steps).flat_map(|it| &it.messages);
    let mut known: Vec<String> = Vec::new();
    for message in messages.filter(guards) {
        let avoid = message.avoid_html.as_deref().map(words).unwrap_or_default();
        if !avoid.is_empty() && !known.contains(&avoid) {
            known.push(avoid);
        }
    }
    let safety = known.into_iter().map(|it| element("safecond").text(it));
    element("prelreqs")
        .child(conditions(&machine.header.requires, &[]))
        .children(people)
        .child(list("supequip", "nosupeq", "supeqli", tools))
        .child(list("supplies", "nosupply", "supplyli", supplies))
        .child(list("spares", "nospares", "sparesli", new))
        .child(list("safety", "nosafety", "", safety))
}

/// A list, or that there is nothing on it. An empty `inner`: the items stand in `outer` itself.
fn list(
    outer: &'static str,
    none: &'static str,
    inner: &'static str,
    items: impl Iterator<Item = Element>,
) -> Element {
    let items: Vec<Element> = items.collect();
    match (items.is_empty(), inner) {
        (true, _) => element(outer).child(element(none)),
        (false, "") => element(outer).children(items),
        (false, inner) => element(outer).child(element(inner).children(items)),
    }
}

fn conditions(calls: &[Call], more: &[String]) -> Element {
    let calls = calls.iter().map(called).chain(more.iter().cloned());
    list("reqconds", "noconds", "", calls.map(|call| element("reqcond").text(call)))
}

/// "2 × Split pin, 5 x 50 (H3-0503)"
fn counted(thing: &Thing, count: u32) -> String {
    let times = if count > 1 { format!("{count} × ") } else { String::new() };
    let number = thing.number.as_ref().map_or_else(String::new, |number| format!(" ({number})"));
    format!("{times}{}{number}", thing.text)
}

/// A section's title stands in a `stepsection`, its steps behind it.
fn section_of(section: &Section, language: &Words) -> Vec<Element> {
    let title = section.title.as_ref().map(|title| element("stepsection").text(title));
    title.into_iter().chain(section.steps.iter().map(|step| step_of(step, language))).collect()
}

fn step_of(step: &Step, language: &Words) -> Element {
    let mut sentences = sentences(step).into_iter();
    let first = sentences.next().unwrap_or_default();
    let prose = step.prose_html.as_deref().map(words);
    let because = step.because_html.as_deref().map(words);
    let more: Vec<String> = sentences.chain(prose).chain(because).collect();
    let more = more.into_iter().map(|sentence| element("info").child(element("p").text(sentence)));
    element("step")
        .with("id", format!("step-{}", step.number))
        .children(step.messages.iter().map(|it| message_of(it, step.number, language)))
        .child(element("cmd").text(first))
        .children(more)
}

fn message_of(message: &Message, step: u32, language: &Words) -> Element {
    let kind = message.signal;
    if signal(message) == Signal::Note {
        let text = message.text_html.as_deref().map(words).unwrap_or_default();
        return element("note").with("type", "note").text(text);
    }
    let of = |name, html: &Option<String>| html.as_deref().map(|html| element(name).text(words(html)));
    let hazard = message.hazard_html.as_deref().map(words);
    let hazard: Vec<String> = titled(message, language).into_iter().chain(hazard).collect();
    let worn = wear(message, language);
    let worn = (!worn.is_empty()).then(|| worn.join("; "));
    let first_aid = message.first_aid_html.as_deref().map(words);
    let more = [worn, first_aid, scope(message, step, language)].into_iter().flatten();
    let panel = element("messagepanel")
        .child(element("typeofhazard").text(hazard.join(": ")))
        .children(of("consequence", &message.harm_html))
        .children(of("howtoavoid", &message.avoid_html))
        .children(more.map(|it| element("howtoavoid").text(it)));
    element("hazardstatement").with("type", kind).child(panel)
}
