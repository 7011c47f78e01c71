//! The English words and small grammar of generated sentences; verbs have theirs in the verb table.
use super::sentence::{Line, capital};
use crate::model::declarations::Condition;
use crate::model::torque::Feel;

pub(super) const AND: &str = " and ";
pub(super) const OR: &str = " or ";
pub(super) const COMMA: &str = ", ";
pub(super) const COLON: &str = ": ";
pub(super) const WITH: &str = " with ";
pub(super) const BY: &str = " by ";
pub(super) const FOR: &str = " for ";
pub(super) const TO: &str = " to ";
pub(super) const OF: &str = " of ";
pub(super) const ON: &str = " on ";
pub(super) const WHILE: &str = " while ";
pub(super) const UNTIL: &str = " until ";

pub(super) const LIMIT: &str = "Limit: ";
pub(super) const LIMITS: &str = "Limits: ";
pub(super) const NONE_ALLOWED: &str = "None is allowed.";

pub(super) const PLUS_DRAG: &str = " plus the drag torque";
pub(super) const IF_NEW: &str = " if new";
pub(super) const IF_REUSED: &str = " if reused";
pub(super) const CROSSWISE: &str = "crosswise";
pub(super) const CLOCKWISE: &str = "clockwise, one after the other";
pub(super) const FROM_CENTRE: &str = "from the centre outwards";
pub(super) const FROM_ENDS: &str = "from the ends to the centre";
pub(super) const IN_ORDER: &str = "in the order ";
pub(super) const NO_TORQUE: &str = "No torque is specified.";
pub(super) const NEVER_MOVED: &str = "Do not turn further to line up.";
pub(super) const NOT_ABOVE: &str = ", but not above ";
pub(super) const PASS_TIGHTEN_TO: &str = "Tighten to ";
pub(super) const PASS_OF_TORQUE: &str = " of the torque";
pub(super) const PASS_LOOSEN_TO: &str = "Loosen to ";
pub(super) const PASS_BACK_OFF: &str = "Back off ";
pub(super) const PASS_TURN: &str = "Turn ";
pub(super) const FURTHER: &str = " further";
pub(super) const THEN_TURN: &str = ", then turn ";
pub(super) const PASS_STRETCH: &str = "Tighten until the stretch is ";
pub(super) const PASS_TIGHTEN: &str = "Tighten ";
pub(super) const EACH_TO_ITS_OWN: &str = "each to its own torque";
pub(super) const WRENCH_AT: &str = ", the wrench set to ";
pub(super) const HOLD: &str = "Hold ";
pub(super) const STRAIGHT_ON: &str = " straight on, in line with ";
pub(super) const TURNED_BACK: &str = " turned back along ";
pub(super) const AT_AN_ANGLE: &str = " at ";
pub(super) const SET_WRENCH: &str = "Set the wrench";
pub(super) const EXCEPT: &str = ", but ";

pub(super) const STOP: &str = "Stop";
pub(super) const WAIT: &str = "Wait";
pub(super) const DO: &str = "Do ";
pub(super) const FOLLOW: &str = "Follow ";
pub(super) const GO_TO: &str = "Go to ";
pub(super) const WORK_OUT: &str = "Work out the ";
pub(super) const MUST_BE: &str = "It must be ";
pub(super) const REPEAT: &str = "Repeat ";
pub(super) const REPEAT_FROM: &str = "Repeat from ";
pub(super) const IN_PLACE_OF: &str = "In place of ";
pub(super) const FOR_EACH: &str = "For ";
pub(super) const EARLIER_STEP: &str = "the earlier step";

pub(super) const IF: &str = "If ";
pub(super) const OTHERWISE: &str = "Otherwise: ";
pub(super) const BELOW: &str = "below the limit";
pub(super) const ABOVE: &str = "above the limit";
pub(super) const OUTSIDE: &str = "outside the limits";
pub(super) const NOT_OK: &str = "not OK";
pub(super) const IMPOSSIBLE: &str = "this cannot be done";
pub(super) const OTHERWISE_FOUND: &str = "anything else";
pub(super) const ONLY_IF: &str = "Only if ";
pub(super) const ONLY: &str = " only";
pub(super) const FITTED: &str = "fitted";

