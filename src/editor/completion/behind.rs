//! What can stand behind the words of a half-written line.
use super::{OfferSort, Offers};
use crate::checks;
use crate::editor::hover;
use crate::editor::marks::{Kind, Sort};
use crate::model::ghs;
use crate::model::hazard::{Hazard, Wear};
use crate::model::quantity::Dimension;
use crate::model::verb::{Effect, Quantities, Verb};
use crate::syntax::words::{self, AttributeForm, AttributeKey, Owner};
use std::collections::BTreeSet;

const PREPOSITIONS: [&str; 16] = [
    "with", "using", "on", "onto", "in", "into", "to", "from", "at", "off", "out of", "against", "until",
    "for", "facing", "as",
];
const FEELS: [&str; 10] = [
    "crosswise",
    "clockwise",
    "from centre",
    "from ends",
    "dry",
    "oiled",
    "plated",
    "snug",
    "hand tight",
    "finger tight",
];

impl Offers<'_> {
    /// An action of a step: its verb, then what its last leading word asks for.
    pub(super) fn action(&mut self) {
        let before = self.spot.before;
        let Some((verb, rest)) = split_verb(before) else { return self.first_word() };
        // `back o` may become `back off`.
        if !before.trim_start().contains([',', '"'])
            && Verb::words().any(|word| word.starts_with(before) && word != before)
        {
            self.first_word();
        }
        if self.unit(rest, dimensions_of(verb)) {
            return;
        }
        let start = self.word_start();
        match leading(rest, verb) {
            "follow" => self.numbers(),
            "until" | "while" => self.names(start, 1),
            "skip" | "repeat" => self.labels(start),
            "hold" | "report" => self.roles(start),
            "as" | "facing" | "choose" => {}
            "by" if verb == "tighten" => self.known_by(start, |sort| (sort == Sort::Torque).then_some(0)),
            "with" => self.known_by(start, |sort| match sort {
                Sort::Tool => Some(0),
                Sort::Supply | Sort::Part | Sort::Piece => Some(2),
                _ => None,
            }),
            "using" => self.known_by(start, |sort| match sort {
                Sort::Supply => Some(0),
                Sort::Tool => Some(2),
                _ => None,
            }),
            "" => {
                self.objects(start, verb);
                self.keywords(3, &["new", "each"]);
                self.keywords(4, &PREPOSITIONS);
                if Verb::find(verb).is_some_and(Verb::tightens) {
                    self.keywords(4, &FEELS);
                }
            }
            _ => {
                self.objects(start, verb);
                self.keywords(4, &PREPOSITIONS);
            }
        }
    }

    /// Who signs or is told elsewhere in the file.
    fn roles(&mut self, start: usize) {
        let roles = self.shop.marks(self.page).iter().filter(|mark| mark.kind == Kind::Role);
        let roles: BTreeSet<&str> = roles
            .filter(|mark| (mark.span.end as usize) < start || start < mark.span.start as usize)
            .map(|mark| self.page.source.slice(mark.span))
            .collect();
        for role in roles {
            self.offer(start, 0, OfferSort::Name, role, "who signs or is told", String::new());
        }
    }

    /// Parts first; of a verb that puts an aid somewhere, tools too.
    fn objects(&mut self, start: usize, verb: &str) {
        let aids = Verb::find(verb).is_some_and(|it| it.does(Effect::Inserts) || it.does(Effect::Withdraws));
        self.known_by(start, |sort| match sort {
            Sort::Part | Sort::Piece => Some(0),
            Sort::Tool => Some(if aids { 0 } else { 2 }),
            Sort::Supply => Some(1),
            _ => None,
        });
    }

    fn known_by(&mut self, start: usize, rank: impl Fn(Sort) -> Option<u8>) {
        let offers = self.known.offers(start, rank);
        self.found.extend(offers);
    }

    /// Everything that `[name]` or plain words may refer to.
    pub(super) fn names(&mut self, start: usize, rank: u8) {
        self.known_by(start, |sort| (sort != Sort::Message).then_some(rank));
    }

    fn labels(&mut self, start: usize) {
        self.known_by(start, |sort| (sort == Sort::Label).then_some(0));
        self.keywords(3, &["from", "to", "until", "for", "at most"]);
    }

    /// Behind the signal word: a class or a standing message, then what the message is for.
    pub(super) fn message(&mut self) {
        let before = self.spot.before;
        let start = self.word_start();
        match before.rsplit_once(' ').map(|(words, _)| words.trim_end()) {
            None => {
                for hazard in Hazard::all() {
                    let about = format!("**{}** — {}", hazard.title, hazard.about);
                    self.offer(start, 1, OfferSort::Hazard, &hazard.name, &hazard.about, about);
                }
                self.known_by(start, |sort| (sort == Sort::Message).then_some(0));
            }
            Some(words) if words.ends_with("until") => {
                self.known_by(start, |sort| (sort == Sort::Label).then_some(0));
            }
            Some(words) if words.ends_with("for") => self.keywords(0, &["section", "next 2 steps"]),
            Some(_) => self.keywords(0, &["for", "until", "as"]),
        }
    }

    /// Behind the name of a declared thing.
    pub(super) fn declaration(&mut self, block: &str) {
        let before = self.spot.before;
        // The name itself is the author's to find.
        if !before.contains([' ', '\t']) {
            return;
        }
        let owner = match block {
            "parts" => Owner::Part,
            "tools" => Owner::Tool,
            "supplies" => Owner::Supply,
            "figures" => Owner::Figure,
            _ => {
                if !self.unit(before, &[Dimension::Torque]) {
                    self.keywords(1, &FEELS);
                }
                return;
            }
        };
        let outside = before.rsplit('"').next().unwrap_or(before);
        let (key, rest) = attribute_before(outside, owner);
        let dimensions = key.map_or(&[] as &[Dimension], dimensions_of_attribute);
        if self.unit(rest, dimensions) {
            return;
        }
        let start = self.word_start();
        let behind_comma = rest.trim_end().is_empty() || rest.trim_end().ends_with(',');
        if let Some(key) = key.filter(|_| outside.trim_end() != outside || !rest.is_empty()) {
            self.attribute_value(key, start);
        }
        if key.is_none() || behind_comma || key.is_some_and(|key| key.form == AttributeForm::Flag) {
            self.attributes(owner, start);
        }
    }

    fn attributes(&mut self, owner: Owner, start: usize) {
        let mut keys: Vec<&AttributeKey> =
            words::attributes().filter(|key| key.on.contains(&owner)).collect();
        keys.sort_by_key(|key| &key.key);
        for key in keys {
            self.offer(start, 1, OfferSort::Attribute, &key.key, &key.about, hover::attribute(key));
        }
    }

    fn attribute_value(&mut self, key: &AttributeKey, start: usize) {
        match key.form {
            AttributeForm::Name | AttributeForm::Names | AttributeForm::NamesBy => {
                self.known_by(start, |sort| matches!(sort, Sort::Part | Sort::Piece).then_some(0));
            }
            AttributeForm::Callout => self.known_by(start, |sort| (sort == Sort::Figure).then_some(0)),
            AttributeForm::Torque => {
                self.known_by(start, |sort| (sort == Sort::Torque).then_some(0));
                self.keywords(1, &FEELS);
            }
            AttributeForm::Words if key.key == "models" => self.models(start),
            AttributeForm::Words if key.key == "hazards" => {
                ghs::codes().for_each(|code| {
                    self.offer(start, 0, OfferSort::Code, code, "GHS hazard code", String::new())
                });
            }
            AttributeForm::Words => self.keywords(0, &["clean", "dry"]),
            AttributeForm::Fitted => self.keywords(0, &["fitted"]),
            AttributeForm::Off => self.keywords(0, &["off"]),
            AttributeForm::Layout => self.keywords(0, &["circle", "line", "2 rows", "rectangle 4 by 3"]),
            _ => {}
        }
    }

    fn models(&mut self, start: usize) {
        let models = self.page.document.procedure().and_then(|procedure| procedure.header.models.clone());
        for model in models.into_iter().flatten() {
            self.offer(start, 0, OfferSort::Name, model.as_str(), "model", String::new());
        }
    }

    /// Behind the colon of a detail.
    pub(super) fn value(&mut self, key: &str) {
        let before = self.spot.before;
        if before.rfind('[').is_some_and(|at| !before.get(at..).unwrap_or("").contains([']', ' '])) {
            let start = self.word_start();
            return self.names(start, 0);
        }
        let start = self.word_start();
        match key {
            "requires" | "afterwards" => {
                self.numbers();
                self.keywords(1, &["none"]);
            }
            "wear" => {
                let start = self.spot.start
                    + before.rfind(',').map_or(0, |at| {
                        let rest = before.get(at + 1..).unwrap_or("");
                        at + 1 + rest.len() - rest.trim_start().len()
                    });
                for wear in Wear::all() {
                    self.offer(start, 0, OfferSort::Wear, &wear.name, &wear.order, wear.order.clone());
                }
            }
            "figure" => self.known_by(start, |sort| (sort == Sort::Figure).then_some(0)),
            "only" => {
                self.models(start);
                self.known_by(start, |sort| (sort == Sort::Label).then_some(0));
                self.keywords(1, &["failed", "ok", "below", "above", "serial", "if fitted"]);
            }
            "waive" => {
                for rule in checks::RULES.iter().filter(|rule| rule.waivable) {
                    let about = hover::rule(rule.id).unwrap_or_default();
                    self.offer(start, 0, OfferSort::Rule, rule.id, rule.summary, about);
                }
            }
            "time" => {
                self.unit(before, &[Dimension::Time]);
            }
            "stage" if !self.unit(before, &[Dimension::Torque, Dimension::Angle]) => {
                self.keywords(1, &FEELS);
                self.keywords(1, &["loosen to", "back off", "while"]);
            }
            _ => {}
        }
    }

    /// Numbers of procedures, with their titles.
    fn numbers(&mut self) {
        let Some(workspace) = self.known.shop().workspace() else { return };
        let start = self.word_start();
        let own = self.page.document.procedure().map(|it| it.number.value.to_string());
        let mut numbers: Vec<&str> = workspace.register.numbers().collect();
        numbers.sort_unstable();
        for number in numbers.into_iter().filter(|number| own.as_deref() != Some(*number)) {
            let title = workspace.register.find(number).first().map_or("", |entry| entry.title.as_str());
            self.offer(start, 0, OfferSort::Number, number, title, String::new());
        }
    }

    /// Units, where a number stands before the cursor; the likely dimensions first. Whether there is one.
    fn unit(&mut self, before: &str, likely: &[Dimension]) -> bool {
        let unit =
            |letter: char| letter.is_alphabetic() || matches!(letter, '.' | '·' | '°' | '%' | '-' | '/');
        let number = before.trim_end_matches(unit);
        let typed = before.len() - number.len();
        let digits = number.trim_end_matches(' ');
        let is_number = digits.ends_with(|last: char| last.is_ascii_digit())
            && digits.rsplit([' ', ',', '±', '(']).next().is_some_and(|word| {
                word.bytes().all(|byte| byte.is_ascii_digit() || matches!(byte, b'.' | b'/' | b'-' | b'+'))
            });
        if !is_number || (digits.len() == number.len() && typed == 0) {
            return false;
        }
        let start = self.spot.start + self.spot.before.len() - typed;
        for dimension in Dimension::ALL {
            let rank = if likely.contains(&dimension) { 0 } else { 2 };
            for unit in dimension.units() {
                self.offer(
                    start,
                    rank,
                    OfferSort::Unit,
                    unit.source,
                    dimension.name(),
                    unit.symbol.to_owned(),
                );
            }
        }
        self.keywords(3, &["to", "times", "of"]);
        true
    }
}

