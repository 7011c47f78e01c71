//! `only:`, and which models there are.
use super::Resolver;
use crate::model::action::Condition;
use crate::model::declarations::Applies;
use crate::model::slip::Slip;
use crate::source::{Span, Text};
use crate::syntax::ast::{Detail, DetailValue};

impl Resolver<'_> {
    /// Makes the slip for a model the header does not list; where it lists nothing, nothing is known.
    pub(super) fn check_model(&mut self, model: &Text) {
        let Some(known) = &self.models else { return };
        if !known.iter().any(|name| name.value == model.value) {
            let known = known.iter().map(|name| name.value.to_string()).collect();
            self.slip(Slip::UnknownModel { model: model.clone(), known });
        }
    }

    pub(super) fn only(&mut self, detail: &Detail, applies: &mut Applies, conditions: &mut Vec<Condition>) {
        let DetailValue::Conditions(items) = &detail.value else { return };
        for words in items {
            self.condition(words, applies, conditions);
        }
    }

    fn condition(&mut self, words: &[Text], applies: &mut Applies, conditions: &mut Vec<Condition>) {
        let Some((first, rest)) = words.split_first() else { return };
        let span = rest.iter().fold(first.span, |span, word| span.to(word.span));
        let whole = joined(words, span);
        if self.models.iter().flatten().any(|model| model.value == whole.value) {
            applies.models.push(whole);
        } else if first.as_str() == "serial" && !rest.is_empty() {
            let numbers = rest.iter().map(|word| word.span).reduce(Span::to).unwrap_or(span);
            applies.serials = Some(joined(rest, numbers));
        } else if whole.as_str() == "if fitted" {
            applies.if_fitted = Some(span);
        } else if let Some(step) = self.labels.step(first.as_str()) {
            if rest.is_empty() {
                let wanted = "how it came out: `failed`, `ok`, `below`, `above`";
                self.slip(Slip::MissingRole { verb: first.clone(), span, wanted });
                return;
            }
            let state = joined(rest, span).value;
            conditions.push(Condition { label: first.clone(), step: Some(step), state: state.into(), span });
        } else if rest.is_empty() {
            self.check_model(first);
            applies.models.push(whole);
        } else {
            self.dangling(first, "a labelled step");
        }
    }
}

fn joined(words: &[Text], span: Span) -> Text {
    let words: Vec<&str> = words.iter().map(Text::as_str).collect();
    Text::new(words.join(" "), span)
}
