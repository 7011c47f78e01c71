//! Drawings of the project's own: the alert triangle and plain signs for protective equipment, after the
//! meanings (not the pictures) of ISO 7010. Each stands once in a page and is used by its name.
use super::html;
use crate::model::hazard::Wear;

/// The drawings themselves, to stand once at the start of a page's body.
pub const DRAWINGS: &str = include_str!("signs.svg");

const KNOWN: [&str; 9] = ["eyes", "face", "ears", "hands", "feet", "head", "breath", "body", "hair"];

/// The triangle beside a signal word. Decoration: the word says the same.
pub fn alert(out: &mut String) {
    out.push_str(
        "<svg class=\"alert\" aria-hidden=\"true\" focusable=\"false\"><use href=\"#alert\"/></svg>",
    );
}

/// List items, each a sign and its words.
pub fn wear_items<'a>(out: &mut String, wear: impl Iterator<Item = &'a Wear>) {
    for item in wear {
        let name = KNOWN.iter().find(|&&k| k == item.sign).copied().unwrap_or("any");
        out.push_str("<li><svg class=\"sign\" aria-hidden=\"true\" focusable=\"false\"><use href=\"#sign-");
        out.push_str(name);
        out.push_str("\"/></svg> ");
        html::element(out, "span", "", &item.order);
        out.push_str("</li>");
    }
}
