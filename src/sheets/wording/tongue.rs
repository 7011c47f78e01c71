//! The words and small grammar of generated sentences: one table a language. Verbs have theirs beside it.
use super::{english, french, german, spanish};
use crate::model::Language;
use crate::model::declarations::Condition;
use crate::model::quantity::Figures;
use crate::model::torque::{AlignWay, Feel};

/// Words before something and words after it; a language that needs one of the two leaves the other empty.
pub(super) type Around = [&'static str; 2];

/// What a language says between the author's words. Blanks at the ends belong to the words.
#[derive(Debug)]
pub(super) struct Tongue {
    pub language: Language,
    pub figures: Figures,
    /// Names take "the" where they are known. The other languages' articles have genders that no source states.
    pub articles: bool,
    /// A sentence may start with a name, whose first letter is as its author wrote it: only a letter that was made
    /// large is made small again after a colon.
    pub starts_with_names: bool,
    /// How tight, in which order and on what thread stand between commas.
    pub sets_off_tightening: bool,

    pub and: &'static str,
    pub or: &'static str,
    pub colon: &'static str,
    pub quotes: Around,
    pub with: &'static str,
    pub by: &'static str,
    /// Before the second of two values: "to 9 N·m", "to the wrench".
    pub to: &'static str,
    pub of: &'static str,
    pub on: &'static str,
    pub during: &'static str,
    pub until: &'static str,
    /// "for 10 min".
    pub lasting: Around,
    /// The rounds of a repeat.
    pub for_each: &'static str,
    pub count: Counts,
    /// Round what is new.
    pub new: Around,
    /// Prepositions of the source, with their words here; the second column before a quantity.
    pub places: &'static [(&'static str, &'static str, &'static str)],

    pub step: &'static str,
    pub steps: &'static str,
    pub steps_to: &'static str,
    pub marks_of: &'static str,
    /// "once", and what follows a larger number.
    pub once: &'static str,
    pub times: &'static str,
    pub at_most: &'static str,

    pub limit: &'static str,
    pub limits: &'static str,
    pub none_allowed: &'static str,
    pub make_sure_that: &'static str,

    pub tightening: Tightening,
    pub control: Control,
    pub outcomes: Outcomes,
}

/// How many of a thing: the words before its noun.
#[derive(Debug)]
pub(super) struct Counts {
    pub one: &'static str,
    pub each: &'static str,
    pub all: Around,
    /// Between "2" and "4", and behind.
    pub part: Around,
}

