//! Attributes of a declaration.
use super::{Node, Places, Rule};
use crate::source::{Span, Text};
use crate::syntax::ast::{Attribute, Value};

impl Places {
    pub(super) fn attribute(self, pair: Node<'_>) -> Option<Attribute> {
        let span = self.span(&pair);
        let inner = pair.into_inner().next()?;
        let word = |len: usize| {
            Text::new(
                inner.as_str().get(..len).unwrap_or("").to_owned(),
                Span::new(self.file, span.start as usize, span.start as usize + len),
            )
        };
        match inner.as_rule() {
            Rule::torque_attribute => {
                let key = word("torque".len());
                let items = inner.into_inner().filter_map(|item| self.torque_item(item)).collect();
                Some(Attribute { key, values: vec![Value::Torque(items)], span })
            }
            Rule::thread_attribute => {
                let key = word("thread".len());
                let mut parts = inner.into_inner();
                let designation = self.text(&parts.next()?);
                let series = parts.next().map(|series| self.text(&series));
                Some(Attribute { key, values: vec![Value::Thread { designation, series }], span })
            }
            _ => {
                let mut values = inner.into_inner().filter_map(|term| self.value(term));
                let key = match values.next()? {
                    Value::Word(word) | Value::Text(word) => word,
                    Value::Quantity(quantity) => Text::new(String::new(), quantity.span),
                    Value::Thread { designation, .. } => designation,
                    Value::Torque(_) => return None,
                };
                Some(Attribute { key, values: values.collect(), span })
            }
        }
    }

    pub(super) fn value(self, term: Node<'_>) -> Option<Value> {
        let inner = term.into_inner().next()?;
        Some(match inner.as_rule() {
            Rule::text => Value::Text(self.quoted(inner)),
            Rule::quantity => Value::Quantity(self.quantity(inner)?),
            _ => Value::Word(self.text(&inner)),
        })
    }
}
