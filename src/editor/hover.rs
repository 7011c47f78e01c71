//! What is told of the word under the pointer, as Markdown.
use super::hints;
use super::marks::{self, Kind, Mark, Use};
use super::names;
use super::shop::{Page, Shop, declared};
use crate::checks;
use crate::handbook;
use crate::ledger::{self, Models};
use crate::model::declarations::Part;
use crate::model::fastener::friction::Surface;
use crate::model::fastener::preload::{Fastener, Spread, force, share_of};
use crate::model::fastener::{strength, thread};
use crate::model::quantity::{Dimension, Quantity};
use crate::model::tightening;
use crate::model::verb::{Need, Quantities, Verb};
use crate::model::{Action, Document, Name, Step};
use crate::report::Finding;
use crate::source::Span;
use crate::syntax::words::{AttributeKey, DetailKey};

/// A text about a place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Told {
    pub span: Span,
    pub text: String,
}

/// What is known of the word at `offset`, and the rules that have a finding there.
pub fn at(shop: &Shop, page: &Page, offset: usize) -> Option<Told> {
    let speaks = |kind: &Kind| !matches!(kind, Kind::Keyword | Kind::Text | Kind::Figures | Kind::Unit);
    let mark = marks::at(shop.marks(page), offset, speaks);
    let word = mark.and_then(|mark| Some((mark.span, of_mark(shop, page, mark)?)));
    let here = |it: &&Finding| it.span.range().contains(&offset) || it.span.start as usize == offset;
    let findings: Vec<&Finding> = page.findings.iter().filter(here).collect();
    let span = word.as_ref().map(|(span, _)| *span).or_else(|| findings.first().map(|it| it.span))?;
    let mut rules: Vec<&str> = findings.iter().map(|it| it.rule).collect();
    rules.dedup();
    let parts = word.map(|(_, text)| text).into_iter().chain(rules.into_iter().filter_map(rule));
    Some(Told { span, text: parts.collect::<Vec<_>>().join("\n\n---\n\n") })
}

/// What a rule is for.
pub fn rule(id: &str) -> Option<String> {
    let rule = checks::find(id)?;
    Some(format!("**{id}** — {}\n\n{}", rule.summary, rule.explain.trim()))
}

fn of_mark(shop: &Shop, page: &Page, mark: &Mark) -> Option<String> {
    let word = page.source.slice(mark.span);
    match &mark.kind {
        Kind::Verb(row) => Some(verb(row)),
        Kind::Steering => {
            steering(word).map(|(about, example)| format!("{about}\n\n```cotter\n{example}\n```"))
        }
        Kind::Signal => Some(signal(word).to_owned()),
        Kind::Hazard(hazard) => Some(format!("**{}** — {}", hazard.title, hazard.about)),
        Kind::Wear(wear) if wear.iso_7010.is_empty() => Some(wear.order.clone()),
        Kind::Wear(wear) => Some(format!("{} (ISO 7010 {})", wear.order, wear.iso_7010)),
        Kind::Attribute(key) => key.map(attribute),
        Kind::Detail(key) => key.map(detail),
        Kind::Rule => rule(word),
        Kind::Name(_) => name(shop, page, word, mark.span.start as usize),
        Kind::Number(Use::Used) => number(shop, word),
        Kind::Quantity(quantity) => Some(amount(shop, page, quantity)),
        _ => None,
    }
}

/// What a verb does, what it needs, and how it reads.
pub fn verb(verb: &Verb) -> String {
    let mut text = format!("**{}** — {}", verb.name, verb.about);
    let mut line = |label: &str, words: String| {
        if !words.is_empty() {
            text.push_str(&format!("\n\n{label}: {words}"));
        }
    };
    line("Also", verb.synonyms.join(", "));
    let effects = verb.effects.iter().map(|it| handbook::effect_words(*it));
    line("Counts as", effects.collect::<Vec<_>>().join(", "));
    line("Takes", takes(verb));
    text.push_str(&format!("\n\n```cotter\n{}\n```\nreads: {}", verb.example, verb.reads));
    text
}

fn takes(verb: &Verb) -> String {
    let need = |need: Need, words: &str| match need {
        Need::Required => Some(words.to_owned()),
        Need::Optional => Some(format!("{words} (may be left out)")),
        Need::Refused => None,
    };
    let quantity = match verb.quantity {
        Quantities::Amount => None,
        Quantities::Limit => Some("limits".to_owned()),
        Quantities::Torque => Some("a torque (or that of the part)".to_owned()),
        Quantities::Refused => Some("no amount".to_owned()),
    };
    let what = need(verb.what, "a text in quotes that says what");
    [need(verb.objects, "parts, tools or supplies"), what, quantity]
        .into_iter()
        .flatten()
        .collect::<Vec<_>>()
        .join("; ")
}

