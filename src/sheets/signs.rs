//! Drawings of the project's own: the alert triangle and plain signs for protective equipment, after the
//! meanings (not the pictures) of ISO 7010. Each stands once in a page and is used by its name.
use super::html;
use super::language::Words;
use crate::model::hazard::{Hazard, Wear};
use std::sync::LazyLock;

/// The drawings themselves, to stand once at the start of a page's body.
pub const DRAWINGS: &str = include_str!("signs.svg");

const KNOWN: [&str; 9] = ["eyes", "face", "ears", "hands", "feet", "head", "breath", "body", "hair"];

/// The triangle beside a signal word. Decoration: the word says the same.
pub fn alert(out: &mut String) {
    out.push_str(
        "<svg class=\"alert\" aria-hidden=\"true\" focusable=\"false\"><use href=\"#alert\"/></svg>",
    );
}

/// Drawings of hazards in the alert triangle, after what ISO 7010's warning signs mean: one a line, each with its name.
static HAZARDS: LazyLock<Vec<(&str, &str)>> = LazyLock::new(|| {
    let name = |line: &'static str| line.strip_prefix("<symbol id=\"hazard-")?.split('"').next();
    include_str!("hazards.svg").lines().filter_map(|line| Some((name(line)?, line))).collect()
});

/// The drawings of those hazards, each once, to stand at the start of a page's body.
pub fn hazard_drawings(hazards: &[&Hazard]) -> String {
    let mut out = String::new();
    for (name, line) in HAZARDS.iter() {
        if hazards.iter().any(|hazard| hazard.sign == *name) {
            out.push_str(if out.is_empty() {
                "<svg class=\"drawings\" width=\"0\" height=\"0\" aria-hidden=\"true\" focusable=\"false\">"
            } else {
                ""
            });
            out.push_str(line);
        }
    }
    out.push_str(if out.is_empty() { "" } else { "</svg>" });
    out
}

/// A list of small signs, each with its words for those who do not see it, and on hovering.
pub fn hazards(out: &mut String, words: &Words, hazards: &[&Hazard]) {
    if hazards.is_empty() {
        return;
    }
    out.push_str("<ul class=\"hazards\">");
    for hazard in hazards {
        out.push_str("<li title=\"");
        let title = words.hazard(hazard);
        html::escape(out, title);
        out.push_str("\"><svg class=\"hazard-sign\" role=\"img\" aria-label=\"");
        html::escape(out, &words.say("hazard-sign", &[("hazard", title.into())]));
        out.push_str("\"><use href=\"#hazard-");
        out.push_str(&hazard.sign);
        out.push_str("\"/></svg></li>");
    }
    out.push_str("</ul>");
}

/// List items, each a sign and its words.
pub fn wear_items<'a>(out: &mut String, words: &Words, wear: impl Iterator<Item = &'a Wear>) {
    for item in wear {
        wear_item(out, words, item, "");
    }
}

/// One list item, a sign and its words, with markup behind them.
pub fn wear_item(out: &mut String, words: &Words, item: &Wear, more_html: &str) {
    let name = KNOWN.iter().find(|&&k| k == item.sign).copied().unwrap_or("any");
    out.push_str("<li><svg class=\"sign\" aria-hidden=\"true\" focusable=\"false\"><use href=\"#sign-");
    out.push_str(name);
    out.push_str("\"/></svg> ");
    html::open(out, "span", "");
    html::escape(out, words.wear(item));
    if !more_html.is_empty() {
        html::open(out, "span", "where");
        out.push_str(more_html);
        html::close(out, "span");
    }
    html::close(out, "span");
    out.push_str("</li>");
}
