//! The header's details, and references to other procedures.
use super::Resolver;
use crate::model::document::{Call, Header, Waiver};
use crate::model::slip::Slip;
use crate::source::{Span, Text};
use crate::syntax::ast::{self, Detail, DetailValue, Head, Statement};
use crate::syntax::words::Place;

impl Resolver<'_> {
    pub(super) fn header(&mut self, statement: &Statement) -> Header {
        let mut header = Header::default();
        // Models first: other details may speak of them.
        for detail in statement.details.iter().filter(|detail| detail.key.as_str() == "models") {
            let models = list(detail);
            self.once(&mut header.models, Some(models), detail);
        }
        self.models = header.models.clone();
        for detail in &statement.details {
            self.header_detail(&mut header, detail);
        }
        let written = statement.details.iter().map(|detail| &detail.key.value);
        header.faulty = written.filter(|key| !header.has(key)).map(|key| key.to_string()).collect();
        if let Some(prose) = &statement.prose {
            self.unusable(prose.span, "the header has no prose; `outcome:` says what the procedure is for");
        }
        if let Head::Procedure { number, title } = &statement.head {
            self.check_number(number);
            if title.is_none() {
                let verb = Text::new("procedure", statement.span);
                self.slip(Slip::MissingRole { verb, span: number.span, wanted: "a title in quotes" });
            }
        }
        header
    }

    fn header_detail(&mut self, header: &mut Header, detail: &Detail) {
        match detail.key.as_str() {
            "models" => {}
            "revision" => self.once(&mut header.revision, details_free(detail), detail),
            "equipment" => self.once(&mut header.equipment, details_free(detail), detail),
            "serials" => self.once(&mut header.serials, details_free(detail), detail),
            "approved" => self.once(&mut header.approved, details_free(detail), detail),
            "source" => header.sources.get_or_insert_default().extend(details_free(detail)),
            "time" => {
                let time = self.time_value(detail);
                self.once(&mut header.time, time, detail);
            }
            "people" => {
                let people = self.prose_value(&mut detail.clone());
                self.once(&mut header.people, people, detail);
            }
            "outcome" => {
                let outcome = self.prose_value(&mut detail.clone());
                self.once(&mut header.outcome, outcome, detail);
            }
            "requires" => {
                let calls = self.calls(detail);
                header.requires.get_or_insert_default().extend(calls);
            }
            "afterwards" => {
                let calls = self.calls(detail);
                header.afterwards.get_or_insert_default().extend(calls);
            }
            "leaves" => header.leaves.get_or_insert_default().extend(states(detail)),
            "waive" => self.header_waiver(detail),
            _ => self.stray_detail(detail, Place::Header),
        }
    }

    /// In the header a waiver is for the whole file.
    fn header_waiver(&mut self, detail: &Detail) {
        if let DetailValue::Waive { rule, why } = &detail.value {
            let extent = Span::new(self.source.id, 0, self.source.text.len());
            self.waivers.push(Waiver { rule: rule.clone(), why: why.clone(), span: detail.span, extent });
        }
    }

    fn check_number(&mut self, number: &Text) {
        let claims = self.around.register.find(number.as_str());
        let own = &*self.source.name;
        let others: Vec<String> =
            claims.iter().filter(|entry| entry.file != own).map(|entry| entry.file.clone()).collect();
        if claims.len() > 1 && !others.is_empty() {
            self.slip(Slip::DuplicateProcedure { number: number.clone(), others });
        }
    }

    fn calls(&mut self, detail: &Detail) -> Vec<Call> {
        let DetailValue::Calls(calls) = &detail.value else { return Vec::new() };
        calls.iter().map(|call| self.call(call, detail.span)).collect()
    }

    fn call(&mut self, written: &ast::Call, within: Span) -> Call {
        let title = written.number.as_ref().and_then(|number| self.title_of(number));
        let parts = [&written.number, &written.text];
        let span = parts.into_iter().flatten().map(|text| text.span).reduce(Span::to).unwrap_or(within);
        let leaves = written.number.as_ref().and_then(|number| self.left_by(number));
        Call { number: written.number.clone(), text: written.text.clone(), title, leaves, span }
    }

    /// What another procedure says it leaves.
    pub(super) fn left_by(&self, number: &Text) -> Option<String> {
        let entry = self.around.register.find(number.as_str()).first()?;
        Some(entry.leaves.clone()).filter(|leaves| !leaves.is_empty())
    }

    /// The title of another procedure of the workspace.
    pub(super) fn title_of(&mut self, number: &Text) -> Option<String> {
        let register = self.around.register;
        if let Some(entry) = register.find(number.as_str()).first() {
            return Some(entry.title.clone());
        }
        let own = &*self.source.name;
        let other = |number: &&str| register.find(number).iter().any(|entry| entry.file != own);
        let near = self.near.among(number.as_str(), register.like(number.as_str()).filter(other));
        self.slip(Slip::UnknownProcedure { number: number.clone(), near });
        None
    }
}

fn details_free(detail: &Detail) -> Option<Text> {
    Resolver::free_value(detail)
}

/// The entries of a comma list; `none` is an empty one.
pub(super) fn list(detail: &Detail) -> Vec<Text> {
    match &detail.value {
        DetailValue::List(items) => items.iter().filter(|item| item.as_str() != "none").cloned().collect(),
        _ => Vec::new(),
    }
}

fn states(detail: &Detail) -> Vec<Text> {
    match &detail.value {
        DetailValue::Calls(calls) => calls.iter().filter_map(|call| call.text.clone()).collect(),
        _ => Vec::new(),
    }
}
