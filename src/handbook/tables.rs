//! The tables of the language reference, each from the table the compiler itself reads.
use crate::ledger::hazards::demand::Row;
use crate::model::hazard::{Hazard, Wear};
use crate::model::message::Signal;
use crate::model::quantity::{Dimension, Quantity, Unit};
use crate::model::verb::{Effect, Verb};
use crate::source::{FileId, SourceFile};
use crate::syntax::ast::{Head, PhraseKind, QuantityForm};
use crate::syntax::parse;
use crate::syntax::words::{self, AttributeForm, AttributeKey, Owner, Place};
use std::fmt::Write;

/// The table of that name; `None` where there is none.
pub fn table(name: &str) -> Option<String> {
    Some(match name {
        "verbs" => verbs(),
        "units" => units(),
        "signals" => signals(),
        "hazards" => hazards(),
        "wear" => wear(),
        "demands" => demands(),
        _ => return keys(name),
    })
}

fn keys(name: &str) -> Option<String> {
    Some(match name.split_once(' ')? {
        ("attributes", "part") => attributes(Owner::Part),
        ("attributes", "tool") => attributes(Owner::Tool),
        ("attributes", "supply") => attributes(Owner::Supply),
        ("attributes", "figure") => attributes(Owner::Figure),
        ("details", "header") => details(Place::Header),
        ("details", "section") => details(Place::Section),
        ("details", "step") => details(Place::Step),
        ("details", "message") => details(Place::Message),
        _ => return None,
    })
}

/// Rows of cells under a heading, as a Markdown table without a last line end.
fn markdown<const N: usize>(heading: [&str; N], rows: impl IntoIterator<Item = [String; N]>) -> String {
    let mut text = format!("| {} |\n|{}", heading.join(" | "), " --- |".repeat(N));
    for row in rows {
        let cells = row.map(|cell| cell.replace('|', "\\|"));
        text.push_str("\n| ");
        text.push_str(&cells.join(" | "));
        text.push_str(" |");
    }
    text
}

fn code(text: &str) -> String {
    format!("`{text}`")
}

fn attributes(owner: Owner) -> String {
    let mut rows: Vec<&AttributeKey> = words::attributes().filter(|row| row.on.contains(&owner)).collect();
    rows.sort_by(|a, b| a.key.cmp(&b.key));
    let cells = |row: &AttributeKey| {
        let takes = match row.form {
            AttributeForm::Quantity => row.dimensions.join(", "),
            form if row.list => format!("{}, several with commas", takes(form)),
            form => takes(form).to_owned(),
        };
        [code(&row.key), row.about.clone(), takes, code(&row.example)]
    };
    markdown(["Attribute", "Meaning", "Takes", "Example"], rows.into_iter().map(cells))
}

/// What follows an attribute's key, in an author's words.
pub fn takes(form: AttributeForm) -> &'static str {
    match form {
        AttributeForm::Flag => "nothing",
        AttributeForm::Text => "text in quotes",
        AttributeForm::Name | AttributeForm::Names => "a declared name",
        AttributeForm::NamesBy => "a declared name, `by` and text in quotes",
        AttributeForm::Words => "words",
        AttributeForm::Serial => "serial numbers",
        AttributeForm::Fitted => "`fitted`",
        AttributeForm::Off => "`off`",
        AttributeForm::Quantity => "a quantity",
        AttributeForm::Thread => "a thread",
        AttributeForm::Strength => "a class or grade",
        AttributeForm::Torque => "a torque, or the name of a list",
        AttributeForm::Callout => "a number `on` a figure",
        AttributeForm::Cure => "a time, `at` a temperature",
        AttributeForm::Layout => "`circle`, `line`, `2 rows`, `rectangle 4 by 3`",
    }
}

fn details(place: Place) -> String {
    let mut rows: Vec<_> = words::details().filter(|row| row.on.contains(&place)).collect();
    rows.sort_by(|a, b| a.key.cmp(&b.key));
    let cells = rows.into_iter().map(|row| [code(&row.key), row.about.clone(), code(&row.example)]);
    markdown(["Key", "Meaning", "Example"], cells)
}

fn signals() -> String {
    let rows = Signal::ALL.map(|signal| {
        let (meaning, military) = signal_meaning(signal);
        format!("| `{}` | {meaning} | {military} |", signal.word())
    });
    rows.join("\n")
}