/// Verbs that steer, with what they do and an example.
pub const STEERING: [(&str, &str, &str); 10] = [
    ("hold", "Nobody goes on without that signature.", "hold instructor \"the lock is on\""),
    ("wait", "Nothing is done for a time, or until something is seen.", "wait 10 min"),
    ("follow", "Another procedure is worked here.", "follow FW-PMP-002 \"pump isolated and drained\""),
    (
        "repeat",
        "Steps from a label on, again.",
        "repeat from first-pass to last-pass for rear-left, rear-right",
    ),
    (
        "choose",
        "One of several methods; the options stand under it.",
        "choose \"How is the bearing warmed?\"",
    ),
    (
        "calculate",
        "Works a value out of earlier readings.",
        "calculate shim = depth - height, 0.20 to 0.60 mm",
    ),
    ("stop", "The work ends here.", "stop \"The housing is scrap.\""),
    ("skip", "Goes on at another step.", "skip to last-look"),
    ("report", "Somebody is told.", "report supervisor \"The pump leaks.\""),
    ("due", "Something to be done later.", "due \"after 10 h running\" \"tighten again\""),
];

fn steering(word: &str) -> Option<(&'static str, &'static str)> {
    STEERING.iter().find(|(verb, ..)| *verb == word).map(|(_, about, example)| (*about, *example))
}

/// What follows if nobody heeds it (ANSI Z535.6).
pub fn signal(word: &str) -> &'static str {
    match word {
        "danger" => "**danger** — Death or severe injury follows if it is not heeded.",
        "warning" => "**warning** — Death or severe injury can follow if it is not heeded.",
        "caution" => "**caution** — Minor or moderate injury can follow if it is not heeded.",
        "notice" => "**notice** — Damage to things can follow; nobody is hurt.",
        _ => "**note** — Something to know; nothing is guarded by it.",
    }
}

/// What an attribute says of a thing.
pub fn attribute(key: &AttributeKey) -> String {
    let takes = handbook::takes(key.form);
    format!("**{}** — {}\n\nTakes: {takes}\n\n```cotter\n{}\n```", key.key, key.about, key.example)
}

/// What a detail is for.
pub fn detail(key: &DetailKey) -> String {
    format!("**{}:** — {}\n\n```cotter\n{}\n```", key.key, key.about, key.example)
}

/// What is declared by the name, and how a part stands at that place.
fn name(shop: &Shop, page: &Page, word: &str, offset: usize) -> Option<String> {
    let span = names::declaration(shop, page, word)?;
    let source = shop.source(span.file)?;
    let own = declared(&page.document, word).map(|(name, _)| (&page.document, name));
    let found = own.or_else(|| shop.lent(page, word).map(|(document, name, _)| (document, name)));
    let Some((document, name)) = found else {
        let line = source.line_range(source.line_column(span.start).0);
        let line = source.text.get(line).unwrap_or("").trim();
        let step = page.document.procedure().and_then(|it| it.steps().find(|step| holds(step, span)));
        let number = step.map_or_else(String::new, |step| format!(" of step {}", step.number));
        return Some(format!("label{number}\n\n```cotter\n{line}\n```"));
    };
    let whole = match name {
        Name::Message(id) => document.declarations.messages.get(id as usize).map(|it| it.extent),
        _ => document.declarations.thing(name).map(|it| it.span),
    };
    let written = whole.map_or("", |whole| source.slice(whole));
    let lines: Vec<&str> = written.lines().map(str::trim_end).collect();
    let from = if span.file == page.source.id { String::new() } else { format!(", from `{}`", source.name) };
    let mut text = format!("{}{from}\n\n```cotter\n{}\n```", kind(name), lines.join("\n"));
    if let (Name::Part(id), true) = (name, std::ptr::eq(document, &page.document)) {
        text.push_str(&state(shop, page, id, offset).unwrap_or_default());
    }
    Some(text)
}

fn kind(name: Name) -> &'static str {
    match name {
        Name::Part(_) => "part",
        Name::Tool(_) => "tool",
        Name::Supply(_) => "supply",
        Name::Torque(_) => "tightening list",
        Name::Figure(_) => "figure",
        Name::Message(_) => "standing message",
    }
}

fn holds(step: &Step, span: Span) -> bool {
    step.extent.file == span.file && step.extent.start <= span.start && span.end <= step.extent.end
}

