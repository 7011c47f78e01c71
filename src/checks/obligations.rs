//! What the ledger found, as the rules about the order of the work word it.
use super::Subject;
use crate::ledger::{Breach, Kind, Models};
use crate::model::Name;
use crate::report::Finding;

/// A breach with the names in it.
pub struct Broken<'s, 'd> {
    pub breach: &'s Breach,
    /// The identifier of what it is about.
    pub name: &'s str,
    /// Of the other thing that plays a part; empty where there is none.
    pub other: &'s str,
    subject: &'s Subject<'d>,
}

/// The breaches of these kinds.
pub fn of<'s, 'd>(subject: &'s Subject<'d>, kinds: &'static [Kind]) -> impl Iterator<Item = Broken<'s, 'd>> {
    let mine = subject.ledger.breaches.iter().filter(move |breach| kinds.contains(&breach.kind));
    mine.map(|breach| Broken {
        breach,
        name: name(subject, breach.what),
        other: breach.other.map_or("", |other| name(subject, other)),
        subject,
    })
}

fn name<'s>(subject: &'s Subject<'_>, name: Name) -> &'s str {
    subject.document.declarations.thing(name).map_or("", |thing| thing.name.as_str())
}

impl Broken<'_, '_> {
    /// The finding, with for which models and after which outcome it holds, and `since` as the label of the other
    /// place.
    pub fn finding(&self, rule: &'static str, text: &str, since: &str, help: impl Into<String>) -> Finding {
        let text = format!("{text}{}{}", self.on_models(), self.only_if());
        let finding = Finding::new(rule, self.breach.at, text).help(help);
        match self.breach.since.filter(|span| self.subject.owns(*span) && *span != self.breach.at) {
            Some(span) => finding.label(span, since),
            None => finding,
        }
    }

    fn on_models(&self) -> String {
        let Models::Some(some) = &self.breach.models else { return String::new() };
        let all = self.subject.procedure().and_then(|procedure| procedure.header.models.as_deref());
        let names = some.iter().filter_map(|&at| all?.get(at as usize)).map(|model| model.as_str());
        format!(" on {}", names.collect::<Vec<_>>().join(", "))
    }

    fn only_if(&self) -> String {
        self.breach.only_if.as_ref().map_or_else(String::new, |told| format!(", if {told}"))
    }
}
