//! Steps: verbs, objects, places, tools, labels.
use super::{Kind, Marker, Sort, Use};
use crate::model::verb::Verb;
use crate::source::Text;
use crate::syntax::ast::{Action, Expression, Object, Phrase, PhraseKind, Target};

impl Marker<'_> {
    pub(super) fn action(&mut self, action: &Action) {
        let steers = self.steers(action);
        self.verb(action, steers);
        if let Some(calculation) = &action.calculation {
            self.declared(&calculation.name, Sort::Label);
            self.expression(&calculation.expression);
            calculation.limits.iter().for_each(|limits| self.quantity(limits));
        }
        for (place, phrase) in action.phrases.iter().enumerate() {
            match (&phrase.kind, place) {
                (PhraseKind::Objects(objects), 0) if steers => self.steered(action.verb.as_str(), objects),
                _ => self.phrase(phrase),
            }
        }
    }

    /// The word behind `hold`, `report` and `follow` is no declared thing.
    fn steered(&mut self, verb: &str, objects: &[Object]) {
        for object in objects {
            match verb {
                "follow" => self.mark(object.name.span, Kind::Number(Use::Used)),
                "hold" | "report" => self.mark(object.name.span, Kind::Role),
                _ => self.used(&object.name),
            }
        }
    }

    /// `hold`, `stop` and `report` are ordinary verbs too.
    fn steers(&self, action: &Action) -> bool {
        match action.verb.as_str() {
            "wait" | "follow" | "repeat" | "choose" | "skip" | "due" | "calculate" => {
                action.particle.is_none()
            }
            "report" => true,
            "stop" => !action.phrases.iter().any(|it| matches!(it.kind, PhraseKind::Objects(_))),
            "hold" => action.phrases.iter().all(|phrase| match &phrase.kind {
                PhraseKind::Objects(objects) => {
                    matches!(objects.as_slice(), [one] if !(self.knows)(one.name.as_str()))
                }
                PhraseKind::Text(_) | PhraseKind::Label(_) => true,
                _ => false,
            }),
            _ => false,
        }
    }

    fn verb(&mut self, action: &Action, steers: bool) {
        if steers {
            return self.mark(action.verb.span, Kind::Steering);
        }
        let long = action.particle.as_ref().and_then(|particle| {
            let verb = self.row(&format!("{} {}", action.verb.value, particle.value))?;
            Some((action.verb.span.to(particle.span), verb))
        });
        let found = long.or_else(|| Some((action.verb.span, self.row(action.verb.as_str())?)));
        if let Some((span, verb)) = found {
            self.mark(span, Kind::Verb(verb));
        }
    }

    /// The house's own words count too.
    fn row(&self, words: &str) -> Option<&'static Verb> {
        let house = &self.settings.verbs;
        let meant = house.get(words).or_else(|| house.get(&words.replace(' ', "-")));
        Verb::find(meant.map_or(words, String::as_str))
    }

    fn phrase(&mut self, phrase: &Phrase) {
        match &phrase.kind {
            PhraseKind::Objects(objects) => self.objects(objects),
            PhraseKind::Tools(objects) => {
                self.opener(phrase.span);
                self.objects(objects);
            }
            PhraseKind::Place(place) => {
                self.mark(place.preposition.span, Kind::Keyword);
                self.target(&place.what);
            }
            PhraseKind::Text(text) => self.text(text),
            PhraseKind::Label(labels) => {
                self.opener(phrase.span);
                labels.iter().for_each(|label| self.declared(label, Sort::Label));
            }
            PhraseKind::Facing(text) => {
                self.opener(phrase.span);
                self.text(text);
            }
            PhraseKind::Until(words) | PhraseKind::While(words) => {
                self.opener(phrase.span);
                self.words(words);
            }
            PhraseKind::Times { .. } => {}
            PhraseKind::For(target) => {
                self.opener(phrase.span);
                match target {
                    Target::Objects(objects) => self.places_of_repeat(objects),
                    other => self.target(other),
                }
            }
            PhraseKind::By(target) => {
                self.opener(phrase.span);
                self.target(target);
            }
            PhraseKind::Quantity(quantity) => self.quantity(quantity),
            PhraseKind::Torque(item) => self.torque_item(item),
            PhraseKind::Except(except) => {
                self.opener(phrase.span);
                self.quantity(&except.value);
                except.on.iter().for_each(|on| self.used(on));
            }
        }
    }

    /// `until "text"`, or plain words among which declared names count.
    fn words(&mut self, words: &Text) {
        let written = self.source.slice(words.span);
        if written.starts_with(['"', '“']) {
            return self.text(words);
        }
        let mut start = words.span.start;
        for word in written.split(' ') {
            let length = super::clip(word.len());
            if (self.knows)(word) {
                let span = crate::source::Span { start, end: start + length, ..words.span };
                self.mark(span, Kind::Name(Use::Used));
            }
            start += length + 1;
        }
    }

    /// `for rear-left, front-right`: free words, unless they are declared.
    fn places_of_repeat(&mut self, objects: &[Object]) {
        for object in objects {
            if (self.knows)(object.name.as_str()) {
                self.used(&object.name);
            }
        }
    }

    fn target(&mut self, target: &Target) {
        match target {
            Target::Objects(objects) => self.objects(objects),
            Target::Quantity(quantity) => self.quantity(quantity),
            Target::Text(text) => self.text(text),
        }
    }

    fn objects(&mut self, objects: &[Object]) {
        for object in objects {
            object.new.iter().for_each(|span| self.mark(*span, Kind::Keyword));
            self.used(&object.name);
        }
    }

    fn expression(&mut self, expression: &Expression) {
        match expression {
            Expression::Amount(amount) => self.amount(amount),
            Expression::Reading(label) => self.used(label),
            Expression::Binary { left, right, .. } => {
                self.expression(left);
                self.expression(right);
            }
        }
    }
}