/// How the part stands after the step at `offset`, for each group of models.
fn state(shop: &Shop, page: &Page, part: u32, offset: usize) -> Option<String> {
    let procedure = page.document.procedure()?;
    let here = |step: &&Step| step.extent.range().contains(&offset) || step.extent.end as usize == offset;
    let step = procedure.steps().find(here)?;
    let all = procedure.header.models.as_deref().unwrap_or(&[]);
    let mut text = String::new();
    for life in ledger::trace(&page.document, &shop.workspace()?.register, part) {
        let models: Vec<&str> = match &life.models {
            Models::All => Vec::new(),
            Models::Some(some) => {
                some.iter().filter_map(|at| all.get(*at as usize)).map(|it| it.as_str()).collect()
            }
        };
        let on = if models.is_empty() { String::new() } else { format!(" on {}", models.join(", ")) };
        let Some(event) = life.events.iter().rfind(|event| event.step <= step.number) else { continue };
        let open = if event.open.is_empty() { String::new() } else { format!("; {}", event.open.join(", ")) };
        let only = event.only_if.as_ref().map_or_else(String::new, |told| format!(" (if {told})"));
        let words = event.state.join(", ");
        text.push_str(&format!("\n\nAfter step {}{on}{only}: {words}{open}", step.number));
    }
    Some(text)
}

fn number(shop: &Shop, word: &str) -> Option<String> {
    let entries = shop.workspace()?.register.find(word);
    let told = entries.iter().map(|entry| format!("**{word}** {}\n\n`{}`", entry.title, entry.file));
    Some(told.collect::<Vec<_>>().join("\n\n")).filter(|told| !told.is_empty())
}

/// The quantity in both units; of a torque, what it does to its fastener.
fn amount(shop: &Shop, page: &Page, quantity: &Quantity) -> String {
    let second = shop.workspace().and_then(|it| hints::second(quantity, &it.settings.units));
    let also = second.or_else(|| quantity.also().map(Quantity::print));
    let mut text = also.map_or_else(|| quantity.print(), |also| format!("{} ({also})", quantity.print()));
    if quantity.dimension() == Dimension::Torque {
        let parts = fasteners(&page.document, quantity.span());
        for (part, surface) in parts {
            text.push_str(&loaded(part, surface, quantity).unwrap_or_default());
        }
    }
    text
}

/// The fasteners that the torque written at `span` is for.
fn fasteners(document: &Document, span: Span) -> Vec<(&Part, Option<Surface>)> {
    let inside = |whole: Span| whole.file == span.file && whole.start <= span.start && span.end <= whole.end;
    let declarations = &document.declarations;
    let own = declarations.parts.iter().find(|part| part.torque.is_some() && inside(part.thing.span));
    if let Some(part) = own {
        let stated = part.torque.as_ref().and_then(|torque| torque.condition).or(part.condition);
        return vec![(part, stated.map(|it| it.value.into()))];
    }
    let steps = document.procedure().into_iter().flat_map(|procedure| procedure.steps());
    let works =
        steps.filter(|step| inside(step.extent)).flat_map(|step| &step.actions).filter_map(Action::work);
    let found = tightening::of(works, declarations).into_iter().filter_map(|it| {
        let mine = it.torque.span.start <= span.start && span.end <= it.torque.span.end;
        let fastener = it.fastener.filter(|_| mine)?;
        Some((fastener.part, it.stated.map(|stated| stated.value.into())))
    });
    found.collect()
}

/// "M6 class 8.8: preload 4.1 to 9.0 kN; 52 % of the proof load at the usual friction".
fn loaded(part: &Part, surface: Option<Surface>, torque: &Quantity) -> Option<String> {
    let written = part.thread.as_ref()?;
    let series = written.series.as_ref().map(|it| it.as_str());
    let thread = thread::thread(written.designation.as_str(), series).ok()?;
    let named = part.strength.as_ref();
    let strength = named.and_then(|it| strength::strength(it.system, it.value.as_str(), &thread).ok());
    let judgement = Fastener { thread, strength, surface }.judge(torque, false)?;
    let class =
        named.map_or_else(String::new, |it| format!(" {} {}", strength::word(it.system), it.value.value));
    let Spread { least, usual, most } = judgement.preload;
    let mut text = format!(
        "\n\n`{}`, {}{class}: preload {} to {}, usually {}",
        part.thing.name.value,
        written.designation.value,
        force(least),
        force(most),
        force(usual)
    );
    if let Some(shares) = judgement.shares {
        let percent = |share: f64| format!("{:.0}", share * 100.0);
        let usual = share_of(shares.usual, "the proof load");
        text.push_str(&format!(
            "; usually {usual} ({} to {} %)",
            percent(shares.least),
            percent(shares.most)
        ));
    }
    let state = judgement.fastener.surface.map_or("state of the thread not given", Surface::name);
    text.push_str(&format!("; {state}"));
    Some(text)
}
