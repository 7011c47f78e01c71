//! Actions: the verb, then what kind of action it makes.
use super::Resolver;
use super::control;
use crate::model::action::Action;
use crate::model::slip::Slip;
use crate::model::verb::Verb;
use crate::source::{Span, Text};
use crate::syntax::ast::{self, PhraseKind, Stage, Target};
use crate::syntax::words::one_letter_off;

/// Prepositions that may stand right behind a verb without being part of it: `install on shaft new ring`.
const PLACES: [&str; 3] = ["off", "out", "on"];

/// A verb of the table and the words that name it.
#[derive(Clone, Copy)]
pub(super) struct Found {
    pub verb: &'static Verb,
    pub span: Span,
    /// The particle is no part of the verb but leads the first object.
    pub particle_leads: bool,
}

impl Resolver<'_> {
    /// The action, or `None` after a slip. `stages` are the step's own.
    pub(super) fn action(&mut self, written: &mut ast::Action, stages: &[Stage]) -> Option<Action> {
        if let Some(calculation) = &written.calculation {
            return Some(self.calculate(written, calculation));
        }
        if self.steers(written) {
            return self.control(written);
        }
        match self.verb_of(written) {
            Some(found) => Some(Action::Work(self.work(written, found, stages))),
            None => {
                self.unknown_verb(written);
                None
            }
        }
    }

    /// Whether it is one of the few that steer. `hold`, `stop` and `report` are ordinary verbs too.
    fn steers(&self, written: &ast::Action) -> bool {
        let objects = || written.phrases.iter().find_map(control::objects_of);
        match written.verb.as_str() {
            "wait" | "follow" | "repeat" | "choose" | "skip" | "due" => written.particle.is_none(),
            "stop" => objects().is_none() || self.verb_of(written).is_none(),
            "report" => true,
            "hold" => {
                let bare = |one: &ast::Object| one.new.is_none() && !one.each && one.count.is_none();
                let role = |one: &ast::Object| bare(one) && !self.knows(one.name.as_str());
                // Several are parts that nobody declared, unless they are nothing like those that somebody did.
                let role = match objects() {
                    None => true,
                    Some([one]) => role(one),
                    Some(many) => {
                        many.iter().all(|one| role(one) && !self.is_nearly_declared(one.name.as_str()))
                    }
                };
                let plain = |phrase: &ast::Phrase| {
                    matches!(phrase.kind, PhraseKind::Objects(_) | PhraseKind::Text(_) | PhraseKind::Label(_))
                };
                role && written.phrases.iter().all(plain)
            }
            _ => false,
        }
    }

    /// Whether the word is declared here or in a catalogue, without using it.
    pub(super) fn knows(&self, word: &str) -> bool {
        self.declarations.find(word).is_some()
            || self.catalogues.iter().any(|document| document.declarations.find(word).is_some())
    }

    /// A slip of the pen for something declared here.
    fn is_nearly_declared(&self, word: &str) -> bool {
        self.declarations.names.keys().any(|name| one_letter_off(word, name))
    }

    /// The verb of the table, with a particle if one belongs to it; the house's own words count too.
    pub(super) fn verb_of(&self, written: &ast::Action) -> Option<Found> {
        let Some(particle) = &written.particle else {
            let verb = self.verb(written.verb.as_str())?;
            return Some(Found { verb, span: written.verb.span, particle_leads: false });
        };
        let span = written.verb.span.to(particle.span);
        if let Some(verb) = self.verb(&format!("{} {}", written.verb.value, particle.value)) {
            return Some(Found { verb, span, particle_leads: false });
        }
        let leads = PLACES.contains(&particle.as_str())
            && matches!(written.phrases.first().map(|phrase| &phrase.kind), Some(PhraseKind::Objects(_)));
        let verb = self.verb(written.verb.as_str()).filter(|_| leads)?;
        Some(Found { verb, span: written.verb.span, particle_leads: true })
    }

    fn verb(&self, words: &str) -> Option<&'static Verb> {
        let house = &self.around.settings.verbs;
        let own = || house.get(words).or_else(|| house.get(&words.replace(' ', "-")));
        match if house.is_empty() { None } else { own() } {
            Some(meant) => Verb::find(meant),
            None => Verb::find(words),
        }
    }

    #[cold]
    fn unknown_verb(&mut self, written: &ast::Action) {
        self.count_uses(written);
        if written.verb.as_str() == "replace" {
            self.slip(Slip::ReplaceIsAmbiguous { verb: written.verb.clone() });
            return;
        }
        let verb = match &written.particle {
            Some(particle) => Text::new(
                format!("{} {}", written.verb.value, particle.value),
                written.verb.span.to(particle.span),
            ),
            None => written.verb.clone(),
        };
        let mut known: Vec<&str> = Verb::words().collect();
        known.extend(self.around.settings.verbs.keys().map(String::as_str));
        let near = self.near.among(verb.as_str(), known.into_iter());
        self.slip(Slip::UnknownVerb { verb, near });
    }

    /// What an unreadable action names is in use all the same.
    fn count_uses(&mut self, written: &ast::Action) {
        for phrase in &written.phrases {
            let objects = match &phrase.kind {
                PhraseKind::Objects(objects) | PhraseKind::Tools(objects) => objects,
                PhraseKind::By(Target::Objects(objects)) => objects,
                PhraseKind::Place(place) => match &place.what {
                    Target::Objects(objects) => objects,
                    _ => continue,
                },
                _ => continue,
            };
            for object in objects {
                if let Some(name) = self.find(object.name.as_str()) {
                    self.touch(name);
                }
            }
        }
    }
}
