//! Small numbered drawings of a set of fasteners, in the order in which they are gone round.
use super::{Sheet, html};
use crate::model::action::Work;
use crate::model::declarations::{Name, Part};
use crate::model::fastener::pattern::{self, Layout, Place};
use crate::model::tightening::Tightening;
use crate::model::torque::{Pattern, Torque};
use crate::model::verb::Effect;
use std::cell::RefCell;
use std::rc::Rc;

/// The radius of a fastener, in the drawing's own unit, and the end of its circle.
const ROUND: &str = "\" r=\"15\"/>";
/// From the middle of a fastener to that of a number beside it.
const BESIDE: f64 = 24.0;

/// The drawings of what the step tightens or loosens in a pattern; nothing where there is none.
pub fn of_work(out: &mut String, sheet: &Sheet<'_>, work: &Work) {
    if work.verb.tightens() {
        for it in sheet.tightenings_of(work) {
            of_tightening(out, sheet, it);
        }
    } else if work.verb.does(Effect::Loosens)
        && let Some(torque) = &work.torque
    {
        for object in &work.objects {
            if let Some(Name::Part(id)) = object.name
                && let Some(part) = sheet.declarations.part(id)
            {
                let set = Set { part, id, count: object.count.unwrap_or(part.count), loosened: true };
                of_torque(out, sheet, &set, torque);
            }
        }
    }
}

fn of_tightening(out: &mut String, sheet: &Sheet<'_>, it: &Tightening<'_>) {
    if let Some(fastener) = it.fastener.filter(|it| it.piece.is_none()) {
        let set = Set { part: fastener.part, id: fastener.id, count: it.count(), loosened: false };
        of_torque(out, sheet, &set, &it.torque);
    }
}

struct Set<'a> {
    part: &'a Part,
    /// The part's.
    id: u32,
    count: u32,
    loosened: bool,
}

/// What was drawn for a sheet: a set is tightened many times and drawn once. Copies share it.
#[derive(Clone, Default)]
pub struct Drawn(Rc<RefCell<Vec<(Key, String)>>>);

#[derive(PartialEq)]
struct Key {
    part: u32,
    count: u32,
    loosened: bool,
    pattern: Pattern,
}

/// One drawing for each pattern of the list.
fn of_torque(out: &mut String, sheet: &Sheet<'_>, set: &Set<'_>, torque: &Torque) {
    let of_passes = torque.passes.iter().filter_map(|pass| pass.pattern.as_ref());
    let mut drawn: Vec<&Pattern> = Vec::new();
    for pattern in torque.pattern.iter().chain(of_passes).map(|it| &it.value) {
        if drawn.contains(&pattern) {
            continue;
        }
        drawn.push(pattern);
        let key = Key { part: set.id, count: set.count, loosened: set.loosened, pattern: pattern.clone() };
        let mut kept = sheet.drawn.0.borrow_mut();
        if let Some((_, markup)) = kept.iter().find(|(known, _)| *known == key) {
            out.push_str(markup);
            continue;
        }
        let from = out.len();
        in_pattern(out, sheet, set, pattern);
        kept.push((key, out.get(from..).unwrap_or("").to_owned()));
    }
}

/// Nothing where the pattern does not go with how the set lies.
fn in_pattern(out: &mut String, sheet: &Sheet<'_>, set: &Set<'_>, pattern: &Pattern) {
    let layout = set.part.layout.map(|layout| layout.value);
    let Some(mut order) = pattern::order(pattern, layout, set.count) else { return };
    let own = matches!(pattern, Pattern::Order(_));
    // What was tightened last is loosened first; an author's own order is meant as it stands.
    if set.loosened && matches!(pattern, Pattern::Crosswise | Pattern::Clockwise) {
        order.reverse();
    }
    let layout = layout.unwrap_or(Layout::Circle);
    let Some(places) = pattern::places(layout, set.count) else { return };
    figure(out, sheet, set, &order, own);
    drawing(out, sheet, &Drawing { places: &places, order: &order, numbered: own, layout });
    out.push_str("</figure>");
}

/// Opens the figure and says what it shows.
fn figure(out: &mut String, sheet: &Sheet<'_>, set: &Set<'_>, order: &[u32], own: bool) {
    out.push_str("<figure class=\"order\"><figcaption>");
    let key = match (own, set.loosened) {
        (true, true) => "own-order-of-loosening",
        (true, false) => "own-order-of-tightening",
        (false, true) => "order-of-loosening",
        (false, false) => "order-of-tightening",
    };
    let noun = &set.part.thing.noun;
    let name = if order.len() > 1 { &noun.plural } else { &noun.singular };
    let parts = html::sentence_case(name);
    html::escape(out, &sheet.say(key, &[("parts", parts.into())]));
    out.push_str("</figcaption>");
}

struct Drawing<'a> {
    places: &'a [Place],
    order: &'a [u32],
    /// Each has its own number beside it.
    numbered: bool,
    layout: Layout,
}

