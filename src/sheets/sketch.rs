//! Small drawings where words are easily turned round: which side of a part faces where, and what tells two parts apart.
use super::{Sheet, html};
use crate::model::action::Work;
use crate::model::declarations::Name;
use std::fmt::Write as _;

/// What a line of words holds before the next begins, in letters.
const LINE: usize = 24;
/// From one line of words to the next, in the drawing's own unit.
const DOWN: f64 = 16.0;
const HEIGHT: f64 = 112.0;

/// Which way the named side faces.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Way {
    Up,
    Down,
    /// To anything else, drawn to the right.
    Across,
}

/// The drawing of how the sided parts of an action face; nothing where none has a side.
pub fn of_sides(out: &mut String, sheet: &Sheet<'_>, work: &Work) {
    let Some(facing) = &work.facing else { return };
    let sided = work.objects.iter().filter_map(|object| match object.name {
        Some(Name::Part(id)) => sheet.declarations.part(id).filter(|part| part.sided.is_some()),
        _ => None,
    });
    let names: Vec<&str> = sided.map(|part| part.thing.noun.singular.as_str()).collect();
    let words = facing.as_str().trim();
    // Brackets stand for a name, dots are a place kept; neither is drawn.
    let plain = !words.is_empty() && !words.contains(['[', ']', '…']);
    let escaped = html::escaped(words);
    // Where learners look the number up, the drawing must not tell it.
    if names.is_empty() || !plain || sheet.numbers.blanked(sheet, escaped.clone()) != escaped {
        return;
    }
    let parts = html::sentence_case(&names.join(", "));
    out.push_str("<figure class=\"side-on\"><figcaption>");
    html::escape(out, &sheet.say("side-that-faces", &[("parts", parts.as_str().into())]));
    out.push_str("</figcaption>");
    drawing(out, sheet, &parts, words);
    out.push_str("</figure>");
}

fn drawing(out: &mut String, sheet: &Sheet<'_>, parts: &str, words: &str) {
    let (side, toward, way) = parted(words);
    let _ = write!(
        out,
        "<svg class=\"pattern side-drawn\" role=\"img\" viewBox=\"0 0 350 {HEIGHT:.0}\" width=\"350\" height=\"{HEIGHT:.0}\">"
    );
    html::element(out, "title", "", &format!("{parts}: {words}"));
    let (author, own) = (sheet.settings().written_in, sheet.context.words.language());
    if author == own {
        out.push_str("<g>");
    } else {
        html::open_in(out, "g", author.tag());
    }
    match way {
        Way::Across => across(out, side, toward),
        Way::Up | Way::Down => upright(out, side, toward, way == Way::Down),
    }
    out.push_str("</g></svg>");
}

/// Words that end with the way up, in the languages that procedures are written in.
const UP: [&str; 6] = ["upwards", "upward", "up", "nach oben", "hacia arriba", "vers le haut"];
const DOWNWARDS: [&str; 6] = ["downwards", "downward", "down", "nach unten", "hacia abajo", "vers le bas"];

/// The side, where it faces, and which way that is on paper. The side is empty where the words do not part.
fn parted(words: &str) -> (&str, &str, Way) {
    let ways = [(UP, Way::Up), (DOWNWARDS, Way::Down)];
    for (toward, way) in ways.iter().flat_map(|(all, way)| all.iter().map(move |toward| (*toward, *way))) {
        match words.strip_suffix(toward) {
            Some("") => return ("", toward, way),
            Some(side) if side.ends_with(' ') => return (side.trim_end(), toward, way),
            _ => {}
        }
    }
    let joints = [" toward ", " towards ", " away from ", " against ", " outward", " inward"];
    let first = joints.iter().filter_map(|joint| words.find(joint)).min();
    match first.and_then(|at| Some((words.get(..at)?, words.get(at + 1..)?))) {
        Some((side, toward)) => (side, toward, Way::Across),
        None => ("", words, Way::Across),
    }
}

/// A part seen from its edge, the named side to the right.
fn across(out: &mut String, side: &str, toward: &str) {
    out.push_str("<rect class=\"ink\" x=\"88\" y=\"46\" width=\"28\" height=\"60\" rx=\"3\"/>");
    line(out, (116.0, 44.0), (116.0, 108.0), "5");
    if !side.is_empty() {
        let lines = lines(side, 32);
        let top = 34.0 - DOWN * (count(&lines) - 1.0);
        text(out, 116.0, top - 6.0, &lines);
    }
    out.push_str("<path class=\"ink\" d=\"M126 76L170 76M160 70L170 76L160 82\"/>");
    let lines = lines(toward, LINE);
    text(out, 262.0, 76.0 - DOWN * (count(&lines) - 1.0) / 2.0, &lines);
}

/// A part lying, the named side on top; or below.
fn upright(out: &mut String, side: &str, toward: &str, below: bool) {
    let y = |y: f64| if below { HEIGHT - y } else { y };
    let top = if below { HEIGHT - 98.0 } else { 70.0 };
    let _ = write!(out, "<rect class=\"ink\" x=\"20\" y=\"{top:.0}\" width=\"130\" height=\"28\" rx=\"3\"/>");
    line(out, (18.0, y(70.0)), (152.0, y(70.0)), "5");
    let (tail, head, barb) = (y(60.0), y(16.0), y(26.0));
    let _ = write!(
        out,
        "<path class=\"ink\" d=\"M85 {tail:.0}L85 {head:.0}M79 {barb:.0}L85 {head:.0}L91 {barb:.0}\"/>"
    );
    text(out, 150.0, y(38.0), &lines(toward, LINE));
    let lines = lines(side, LINE);
    text(out, 226.0, y(70.0) - DOWN * (count(&lines) - 1.0) / 2.0, &lines);
}

fn line(out: &mut String, from: (f64, f64), to: (f64, f64), thick: &str) {
    let _ = write!(
        out,
        "<line class=\"named-side\" x1=\"{:.0}\" y1=\"{:.0}\" x2=\"{:.0}\" y2=\"{:.0}\" stroke-width=\"{thick}\"/>",
        from.0, from.1, to.0, to.1
    );
}

/// Lines of words, the middle of the first at `x`, `y`.
fn text(out: &mut String, x: f64, y: f64, lines: &[String]) {
    let mut y = y;
    for line in lines {
        let _ = write!(out, "<text class=\"own\" x=\"{x:.0}\" y=\"{y:.0}\">");
        html::escape(out, line);
        out.push_str("</text>");
        y += DOWN;
    }
}

/// Words in lines of about so many letters; a longer word has a line of its own.
fn lines(words: &str, letters: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words.split_whitespace() {
        match lines.last_mut() {
            Some(line) if line.chars().count() + word.chars().count() < letters => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

fn count(lines: &[String]) -> f64 {
    f64::from(u32::try_from(lines.len().max(1)).unwrap_or(u32::MAX))
}

/// The outline of one of two parts that look alike, with a leader to the words beside it. The outlines are the same:
/// only the words tell the parts apart.
pub const ALIKE: &str = "<svg class=\"pattern alike\" aria-hidden=\"true\" viewBox=\"0 0 96 56\" width=\"96\" \
height=\"56\"><rect class=\"ink\" x=\"3\" y=\"8\" width=\"56\" height=\"40\" rx=\"8\"/><path class=\"ink\" \
d=\"M59 28L94 28\"/><circle cx=\"59\" cy=\"28\" r=\"4\"/></svg>";