/// How many of a thing, and which.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Count {
    One,
    /// One with a name of its own.
    Proper,
    Each,
    /// All of several.
    All(u32),
    Part {
        of: u32,
        taken: u32,
    },
    /// What is not counted, and so many of what has no stated number.
    Mass,
    Loose(u32),
}

/// The words before a noun, with the blank after them.
pub(super) fn determiner(line: &mut Line, count: Count, new: bool) {
    match count {
        Count::Proper if !new => {}
        Count::One | Count::Proper => line.text("the "),
        Count::Each => line.text("each "),
        Count::All(all) => line.text(&format!("the {all} ")),
        Count::Part { of, taken } => line.text(&format!("{taken} of the {of} ")),
        Count::Mass => {}
        Count::Loose(count) => line.text(&format!("{count} ")),
    }
    line.text(if new { "new " } else { "" });
}

/// Whether the words end so that a noun after them needs no article.
pub(super) fn ends_in_determiner(words: &str) -> bool {
    const DETERMINERS: [&str; 20] = [
        "the", "a", "an", "each", "every", "this", "that", "these", "those", "both", "any", "no", "new",
        "old", "other", "another", "its", "their", "same", "one",
    ];
    let last = words.rsplit(|c: char| !c.is_alphanumeric()).find(|word| !word.is_empty()).unwrap_or("");
    words.ends_with(' ') && DETERMINERS.contains(&last.to_lowercase().as_str())
}

pub(super) fn step(number: u32) -> String {
    format!("step {number}")
}

pub(super) fn steps(from: u32, to: u32) -> String {
    format!("steps {from} to {to}")
}

/// Where marks are that an earlier step made; the step follows.
pub(super) const MARKS_OF: &str = "the marks of ";

/// What must hold before going on: words after "until". One word alone is a state of the objects.
pub(super) fn until(words: &str, many: bool) -> String {
    if words.contains(' ') {
        words.to_owned()
    } else if many {
        format!("they are {words}")
    } else {
        format!("it is {words}")
    }
}

pub(super) fn times(count: u32, at_most: bool) -> String {
    let at_most = if at_most { "at most " } else { "" };
    if count == 1 { format!("{at_most}once") } else { format!("{at_most}{count} times") }
}

pub(super) fn in_stages(count: usize) -> String {
    format!("in {count} stages")
}

pub(super) fn feel(feel: Feel) -> &'static str {
    match feel {
        Feel::FingerTight => "finger tight",
        Feel::HandTight => "hand tight",
        Feel::Snug => "until snug",
    }
}

/// As the end of "loosen to …".
pub(super) fn loosened_feel(feel: Feel) -> &'static str {
    match feel {
        Feel::FingerTight => "finger tight",
        Feel::HandTight => "hand tight",
        Feel::Snug => "snug",
    }
}

pub(super) fn threads(condition: Condition) -> &'static str {
    match condition {
        Condition::Dry => "threads dry",
        Condition::Oiled => "threads oiled",
        Condition::Plated => "threads plated",
    }
}

pub(super) fn check_torque(many: bool) -> &'static str {
    if many { "They must not turn below " } else { "It must not turn below " }
}

/// "If the slot does not line up, tighten it further until it does": before the feature, and after it.
pub(super) fn align(way: crate::model::torque::AlignWay) -> (&'static str, &'static str) {
    use crate::model::torque::AlignWay;
    let then = match way {
        AlignWay::Tightening => " does not line up, tighten further until it does",
        AlignWay::Loosening => " does not line up, loosen until it does",
        AlignWay::Either => " does not line up, tighten or loosen until it does",
        AlignWay::Unsaid => " does not line up, ask before the nut is turned",
        AlignWay::NeverMoved => " does not line up, do not turn further",
    };
    ("If the ", then)
}

/// A text that an action is to make sure of, as an order.
pub(super) fn claim(words: &str) -> String {
    const ORDERS: [&str; 8] =
        ["make sure", "check ", "verify ", "see that", "see to it", "ensure ", "confirm ", "look "];
    let lower = words.to_lowercase();
    if ORDERS.iter().any(|order| lower.starts_with(order)) {
        words.to_owned()
    } else {
        format!("make sure that {words}")
    }
}

