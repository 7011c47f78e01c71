//! What the ledger found, as the rules about the order of the work word it.
use super::{Subject, route};
use crate::ledger::{Breach, Kind, Models, Way};
use crate::model::declarations::Part;
use crate::model::{Action, Name, Step};
use crate::report::Finding;
use crate::source::{Span, Spanned};
use std::borrow::Cow;

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
    let mine = subject.ledger().breaches.iter().filter(move |breach| kinds.contains(&breach.kind));
    mine.map(|breach| Broken {
        breach,
        name: name(subject, breach.what),
        other: breach.other.map_or("", |other| name(subject, other)),
        subject,
    })
}

pub fn name<'s>(subject: &'s Subject<'_>, name: Name) -> &'s str {
    subject.document.declarations.thing(name).map_or("", |thing| thing.name.as_str())
}

impl Broken<'_, '_> {
    /// The finding, with for which models and after which outcome it holds, `since` as the label of the other
    /// place, and the way that leads from the one to the other where it turns off in between.
    pub fn finding(
        &self,
        rule: &'static str,
        text: &str,
        since: &str,
        help: impl Into<Cow<'static, str>>,
    ) -> Finding {
        let route = route::of(self.subject, self.breach);
        let followed = self.followed(self.breach.at);
        let text = format!("{text}{followed}{}{}{}", self.on_models(), self.only_if(), route.told);
        let finding = Finding::new(rule, self.breach.at, text).help(help);
        let there = self.breach.since.map(|span| self.followed(span)).filter(|_| !since.is_empty());
        let finding =
            self.labelled(finding, self.breach.since, &format!("{since}{}", there.unwrap_or_default()));
        route.labels.into_iter().fold(finding, |finding, (span, text)| finding.label(span, text))
    }

    /// What the part is matched with, as an author would write it.
    pub fn partner(&self) -> &str {
        let declarations = &self.subject.document.declarations;
        let part = match self.breach.what {
            Name::Part(id) => declarations.part(id),
            _ => None,
        };
        let with = part.and_then(|part| part.matched.first());
        with.map_or("…", |with| name(self.subject, with.value))
    }

    /// Where the place is the call of another procedure: that it happens in that one.
    fn followed(&self, place: Span) -> String {
        let procedure = self.subject.procedure();
        let mut required = procedure.iter().flat_map(|it| it.header.requires.iter().flatten());
        if let Some(number) = required.find(|call| call.span == place).and_then(|call| call.number.as_ref()) {
            return format!(", where {} is required", number.as_str());
        }
        let step = procedure.and_then(|procedure| route::step_at(procedure, place));
        let calls = step.into_iter().flat_map(Step::every_action).filter_map(|action| match action {
            Action::Follow(follow) if follow.call.span == place => follow.call.number.as_ref(),
            _ => None,
        });
        calls.last().map_or_else(String::new, |number| format!(", where {} is followed", number.as_str()))
    }

    /// With a further place of the file, where there is one and it says something.
    pub fn labelled(&self, finding: Finding, place: Option<Span>, text: &str) -> Finding {
        let shown = |span: &Span| self.subject.owns(*span) && *span != self.breach.at && !text.is_empty();
        match place.filter(shown) {
            Some(span) => finding.label(span, text.to_owned()),
            None => finding,
        }
    }

    /// Where one part's declaration names another in the list.
    pub fn declared(&self, part: Name, list: fn(&Part) -> &[Spanned<Name>], named: Name) -> Option<Span> {
        let Name::Part(id) = part else { return None };
        let part = self.subject.document.declarations.part(id)?;
        list(part).iter().find(|entry| entry.value == named).map(|entry| entry.span)
    }

    /// The whole line that declares it.
    pub fn declaration(&self, name: Name) -> Option<Span> {
        self.subject.document.declarations.thing(name).map(|thing| thing.span)
    }

    /// Where the other part comes off after all.
    pub fn other_comes_off(&self) -> Option<Span> {
        let works = self.subject.contents.works.iter().filter(|work| work.takes_off());
        let mut objects = works.flat_map(|work| &work.objects).filter(|it| it.name == self.breach.other);
        objects.find(|it| it.word.span.start > self.breach.at.start).map(|it| it.word.span)
    }

    /// With where the other part comes off too late, or went on, and the `holds` that says it has to come first.
    pub fn held(&self, finding: Finding) -> Finding {
        let Some(other) = self.breach.other else { return finding };
        let off = self.other_comes_off();
        let finding = self.labelled(finding, off, &format!("`{}` comes off only here", self.other));
        let holds = self.declared(other, |part| &part.holds, self.breach.what);
        self.labelled(finding, holds, &format!("`{}` holds it, as declared here", self.other))
    }

    fn on_models(&self) -> String {
        let Models::Some(some) = &self.breach.models else { return String::new() };
        let all = self.subject.procedure().and_then(|procedure| procedure.header.models.as_deref());
        let names = some.iter().filter_map(|&at| all?.get(at as usize)).map(|model| model.as_str());
        format!(" on {}", names.collect::<Vec<_>>().join(", "))
    }

    fn only_if(&self) -> String {
        Way::told(&self.breach.only_if).map_or_else(String::new, |told| format!(", if {told}"))
    }
}
