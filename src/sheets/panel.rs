//! Safety messages as panels: signal word and colours after ANSI Z535.6 and ISO 3864, never by colour alone.
use super::{Sheet, html, prose, signs, since};
use crate::model::in_force::Held;
use crate::model::message::{Message, Scope, Signal};
use crate::model::settings::SignalWords;
use crate::model::{Prose, Step};

/// How a signal word is printed under the house's convention.
pub struct Printed {
    /// Of the word in the table of words.
    pub key: &'static str,
    /// Names its colours in the style.
    pub class: &'static str,
    pub triangle: bool,
}

/// The printed word: in the military convention there is no DANGER and no NOTICE, and CAUTION speaks of
/// damage, so it carries no triangle.
pub fn printed(signal: Signal, convention: SignalWords) -> Printed {
    let military = convention == SignalWords::Military;
    match signal {
        Signal::Danger if !military => Printed { key: "danger", class: "danger", triangle: true },
        Signal::Danger | Signal::Warning => Printed { key: "warning", class: "warning", triangle: true },
        Signal::Notice if !military => Printed { key: "notice", class: "notice", triangle: false },
        Signal::Caution | Signal::Notice => Printed { key: "caution", class: "caution", triangle: !military },
        Signal::Note => Printed { key: "note", class: "note", triangle: false },
    }
}

/// The panels of all that stands before a step.
pub fn before_step(out: &mut String, sheet: &Sheet<'_>, step: &Step) {
    for (index, message) in step.messages.iter().enumerate() {
        let scope = scope(sheet, message, Some(step.number)).map(|it| html::escaped(&it));
        since::at_message(out, sheet, step.number, index);
        panel(out, sheet, message, &anchor(step.number, index), scope.as_deref());
    }
}

/// The panels of a section's messages that stand before no step: those on the whole procedure above its first
/// `section`, or what a section ends with. `section` is its index.
pub fn before_none(out: &mut String, sheet: &Sheet<'_>, messages: &[Message], section: usize) {
    for (index, message) in messages.iter().enumerate() {
        let scope = scope(sheet, message, None).map(|it| html::escaped(&it));
        panel(out, sheet, message, &format!("loose-{section}-{}", index + 1), scope.as_deref());
    }
}

/// One panel; `scope_html` says where or how long it holds.
pub fn panel(out: &mut String, sheet: &Sheet<'_>, message: &Message, anchor: &str, scope_html: Option<&str>) {
    let printed = printed(message.signal.value, sheet.settings().signal_words);
    out.push_str("<div class=\"message ");
    out.push_str(printed.class);
    out.push_str("\" id=\"");
    out.push_str(anchor);
    out.push_str("\"><p class=\"signal\">");
    if printed.triangle {
        signs::alert(out);
    }
    html::element(out, "strong", "", sheet.label(printed.key));
    if let Some(hazard) = &message.hazard {
        html::element(out, "span", "hazard", sheet.context.words.hazard(hazard.value));
    }
    out.push_str("</p><div class=\"words\">");
    words(out, sheet, message);
    if let Some(markup) = scope_html {
        html::open(out, "p", "scope");
        out.push_str(markup);
        html::close(out, "p");
    }
    out.push_str("</div></div>");
}

fn words(out: &mut String, sheet: &Sheet<'_>, message: &Message) {
    let mut line = |class: &str, key: &'static str, text: &Option<Box<Prose>>| {
        let Some(text) = text else { return };
        html::open(out, "p", class);
        if !key.is_empty() {
            html::element(out, "b", "", sheet.label(key));
            out.push(' ');
        }
        prose::inline(out, text, sheet);
        html::close(out, "p");
    };
    line("what", "", &message.hazard_text);
    line("harm", "harm", &message.harm);
    line("avoid", "", &message.avoid);
    line("first-aid", "first-aid", &message.first_aid);
    if let Some(text) = &message.text {
        prose::block(out, text, sheet);
    }
    if !message.wear.is_empty() {
        html::open(out, "ul", "wear");
        signs::wear_items(out, sheet.context.words, message.wear.iter().map(|w| w.value));
        html::close(out, "ul");
    }
}

/// One quiet line about the messages that still hold: with a link to each, or the step it stands at. Mostly it is
/// that of the step before, which is kept.
pub struct Reminder {
    linked: bool,
    /// The step and the index of each message in the line.
    of: Vec<(u32, usize)>,
    markup: String,
}

impl Reminder {
    pub fn new(linked: bool) -> Reminder {
        Reminder { linked, of: Vec::new(), markup: String::new() }
    }

    pub fn write(&mut self, out: &mut String, sheet: &Sheet<'_>, held: &[Held<'_>]) {
        let places = held.iter().map(|held| (held.from, held.index));
        if !places.clone().eq(self.of.iter().copied()) {
            self.of.clear();
            self.of.extend(places);
            self.markup.clear();
            reminder(&mut self.markup, sheet, held, self.linked);
        }
        out.push_str(&self.markup);
    }
}

fn reminder(out: &mut String, sheet: &Sheet<'_>, held: &[Held<'_>], linked: bool) {
    if held.is_empty() {
        return;
    }
    html::open(out, "p", "held");
    out.push_str(sheet.label("still-holds"));
    out.push(' ');
    for (index, held) in held.iter().enumerate() {
        out.push_str(if index > 0 { ", " } else { "" });
        if linked {
            out.push_str("<a href=\"#");
            out.push_str(&anchor(held.from, held.index));
            out.push_str("\">");
        }
        let printed = printed(held.message.signal.value, sheet.settings().signal_words);
        html::element(out, "strong", "", sheet.label(printed.key));
        if let Some(hazard) = &held.message.hazard {
            out.push(' ');
            html::escape(out, &sheet.context.words.hazard_in_line(hazard.value));
        }
        if linked {
            out.push_str("</a>");
        } else {
            out.push(' ');
            html::escape(out, &sheet.say("at-step", &[("step", held.from.into())]));
        }
    }
    out.push_str("</p>");
}

/// How long it holds from the step `first` on, where that is longer than the next step.
fn scope(sheet: &Sheet<'_>, message: &Message, first: Option<u32>) -> Option<String> {
    match (&message.scope, first) {
        (Scope::Until { step: Some(last), .. }, _) => {
            Some(sheet.say("holds-until", &[("step", (*last).into())]))
        }
        (Scope::NextStep | Scope::NextSteps(0 | 1) | Scope::Until { step: None, .. }, _) | (_, None) => None,
        (Scope::NextSteps(count), Some(first)) => {
            let last = first.saturating_add(count - 1);
            let arguments = [("count", (*count).into()), ("first", first.into()), ("last", last.into())];
            Some(sheet.say("holds-for-next", &arguments))
        }
        (Scope::Section, Some(_)) => Some(sheet.label("holds-to-section-end").to_owned()),
    }
}

/// The name of a message's place in the page.
pub fn anchor(step: u32, index: usize) -> String {
    format!("message-{step}-{}", index + 1)
}