/// The verb of an action and what stands behind it; none while the first word is written.
fn split_verb(before: &str) -> Option<(&str, &str)> {
    let (first, rest) = before.split_once(' ')?;
    let particle = rest.split_once(' ').and_then(|(second, behind)| {
        let both = before.get(..first.len() + 1 + second.len())?;
        Verb::find(both).map(|_| (both, behind))
    });
    Some(particle.unwrap_or((first, rest)))
}

/// The last word that leads a phrase and has something behind it still to come.
fn leading<'t>(rest: &'t str, verb: &'t str) -> &'t str {
    let outside: Vec<&str> = rest.split('"').step_by(2).collect();
    let last = outside.last().copied().unwrap_or("");
    let words: Vec<&str> = last.split([' ', ',']).collect();
    let (_, done) = words.split_last().unwrap_or((&"", &[]));
    let found =
        done.iter().rev().find(|word| PREPOSITIONS.contains(word) || matches!(**word, "by" | "while" | "of"));
    match (found, verb) {
        (Some(&"from" | &"to" | &"until"), "repeat" | "skip") | (None, "repeat" | "skip") => verb,
        (None, "follow" | "hold" | "report" | "choose") => verb,
        (Some(word), _) => word,
        (None, _) => "",
    }
}

fn dimensions_of(verb: &str) -> &'static [Dimension] {
    match Verb::find(verb).map(|verb| verb.quantity) {
        Some(Quantities::Torque) => &[Dimension::Torque, Dimension::Angle],
        Some(Quantities::Limit) => {
            &[Dimension::Length, Dimension::Pressure, Dimension::Voltage, Dimension::Mass]
        }
        _ if verb == "wait" => &[Dimension::Time],
        _ => &[Dimension::Angle, Dimension::Volume, Dimension::Time, Dimension::Temperature],
    }
}

