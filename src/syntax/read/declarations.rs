//! Attributes of a declaration.
use super::{Node, Places, Rule};
use crate::source::{Span, Text};
use crate::syntax::ast::{Attribute, Value};

impl Places {
    pub(super) fn attribute(self, pair: Node<'_>) -> Option<Attribute> {
        let span = self.span(&pair);
        let word = |key: &str| {
            let start = span.start as usize;
            Text::new(key, Span::new(self.file, start, start + key.len()))
        };
        let mut terms = pair.into_inner();
        let inner = terms.next()?;
        match inner.as_rule() {
            Rule::torque_attribute => {
                let key = word("torque");
                let items = inner.into_inner().filter_map(|item| self.torque_item(item)).collect();
                Some(Attribute { key, values: vec![Value::Torque(items)], span })
            }
            Rule::thread_attribute => {
                let key = word("thread");
                let mut parts = inner.into_inner();
                let designation = self.text(&parts.next()?);
                let series = parts.next().map(|series| self.text(&series));
                Some(Attribute { key, values: vec![Value::Thread { designation, series }], span })
            }
            _ => {
                let key = match self.value(inner)? {
                    Value::Word(word) | Value::Text(word) => word,
                    Value::Quantity(quantity) => Text::new("", quantity.span),
                    Value::Thread { designation, .. } => designation,
                    Value::Torque(_) => return None,
                };
                Some(Attribute { key, values: terms.filter_map(|term| self.value(term)).collect(), span })
            }
        }
    }

    fn value(self, term: Node<'_>) -> Option<Value> {
        Some(match term.as_rule() {
            Rule::text => Value::Text(self.quoted(&term)),
            Rule::quantity => Value::Quantity(Box::new(self.quantity(term)?)),
            _ => Value::Word(self.text(&term)),
        })
    }
}
