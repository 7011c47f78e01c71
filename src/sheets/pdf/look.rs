//! How words look on paper, by their tag and class: the style sheet of the PDF.
use super::markup::Element;
use super::slab::{BLACK, Ink, SOFT, WHITE};

/// The size of plain words, in points.
pub const PLAIN: f32 = 10.5;

#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Look {
    pub size: f32,
    pub bold: bool,
    pub ink: Ink,
    /// Line height, of the size.
    pub leading: f32,
    pub capitals: bool,
    /// No line break inside.
    pub whole: bool,
}

pub const BASE: Look =
    Look { size: PLAIN, bold: false, ink: BLACK, leading: 1.36, capitals: false, whole: false };

/// The look of what stands in `element`.
pub fn inside(element: &Element, around: Look) -> Look {
    let mut look = by_tag(element, around);
    let sized = |times: f32| PLAIN * times;
    for (class, times) in SIZES {
        if element.has(class) {
            look.size = sized(*times);
        }
    }
    look.bold |= BOLD.iter().any(|class| element.has(class));
    look.whole |= WHOLE.iter().any(|class| element.has(class));
    if QUIET.iter().any(|class| element.has(class)) {
        look.ink = SOFT;
    }
    // In a table the words of a row are plain, but for those of what counts most.
    if element.has("what") && element.is("th") {
        look.bold = around.bold;
    }
    if element.is("tr") {
        look.bold = element.has("critical");
    }
    if element.has("no") && (element.is("td") || element.is("th")) {
        (look.bold, look.size) = (false, around.size);
    }
    if element.has("fact") || element.has("more") {
        (look.bold, look.size) = (false, around.size * 0.9);
    }
    look
}

fn by_tag(element: &Element, around: Look) -> Look {
    match element.name.as_str() {
        "h1" => Look { size: PLAIN * 1.6, bold: true, leading: 1.2, ..around },
        "h2" => Look { size: PLAIN * 1.05, bold: true, ink: WHITE, ..around },
        "h3" => Look { bold: true, ..around },
        "b" | "strong" | "th" | "dd" => Look { bold: true, ..around },
        "dt" => Look { size: PLAIN * 0.8, ink: SOFT, ..around },
        "thead" => Look { size: PLAIN * 0.85, ink: SOFT, ..around },
        "figcaption" => Look { size: PLAIN * 0.92, ink: SOFT, ..around },
        _ => around,
    }
}

const SIZES: &[(&str, f32)] = &[
    ("do", 1.06),
    ("fact", 0.9),
    ("held", 0.82),
    ("house", 0.86),
    ("job", 0.8),
    ("label", 0.85),
    ("limits", 0.85),
    ("lines", 0.8),
    ("remarks", 0.8),
    ("no", 1.3),
    ("number", 1.15),
    ("outcomes", 0.97),
    ("part-no", 0.86),
    ("prose", 0.95),
    ("rule-text", 0.92),
    ("scope", 0.92),
    ("tag", 0.92),
];
const BOLD: &[&str] = &["avoid", "all", "choice", "hazard", "label", "no", "number", "since", "tag", "value"];
const QUIET: &[&str] = &["fact", "held", "house", "more", "outcome", "rule-text", "scope"];
const WHOLE: &[&str] = &["choice", "part-no", "tag", "whole"];

/// The colours of a signal word: its ground, and what stands on it; none where it stands on the paper.
/// ANSI Z535.6's for the words, ISO 3864's for the grounds.
pub fn signal(message: &Element) -> Option<(Ink, Ink)> {
    const GROUNDS: [(&str, Ink, Ink); 4] = [
        ("danger", Ink(0xc0, 0x11, 0x2b), WHITE),
        ("warning", Ink(0xff, 0x8a, 0x14), BLACK),
        ("caution", Ink(0xff, 0xd2, 0x1f), BLACK),
        ("notice", Ink(0x0a, 0x5a, 0xa6), WHITE),
    ];
    GROUNDS.iter().find(|(class, ..)| message.has(class)).map(|&(_, ground, on)| (ground, on))
}
