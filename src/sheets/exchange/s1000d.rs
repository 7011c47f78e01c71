//! A procedural data module (S1000D issue 4.2, chapter 3.9.5.2.3: content section, procedures). The code of the module is
//! the shop's to give: what stands there is marked as such.
use super::tree::Element;
use super::{called, element, preface, scope, sentences, signal, titled, wear, words};
use crate::model::message::Signal;
use crate::sheets::language::Words;
use crate::sheets::machine::{Call, Machine, Message, Section, Step, Thing};

pub const HEAD: &str = "";

const SCHEMA: &str = "http://www.s1000d.org/S1000D_4-2/xml_schema_flat/proced.xsd";

pub fn of(machine: &Machine, language: &Words) -> Element {
    let procedure = element("procedure")
        .child(element("preliminaryRqmts").children(before(machine)))
        .child(main(machine, language))
        .child(element("closeRqmts").child(conditions(&machine.header.afterwards, &due(machine))));
    element("dmodule")
        .with("xmlns:xsi", "http://www.w3.org/2001/XMLSchema-instance")
        .with("xsi:noNamespaceSchemaLocation", SCHEMA)
        .child(status(machine))
        .child(element("content").child(procedure))
}

fn due(machine: &Machine) -> Vec<String> {
    machine.dues.iter().map(|due| format!("{}: {}", due.when, due.what)).collect()
}

/// Whose module it is. The codes are placeholders: a shop has a scheme of its own, which no procedure tells.
fn status(machine: &Machine) -> Element {
    let code = element("dmCode")
        .with("modelIdentCode", "XXXXXX")
        .with("systemDiffCode", "A")
        .with("systemCode", "00")
        .with("subSystemCode", "0")
        .with("subSubSystemCode", "0")
        .with("assyCode", "00")
        .with("disassyCode", "00")
        .with("disassyCodeVariant", "A")
        .with("infoCode", "900")
        .with("infoCodeVariant", "A")
        .with("itemLocationCode", "D");
    let language = element("language").with("languageIsoCode", machine.language).with("countryIsoCode", "ZZ");
    let issue = element("issueInfo").with("issueNumber", "000").with("inWork", "01");
    let (year, month, day) = date(machine.header.revision.as_deref().unwrap_or(""));
    let dated = element("issueDate").with("year", year).with("month", month).with("day", day);
    let equipment = machine.header.equipment.clone().unwrap_or_else(|| machine.title.clone());
    let title = element("dmTitle")
        .child(element("techName").text(equipment))
        .child(element("infoName").text(format!("{} {}", machine.number, machine.title)));
    let house = || element("enterpriseName").text(machine.house.clone());
    let applies = match machine.header.models.as_slice() {
        [] => "All".to_owned(),
        models => models.join(", "),
    };
    let remarks = preface(machine).into_iter().map(para);
    let address = element("dmAddress")
        .child(element("dmIdent").child(code).child(language).child(issue))
        .child(element("dmAddressItems").child(dated).child(title));
    let status = element("dmStatus")
        .with("issueType", "new")
        .child(element("security").with("securityClassification", "01"))
        .child(element("responsiblePartnerCompany").child(house()))
        .child(element("originator").child(house()))
        .child(element("applic").child(element("displayText").child(element("simplePara").text(applies))))
        .child(element("brexDmRef").child(element("dmRef").child(element("dmRefIdent").child(brex()))))
        .child(element("qualityAssurance").child(element("unverified")))
        .child(element("remarks").children(remarks));
    element("identAndStatusSection").child(address).child(status)
}

/// The default business rules of the standard itself.
fn brex() -> Element {
    element("dmCode")
        .with("modelIdentCode", "S1000D")
        .with("systemDiffCode", "F")
        .with("systemCode", "04")
        .with("subSystemCode", "1")
        .with("subSubSystemCode", "0")
        .with("assyCode", "0301")
        .with("disassyCode", "00")
        .with("disassyCodeVariant", "A")
        .with("infoCode", "022")
        .with("infoCodeVariant", "A")
        .with("itemLocationCode", "D")
}

/// The date in a revision, "C, 2026-09-28"; the first of all days where it has none.
fn date(revision: &str) -> (String, String, String) {
    let shaped = |word: &&str| {
        let lengths: Vec<usize> = word.split('-').map(str::len).collect();
        lengths == [4, 2, 2] && word.chars().all(|c| c.is_ascii_digit() || c == '-')
    };
    let found = revision.split(|c: char| c == ',' || c.is_whitespace()).find(shaped).unwrap_or("1970-01-01");
    let mut parts = found.split('-').map(str::to_owned);
    let mut next = || parts.next().unwrap_or_default();
    (next(), next(), next())
}

