//! Safety messages as panels: signal word and colours after ANSI Z535.6 and ISO 3864, never by colour alone.
use super::{Sheet, html, prose, signs};
use crate::model::message::{Message, Scope, Signal};
use crate::model::settings::SignalWords;
use crate::model::{Prose, Step};

/// How a signal word is printed under the house's convention.
pub struct Printed {
    pub word: &'static str,
    /// Names its colours in the style.
    pub class: &'static str,
    pub triangle: bool,
}

/// The printed word: in the military convention there is no DANGER and no NOTICE, and CAUTION speaks of
/// damage, so it carries no triangle.
pub fn printed(signal: Signal, convention: SignalWords) -> Printed {
    let military = convention == SignalWords::Military;
    match signal {
        Signal::Danger if !military => Printed { word: "Danger", class: "danger", triangle: true },
        Signal::Danger | Signal::Warning => Printed { word: "Warning", class: "warning", triangle: true },
        Signal::Notice if !military => Printed { word: "Notice", class: "notice", triangle: false },
        Signal::Caution | Signal::Notice => {
            Printed { word: "Caution", class: "caution", triangle: !military }
        }
        Signal::Note => Printed { word: "Note", class: "note", triangle: false },
    }
}

/// The panel of a message that stands before `step`, the `index`th there.
pub fn panel(out: &mut String, sheet: &Sheet<'_>, message: &Message, step: &Step, index: usize) {
    let printed = printed(message.signal.value, sheet.settings().signal_words);
    out.push_str("<div class=\"message ");
    out.push_str(printed.class);
    out.push_str("\" id=\"");
    out.push_str(&anchor(step.number, index));
    out.push_str("\"><p class=\"signal\">");
    if printed.triangle {
        signs::alert(out);
    }
    html::element(out, "strong", "", printed.word);
    if let Some(hazard) = &message.hazard {
        html::element(out, "span", "hazard", &hazard.value.title);
    }
    out.push_str("</p><div class=\"words\">");
    words(out, sheet, message);
    if let Some(text) = scope(message, step) {
        html::element(out, "p", "scope", &text);
    }
    out.push_str("</div></div>");
}

fn words(out: &mut String, sheet: &Sheet<'_>, message: &Message) {
    let mut line = |class: &str, label: &str, text: &Option<Prose>| {
        let Some(text) = text else { return };
        html::open(out, "p", class);
        if !label.is_empty() {
            html::element(out, "b", "", label);
            out.push(' ');
        }
        prose::inline(out, text, sheet);
        html::close(out, "p");
    };
    line("what", "", &message.hazard_text);
    line("harm", "What can happen:", &message.harm);
    line("avoid", "", &message.avoid);
    line("first-aid", "First aid:", &message.first_aid);
    if let Some(text) = &message.text {
        prose::block(out, text, sheet);
    }
    if !message.wear.is_empty() {
        html::open(out, "ul", "wear");
        signs::wear_items(out, message.wear.iter().map(|w| w.value));
        html::close(out, "ul");
    }
}

/// How long it holds, where that is longer than the next step.
fn scope(message: &Message, step: &Step) -> Option<String> {
    match message.scope {
        Scope::NextStep | Scope::NextSteps(0 | 1) => None,
        Scope::NextSteps(count) => {
            let last = step.number.saturating_add(count - 1);
            Some(format!("Holds for the next {count} steps, {} to {last}.", step.number))
        }
        Scope::Section => Some("Holds to the end of this section.".to_owned()),
        Scope::Until { step: Some(last), .. } => Some(format!("Holds until step {last} is done.")),
        Scope::Until { step: None, .. } => None,
    }
}

/// The name of a message's place in the page.
pub fn anchor(step: u32, index: usize) -> String {
    format!("message-{step}-{}", index + 1)
}