#[derive(Debug)]
pub(super) struct Tightening {
    pub in_stages: Around,
    pub each_to_its_own: &'static str,
    pub plus_drag: &'static str,
    pub if_new: &'static str,
    pub if_reused: &'static str,
    pub crosswise: &'static str,
    pub clockwise: &'static str,
    pub from_centre: &'static str,
    pub from_ends: &'static str,
    pub in_order: &'static str,
    pub not_specified: &'static str,
    /// Finger tight, hand tight, snug: as the end of "tighten".
    pub feels: [&'static str; 3],
    /// The same as the end of "loosen to".
    pub loosened_feels: [&'static str; 3],
    /// Dry, oiled, plated.
    pub threads: [&'static str; 3],
    pub then_turn: Around,
    pub tighten: &'static str,
    pub tighten_to: &'static str,
    pub of_the_torque: &'static str,
    pub loosen_to: &'static str,
    pub back_off: &'static str,
    pub turn: Around,
    pub stretch: &'static str,
    pub wrench_at: &'static str,
    pub except: &'static str,
    pub hold: &'static str,
    pub straight_on: &'static str,
    pub turned_back: &'static str,
    pub at_an_angle: Around,
    pub set_wrench: &'static str,
    /// Before the value, of one and of many.
    pub must_not_turn: [&'static str; 2],
    pub line_up: &'static str,
    /// What to do where it does not line up: by tightening, by loosening, either way, unsaid.
    pub not_lined_up: [&'static str; 4],
    pub never_moved: &'static str,
    pub not_above: &'static str,
}

#[derive(Debug)]
pub(super) struct Control {
    pub hold: Around,
    pub report: Around,
    pub stop: &'static str,
    pub wait: &'static str,
    pub wait_for: &'static str,
    pub do_it: &'static str,
    pub follow: &'static str,
    pub go_to: &'static str,
    pub work_out: &'static str,
    pub comes_to: &'static str,
    pub must_be: &'static str,
    pub repeat: &'static str,
    pub repeat_from: &'static str,
    pub earlier_step: &'static str,
}

#[derive(Debug)]
pub(super) struct Outcomes {
    pub if_so: &'static str,
    pub otherwise: &'static str,
    /// Behind "if": below, above, outside, not in order, impossible, anything else.
    pub below: &'static str,
    pub above: &'static str,
    pub outside: &'static str,
    pub not_ok: &'static str,
    pub impossible: &'static str,
    pub anything_else: &'static str,
    pub in_place_of: &'static str,
    pub in_round: &'static str,
    pub only_if: &'static str,
    pub only: Around,
    pub fitted: &'static str,
    pub serial: &'static str,
    /// Round the step that is asked about.
    pub failed: Around,
    pub was_ok: Around,
    pub was_below: Around,
    pub was_above: Around,
    pub was_outside: Around,
    pub showed: Around,
}

impl Tongue {
    pub(super) fn of(language: Language) -> &'static Tongue {
        match language {
            Language::English => &english::ENGLISH,
            Language::German => &german::GERMAN,
            Language::Spanish => &spanish::SPANISH,
            Language::French => &french::FRENCH,
        }
    }

    /// A preposition of the source in this language; before a quantity it may be another.
    pub(super) fn place<'t>(&'t self, written: &'t str, amount: bool) -> &'t str {
        let row = self.places.iter().find(|(word, ..)| *word == written);
        row.map_or(written, |(_, thing, quantity)| if amount { quantity } else { thing })
    }

    pub(super) fn step(&self, number: u32) -> String {
        format!("{}{number}", self.step)
    }

    pub(super) fn steps(&self, from: u32, to: u32) -> String {
        format!("{}{from}{}{to}", self.steps, self.steps_to)
    }

    pub(super) fn times(&self, count: u32, at_most: bool) -> String {
        let at_most = if at_most { self.at_most } else { "" };
        if count == 1 { format!("{at_most}{}", self.once) } else { format!("{at_most}{count}{}", self.times) }
    }

    pub(super) fn feel(&self, feel: Feel) -> &'static str {
        of_feel(self.tightening.feels, feel)
    }

    pub(super) fn loosened_feel(&self, feel: Feel) -> &'static str {
        of_feel(self.tightening.loosened_feels, feel)
    }

    pub(super) fn threads(&self, condition: Condition) -> &'static str {
        let [dry, oiled, plated] = self.tightening.threads;
        match condition {
            Condition::Dry => dry,
            Condition::Oiled => oiled,
            Condition::Plated => plated,
        }
    }

    /// What to do where a feature does not line up.
    pub(super) fn align(&self, way: AlignWay) -> &'static str {
        let [tightening, loosening, either, unsaid] = self.tightening.not_lined_up;
        match way {
            AlignWay::Tightening => tightening,
            AlignWay::Loosening => loosening,
            AlignWay::Either => either,
            AlignWay::Unsaid => unsaid,
            AlignWay::NeverMoved => self.tightening.never_moved,
        }
    }

    /// Which state of an earlier finding a step hangs on: the words before the step and those after it.
    pub(super) fn state(&self, state: &str) -> (&'static str, String) {
        let it = &self.outcomes;
        let [before, after] = match state {
            "failed" => it.failed,
            "ok" => it.was_ok,
            "below" => it.was_below,
            "above" => it.was_above,
            "outside" => it.was_outside,
            other => {
                let [open, close] = self.quotes;
                let [before, after] = it.showed;
                return (before, format!("{after}{open}{other}{close}"));
            }
        };
        (before, after.to_owned())
    }

    /// A document outside the workspace, by its title.
    pub(super) fn quoted(&self, title: &str) -> String {
        let [open, close] = self.quotes;
        format!("{open}{title}{close}")
    }
}

fn of_feel(words: [&'static str; 3], feel: Feel) -> &'static str {
    let [finger, hand, snug] = words;
    match feel {
        Feel::FingerTight => finger,
        Feel::HandTight => hand,
        Feel::Snug => snug,
    }
}