impl Drawing<'_> {
    /// From one fastener to its neighbour.
    fn step(&self) -> f64 {
        if self.numbered { 56.0 } else { 40.0 }
    }

    /// From the middle of the drawing to its edge.
    fn reach(&self, of: fn(&Place) -> f64) -> f64 {
        let from_middle = |place: &Place| match self.layout {
            Layout::Circle => place.x.hypot(place.y),
            _ => of(place).abs(),
        };
        let outermost = self.places.iter().map(from_middle).fold(0.0, f64::max);
        outermost * self.step() + if self.numbered { 38.0 } else { 26.0 }
    }

    /// Where the number of a fastener stands: outside a circle of them, above one in a row.
    fn beside(&self, x: f64, y: f64) -> (f64, f64) {
        let out = x.hypot(y);
        if self.layout == Layout::Circle && out > 0.0 {
            let further = 1.0 + BESIDE / out;
            return (tenth(x * further), tenth(y * further));
        }
        (x, tenth(y - BESIDE))
    }
}

/// Rounded here, so that nothing is printed as "-0.0".
fn tenth(value: f64) -> f64 {
    (value * 10.0).round() / 10.0 + 0.0
}

fn drawing(out: &mut String, sheet: &Sheet<'_>, it: &Drawing<'_>) {
    let (across, down) = (it.reach(|place| place.x), it.reach(|place| place.y));
    let (width, height) = (2.0 * across, 2.0 * down);
    let parts = [
        ("<svg class=\"pattern\" role=\"img\" viewBox=\"", -across),
        (" ", -down),
        (" ", width),
        (" ", height),
        ("\" width=\"", width),
        ("\" height=\"", height),
    ];
    numbers(out, &parts, "\">");
    title(out, sheet, it);
    outline(out, it, across - 3.0, down - 3.0);
    for (turn, number) in (1..).zip(it.order) {
        if let Some(place) = it.places.get((*number as usize).saturating_sub(1)) {
            fastener(out, it, place, (turn, *number));
        }
    }
    out.push_str("</svg>");
}

/// For those who hear the page: where each is and when its turn comes.
fn title(out: &mut String, sheet: &Sheet<'_>, it: &Drawing<'_>) {
    let counted = match it.layout {
        Layout::Circle => "counted-on-circle",
        Layout::Line => "counted-in-line",
        Layout::Rows(_) | Layout::Rectangle { .. } => "counted-in-rows",
    };
    let order: Vec<String> = it.order.iter().map(u32::to_string).collect();
    let words = sheet.say(counted, &[("order", order.join(" ").into())]);
    html::element(out, "title", "", &words);
}

/// The flange or the cover they hold.
fn outline(out: &mut String, it: &Drawing<'_>, across: f64, down: f64) {
    if it.layout == Layout::Circle {
        return numbers(out, &[("<circle class=\"edge\" r=\"", across)], "\"/>");
    }
    let parts = [
        ("<rect class=\"edge\" x=\"", -across),
        ("\" y=\"", -down),
        ("\" width=\"", 2.0 * across),
        ("\" height=\"", 2.0 * down),
    ];
    numbers(out, &parts, "\" rx=\"14\"/>");
}

/// Each number behind its words, without figures after the point.
fn numbers(out: &mut String, parts: &[(&str, f64)], end: &str) {
    for (words, value) in parts {
        out.push_str(words);
        let whole = value.round_ties_even() as i32;
        if whole < 0 {
            out.push('-');
        }
        html::number(out, whole.unsigned_abs());
    }
    out.push_str(end);
}

/// A fastener with its turn, and its own number where that is another; the first stands out, so that the eye finds
/// where to start.
fn fastener(out: &mut String, it: &Drawing<'_>, place: &Place, (turn, number): (u32, u32)) {
    let (x, y) = (tenth(place.x * it.step()), tenth(place.y * it.step()));
    let class = if turn == 1 { "first" } else { "next" };
    out.push_str("<g class=\"");
    out.push_str(class);
    out.push_str("\"><circle cx=\"");
    coordinate(out, x);
    out.push_str("\" cy=\"");
    coordinate(out, y);
    out.push_str(ROUND);
    text_at(out, "<text x=\"", (x, y), turn);
    out.push_str("</g>");
    if it.numbered {
        text_at(out, "<text class=\"own\" x=\"", it.beside(x, y), number);
    }
}

fn text_at(out: &mut String, opening: &str, (x, y): (f64, f64), number: u32) {
    out.push_str(opening);
    coordinate(out, x);
    out.push_str("\" y=\"");
    coordinate(out, y);
    out.push_str("\">");
    html::number(out, number);
    out.push_str("</text>");
}

/// With one figure after the point. Drawings are mostly numbers, and those of the standard library print any number.
fn coordinate(out: &mut String, value: f64) {
    let tenths = (value * 10.0).round() as i32;
    if tenths < 0 {
        out.push('-');
    }
    html::number(out, tenths.unsigned_abs() / 10);
    out.push('.');
    html::number(out, tenths.unsigned_abs() % 10);
}