fn para(text: String) -> Element {
    element("simplePara").text(text)
}

fn before(machine: &Machine) -> Vec<Element> {
    let people = machine.header.people_html.as_deref().map(words).unwrap_or_default();
    let person = element("personCategory").with("personCategoryCode", people);
    let persons = element("reqPersons").child(element("person").with("man", "A").child(person));
    let new: Vec<_> = machine.parts.iter().filter(|part| part.single_use).collect();
    let tools = machine.tools.iter().map(|it| described("supportEquipDescr", &it.thing, it.count));
    let supplies = machine.supplies.iter().map(|it| described("supplyDescr", &it.thing, 0));
    let spares = new.into_iter().map(|it| described("spareDescr", &it.thing, it.count));
    vec![
        conditions(&machine.header.requires, &[]),
        persons,
        group("reqSupportEquips", "noSupportEquips", "supportEquipDescrGroup", tools.collect()),
        group("reqSupplies", "noSupplies", "supplyDescrGroup", supplies.collect()),
        group("reqSpares", "noSpares", "spareDescrGroup", spares.collect()),
        element("reqSafety").child(element("noSafety")),
    ]
}

fn group(outer: &'static str, none: &'static str, inner: &'static str, items: Vec<Element>) -> Element {
    match items.is_empty() {
        true => element(outer).child(element(none)),
        false => element(outer).child(element(inner).children(items)),
    }
}

fn described(kind: &'static str, thing: &Thing, count: u32) -> Element {
    let number = thing.number.as_ref().map(|number| {
        element("identNumber")
            .child(element("manufacturerCode"))
            .child(element("partAndSerialNumber").child(element("partNumber").text(number)))
    });
    let amount = if count > 0 { count.to_string() } else { "AR".to_owned() };
    element(kind)
        .with("id", super::identifier(&thing.name))
        .child(element("name").text(thing.text.clone()))
        .children(number)
        .child(element("reqQuantity").text(amount))
}

fn conditions(calls: &[Call], more: &[String]) -> Element {
    let all = calls.iter().map(called).chain(more.iter().cloned());
    let all: Vec<Element> =
        all.map(|it| element("reqCondNoRef").child(element("reqCond").text(it))).collect();
    match all.is_empty() {
        true => element("reqCondGroup").child(element("noConds")),
        false => element("reqCondGroup").children(all),
    }
}

fn main(machine: &Machine, language: &Words) -> Element {
    let section = |section: &Section| match &section.title {
        None => section.steps.iter().map(|step| step_of(step, language)).collect(),
        Some(title) => {
            let steps = section.steps.iter().map(|step| step_of(step, language));
            vec![element("proceduralStep").child(element("title").text(title)).children(steps)]
        }
    };
    element("mainProcedure").children(machine.sections.iter().flat_map(section))
}

fn step_of(step: &Step, language: &Words) -> Element {
    let messages = step.messages.iter().map(|it| message_of(it, step.number, language));
    let prose = step.prose_html.as_deref().map(words);
    let because = step.because_html.as_deref().map(words);
    let paras = sentences(step).into_iter().chain(prose).chain(because);
    element("proceduralStep")
        .with("id", format!("stp-{:04}", step.number))
        .children(messages)
        .children(paras.map(|text| element("para").text(text)))
}

/// The standard knows warnings of injury, cautions of damage, and notes: a caution of injury is a warning there.
fn message_of(message: &Message, step: u32, language: &Words) -> Element {
    let text = |html: &Option<String>| html.as_deref().map(words).filter(|text| !text.is_empty());
    let (outer, inner) = match signal(message) {
        Signal::Danger | Signal::Warning | Signal::Caution => ("warning", "warningAndCautionPara"),
        Signal::Notice => ("caution", "warningAndCautionPara"),
        Signal::Note => ("note", "notePara"),
    };
    let worn = wear(message, language);
    let worn = (!worn.is_empty()).then(|| worn.join("; "));
    let all = [
        titled(message, language).map(|title| title.to_uppercase()),
        text(&message.hazard_html),
        text(&message.harm_html),
        text(&message.avoid_html),
        worn,
        text(&message.first_aid_html),
        text(&message.text_html),
        scope(message, step, language),
    ];
    element(outer).children(all.into_iter().flatten().map(|text| element(inner).text(text)))
}