fn dimensions_of_attribute(key: &AttributeKey) -> &'static [Dimension] {
    match (key.form, key.key.as_str()) {
        (AttributeForm::Torque, _) => &[Dimension::Torque, Dimension::Angle],
        (AttributeForm::Cure, _) => &[Dimension::Time, Dimension::Temperature],
        (_, "mass") => &[Dimension::Mass],
        (_, "hot") => &[Dimension::Temperature],
        (_, "live") => &[Dimension::Voltage],
        (_, "pressurised") => &[Dimension::Pressure],
        (_, "length" | "adapter") => &[Dimension::Length],
        (_, "range") => &[Dimension::Torque, Dimension::Length],
        (_, "capacity") => &[Dimension::Mass, Dimension::Force],
        _ => &[],
    }
}

/// The attribute that the words before the cursor belong to, and what stands behind its key.
fn attribute_before(outside: &str, owner: Owner) -> (Option<&'static AttributeKey>, &str) {
    let mut found = (None, outside);
    let mut at = 0;
    for word in outside.split_inclusive([' ', ',']) {
        at += word.len();
        let ended = word.ends_with([' ', ',']);
        let key =
            words::attribute_key(word.trim_end_matches([' ', ','])).filter(|key| key.on.contains(&owner));
        if let (Some(key), true) = (key, ended) {
            found = (Some(key), outside.get(at..).unwrap_or(""));
        }
    }
    found
}
