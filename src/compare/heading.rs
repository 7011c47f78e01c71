//! What stands at the head: number, title, machines, calls, people and time; and what is due afterwards.
use super::change::{Change, Kind};
use super::fact::{Aliases, Fact, differences, one_line, plainly};
use super::values;
use crate::model::document::Call;
use crate::model::{Body, Document, Procedure};
use crate::source::{Span, Text};

/// Adds what differs in the heads.
pub fn compare(old: &Document, new: &Document, aliases: &Aliases, changes: &mut Vec<Change>) {
    let (before, after) = (facts(old, aliases), facts(new, &Aliases::default()));
    let places = (place(old), place(new));
    differences(&before, &after, |change| {
        let mut change = change.places(places.0, places.1);
        change.subject = "header".to_owned();
        changes.push(change);
    });
}

fn place(document: &Document) -> Option<Span> {
    document.procedure().map(|procedure| procedure.span)
}

fn facts(document: &Document, aliases: &Aliases) -> Vec<Fact> {
    match &document.body {
        Body::Procedure(procedure) => of_procedure(procedure, aliases),
        Body::Catalogue { title } => vec![naming("title", title.as_str())],
        Body::Unknown => Vec::new(),
    }
}

fn naming(aspect: &str, words: &str) -> Fact {
    let words = one_line(words);
    Fact::new(Kind::Naming, aspect, words.clone(), words)
}

fn of_procedure(procedure: &Procedure, aliases: &Aliases) -> Vec<Fact> {
    let header = &procedure.header;
    let mut facts =
        vec![naming("number", procedure.number.as_str()), naming("title", procedure.title.as_str())];
    facts.extend(header.revision.as_ref().map(|it| naming("revision", it.as_str())));
    facts.extend(header.approved.as_ref().map(|it| naming("approved", it.as_str())));
    facts.extend(header.equipment.as_ref().map(|it| Fact::said(Kind::Models, "equipment", it.as_str())));
    facts.extend(header.models.as_deref().map(models));
    facts.extend(header.serials.as_ref().map(|it| Fact::said(Kind::Models, "serials", it.as_str())));
    facts.extend(header.sources.as_deref().map(|it| list(Kind::Source, "source", it)));
    facts.extend(header.time.as_ref().map(|it| values::fact(Kind::Effort, "time", it)));
    facts.extend(
        header.people.as_ref().map(|it| Fact::said(Kind::Effort, "people", &aliases.prose(&it.source))),
    );
    facts.extend(header.outcome.as_ref().map(|it| Fact::free("outcome", &aliases.prose(&it.source))));
    facts.extend(header.requires.as_deref().map(|it| calls("requires", it)));
    facts.extend(header.afterwards.as_deref().map(|it| calls("afterwards", it)));
    facts.extend(header.leaves.as_deref().map(|it| list(Kind::Around, "leaves", it)));
    let dues = procedure.dues.iter().map(|due| {
        let words = format!("{}: {}", due.when.value, due.what.value);
        Fact::said(Kind::Later, &format!("due {}", plainly(due.when.as_str())), &words)
    });
    facts.extend(dues);
    facts
}

/// In whatever order.
fn models(models: &[Text]) -> Fact {
    let mut sorted: Vec<&str> = models.iter().map(Text::as_str).collect();
    sorted.sort_unstable();
    let meaning = sorted.join(", ");
    Fact::new(Kind::Models, "models", meaning.clone(), meaning)
}

fn list(kind: Kind, aspect: &str, texts: &[Text]) -> Fact {
    let words = texts.iter().map(Text::as_str).collect::<Vec<_>>().join("; ");
    Fact::said(kind, aspect, if words.is_empty() { "none" } else { &words })
}

fn calls(aspect: &str, calls: &[Call]) -> Fact {
    let said = |call: &Call| {
        let parts = [call.number.as_ref(), call.text.as_ref()];
        parts.into_iter().flatten().map(Text::as_str).collect::<Vec<_>>().join(" ")
    };
    let words = calls.iter().map(said).collect::<Vec<_>>().join("; ");
    Fact::said(Kind::Around, aspect, if words.is_empty() { "none" } else { &words })
}