/// What follows if it is not heeded (ANSI Z535.6), and what a house on MIL-STD-38784 prints.
fn signal_meaning(signal: Signal) -> (&'static str, &'static str) {
    match signal {
        Signal::Danger => ("death or grave injury, for certain", "WARNING"),
        Signal::Warning => ("death or grave injury, possibly", "WARNING"),
        Signal::Caution => ("slight or moderate injury, possibly", "CAUTION, which there means damage"),
        Signal::Notice => ("damage, no injury", "CAUTION"),
        Signal::Note => ("nothing; it informs", "NOTE"),
    }
}

fn hazards() -> String {
    let rows = Hazard::all().iter().map(|hazard| {
        let harms = if hazard.property { "things" } else { "people" };
        [code(&hazard.name), hazard.about.clone(), harms.to_owned()]
    });
    markdown(["Class", "What it is", "Harms"], rows)
}

fn wear() -> String {
    let rows = Wear::all().iter().map(|wear| {
        let also: Vec<String> = wear.also.iter().map(|word| code(word)).collect();
        [code(&wear.name), also.join(", "), wear.iso_7010.clone()]
    });
    markdown(["Write", "Or", "ISO 7010"], rows)
}

fn demands() -> String {
    let rows = Row::all().iter().map(|row| {
        let limits = row.above.iter().map(Quantity::print).collect::<Vec<_>>().join(", ");
        let classes: Vec<String> = row.classes.iter().map(|class| code(&class.name)).collect();
        let any_of =
            |list: &Vec<&Wear>| list.iter().map(|it| it.name.as_str()).collect::<Vec<_>>().join(" or ");
        let wear: Vec<String> = row.wear.iter().map(any_of).collect();
        [row.about.clone(), limits, classes.join(", "), wear.join("; "), row.source.clone()]
    });
    markdown(["Where", "Over", "Classes", "Wear", "Source"], rows)
}

fn units() -> String {
    let rows = Dimension::ALL.into_iter().flat_map(|dimension| {
        dimension.units().iter().enumerate().map(move |(index, unit)| {
            let name = if index == 0 { dimension.name() } else { "" };
            [name.to_owned(), code(unit.source), unit.symbol.to_owned(), spellings(unit)]
        })
    });
    markdown(["Quantity", "Write", "Printed", "Also read"], rows)
}

fn spellings(unit: &Unit) -> String {
    let further =
        |spelling: &&&str| **spelling != unit.source && **spelling != unit.symbol && readable(spelling);
    unit.spellings.iter().filter(further).map(|spelling| code(spelling)).collect::<Vec<_>>().join(", ")
}

/// Whether a file may spell a unit so. The unit table also knows spellings that only prose uses, as "foot pounds".
fn readable(spelling: &str) -> bool {
    let parsed = parse(&SourceFile::new(FileId(0), "unit", format!("do 1 to 2 {spelling}\n")));
    let [statement] = parsed.tree.statements.as_slice() else { return false };
    let Head::Step(actions) = &statement.head else { return false };
    let [action] = actions.as_slice() else { return false };
    let [phrase] = action.phrases.as_slice() else { return false };
    let PhraseKind::Quantity(quantity) = &phrase.kind else { return false };
    let QuantityForm::Between { high, .. } = &quantity.form else { return false };
    parsed.findings.is_empty() && high.unit.as_ref().is_some_and(|unit| unit.value == spelling)
}

fn verbs() -> String {
    let mut rows: Vec<&Verb> = Verb::all().iter().collect();
    rows.sort_by(|a, b| a.name.cmp(&b.name));
    let cells = |verb: &Verb| {
        let mut name = format!("**{}**", verb.name);
        if !verb.synonyms.is_empty() {
            let _ = write!(name, " ({})", verb.synonyms.join(", "));
        }
        let effects: Vec<String> = verb.effects.iter().map(|effect| effect_words(*effect)).collect();
        [name, verb.about.clone(), effects.join(", "), code(&verb.example), verb.reads.clone()]
    };
    markdown(["Verb", "Meaning", "Counts as", "Example", "Reads"], rows.into_iter().map(cells))
}

/// `TakesOff` as "takes off".
pub fn effect_words(effect: Effect) -> String {
    let mut text = String::new();
    for letter in format!("{effect:?}").chars() {
        if letter.is_uppercase() && !text.is_empty() {
            text.push(' ');
        }
        text.extend(letter.to_lowercase());
    }
    text
}
