//! Indented `key: value` lines: what all places share.
use super::Resolver;
use crate::model::document::Waiver;
use crate::model::message::Signal;
use crate::model::prose::Prose;
use crate::model::quantity::{Dimension, Quantity};
use crate::model::slip::Slip;
use crate::source::{Span, Text};
use crate::syntax::ast::{Detail, DetailValue, Statement};
use crate::syntax::words::{self, Place};

impl Resolver<'_> {
    /// A waiver, or a key that means nothing here.
    pub(super) fn common_detail(&mut self, detail: &Detail, statement: &Statement, here: Place) {
        self.detail_of(detail, statement.extent, here);
    }

    pub(super) fn detail_of(&mut self, detail: &Detail, extent: Span, here: Place) {
        match &detail.value {
            DetailValue::Waive { rule, why } => {
                self.waivers.push(Waiver { rule: rule.clone(), why: why.clone(), span: detail.span, extent });
            }
            _ => self.stray_detail(detail, here),
        }
    }

    /// A key that is unknown, or known but not here.
    pub(super) fn stray_detail(&mut self, detail: &Detail, here: Place) {
        let key = detail.key.clone();
        if Signal::from_word(key.as_str()).is_some() {
            self.slip(Slip::MisplacedDetail { key, belongs: "at the margin, before the step it guards" });
            return;
        }
        match words::detail_key(key.as_str()) {
            // Its form is wrong; that has its finding.
            Some(row) if row.on.contains(&here) => {}
            Some(row) => {
                let belongs = row.on.first().map_or("elsewhere", |&place| belongs(place));
                self.slip(Slip::MisplacedDetail { key, belongs });
            }
            None => {
                let known = words::details().filter(|row| row.on.contains(&here));
                let near = self.near.among(key.as_str(), known.map(|row| row.key.as_str()));
                self.slip(Slip::UnknownDetail { key, near });
            }
        }
    }

    /// Under a block or a `use` line only a waiver means something.
    pub(super) fn block_details(&mut self, statement: &Statement) {
        for detail in &statement.details {
            match &detail.value {
                DetailValue::Waive { .. } => self.detail_of(detail, statement.extent, Place::Declaration),
                _ => self.slip(misplaced_in_block(detail)),
            }
        }
    }

    /// Under a section stands how long it takes.
    pub(super) fn section_time(&mut self, statement: &Statement) -> Option<Quantity> {
        let mut time = None;
        for detail in &statement.details {
            if detail.key.value == "time" {
                let value = self.time_value(detail);
                self.once(&mut time, value, detail);
            } else {
                match &detail.value {
                    DetailValue::Waive { .. } => self.detail_of(detail, statement.extent, Place::Declaration),
                    _ => self.stray_detail(detail, Place::Section),
                }
            }
        }
        time
    }

    /// Keeps the first of a detail that may be given once.
    pub(super) fn once<T>(&mut self, place: &mut Option<T>, value: Option<T>, detail: &Detail) {
        if value.is_some() && place.is_some() {
            self.unusable(detail.span, "this detail is already given above");
        } else if value.is_some() {
            *place = value;
        }
    }

    pub(super) fn prose_value(&mut self, detail: &mut Detail) -> Option<Prose> {
        match &mut detail.value {
            DetailValue::Prose(prose) => Some(self.prose(std::mem::take(prose))),
            DetailValue::Unread => None,
            _ => Some(self.prose_of_text(&detail.raw)),
        }
    }

    /// The words behind the key, as written.
    pub(super) fn free_value(detail: &Detail) -> Option<Text> {
        (!matches!(detail.value, DetailValue::Unread)).then(|| detail.raw.clone())
    }

    pub(super) fn time_value(&mut self, detail: &Detail) -> Option<Quantity> {
        let DetailValue::Quantity(written) = &detail.value else { return None };
        let want = super::quantities::Want { dimensions: &[Dimension::Time], context: "`time:`" };
        self.quantity(written, want)
    }
}

fn misplaced_in_block(detail: &Detail) -> Slip {
    let place = words::detail_key(detail.key.as_str()).and_then(|row| row.on.first().copied());
    match place {
        Some(place) => Slip::MisplacedDetail { key: detail.key.clone(), belongs: belongs(place) },
        None => Slip::UnknownDetail { key: detail.key.clone(), near: Vec::new() },
    }
}

fn belongs(place: Place) -> &'static str {
    match place {
        Place::Header => "under the `procedure` line",
        Place::Section => "under a `section` line",
        Place::Step => "under a step",
        Place::Message => "under a safety message",
        Place::Declaration => "under a declaration",
    }
}