/// A mark's own words without the "with" that led them.
pub(super) fn without_with(words: &str) -> &str {
    words.strip_prefix("with ").unwrap_or(words)
}

const PREPOSITIONS: [&str; 27] = [
    "on", "in", "at", "under", "over", "for", "with", "without", "by", "between", "beside", "behind", "from",
    "to", "into", "onto", "above", "below", "along", "around", "round", "through", "against", "across",
    "near", "after", "before",
];

/// Whether words go on from their object without a colon: "on a live socket".
pub(super) fn leads_on(words: &str) -> bool {
    words.split(' ').next().is_some_and(|first| PREPOSITIONS.contains(&first))
}

/// How what is read joins the thing it is read off.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Reading<'a> {
    /// "the run-out" *of the shaft* "beside the seal".
    Of { head: &'a str, tail: &'a str },
    /// "the length of the carbon" *on each brush*.
    On(&'a str),
}

/// Cuts "surface temperature beside the valve" where the object belongs.
pub(super) fn reading(what: &str) -> Reading<'_> {
    let mut at = 0;
    for word in what.split(' ') {
        if word == "of" {
            return Reading::On(what);
        }
        if at > 0 && PREPOSITIONS.contains(&word) {
            return Reading::Of {
                head: what.get(..at - 1).unwrap_or(what),
                tail: what.get(at..).unwrap_or(""),
            };
        }
        at += word.len();
        if word.ends_with(',') {
            let head = what.get(..at - 1).unwrap_or(what);
            return Reading::Of { head, tail: what.get(at - 1..).unwrap_or("") };
        }
        at += 1;
    }
    Reading::Of { head: what, tail: "" }
}

/// "the " where a text has no article of its own.
pub(super) fn article_for(words: &str) -> &'static str {
    const HAS_ONE: [&str; 11] =
        ["the", "a", "an", "each", "every", "its", "their", "all", "both", "whether", "how"];
    let first = words.split(' ').next().unwrap_or("").to_lowercase();
    if HAS_ONE.contains(&first.as_str()) { "" } else { "the " }
}

/// Whether the phrase after such a tail needs a comma before it.
pub(super) fn tail_wants_comma(tail: &str) -> bool {
    tail.contains(',') || tail.split(' ').any(|word| word == "with")
}

/// Before the words that are signed.
pub(super) fn hold(role: &str) -> String {
    format!("Do not go on until the {role} has signed")
}

pub(super) fn report(role: &str) -> String {
    format!("Tell the {role}")
}

/// A document outside the workspace, by its title.
pub(super) fn quoted(title: &str) -> String {
    format!("“{title}”")
}

/// A name of the source as words.
pub(super) fn words_of(name: &str) -> String {
    name.replace('-', " ")
}

/// A place or side that a repeat goes to: "the rear left", "cylinder 2".
pub(super) fn instance(name: &str) -> String {
    let words = words_of(name);
    let article = if words.ends_with(|c: char| c.is_ascii_digit()) { "" } else { article_for(&words) };
    format!("{article}{words}")
}

/// Which state of an earlier finding a step hangs on: the words before the step and those after it.
pub(super) fn state(state: &str) -> (&'static str, String) {
    match state {
        "failed" => ("", " failed".to_owned()),
        "ok" => ("", " was OK".to_owned()),
        "below" => ("the reading of ", " was below the limit".to_owned()),
        "above" => ("the reading of ", " was above the limit".to_owned()),
        "outside" => ("the reading of ", " was outside the limits".to_owned()),
        other => ("", format!(" showed “{other}”")),
    }
}

pub(super) fn serials(words: &str) -> String {
    format!("serial {words}")
}

/// The gerund of "while turning hub" goes on with an object; anything else is a clause as it stands.
pub(super) fn is_gerund(word: &str) -> bool {
    word.ends_with("ing") && word.len() > 4
}

/// The question of a choice.
pub(super) fn choose(question: &str) -> String {
    capital(question)
}
