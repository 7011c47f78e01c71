//! Quantities as written: numbers and unit words.
use super::{Node, Places, Rule};
use crate::syntax::ast::{Amount, Quantity, QuantityForm};
use pest::iterators::Pairs;

impl Places {
    pub(super) fn quantity(self, pair: Node<'_>) -> Option<Quantity> {
        let span = self.span(&pair);
        let mut parts = pair.into_inner();
        let form = self.form(parts.next()?)?;
        let also = parts.next().and_then(|second| {
            let span = self.span(&second);
            let form = self.form(second.into_inner().next()?)?;
            Some(Box::new(Quantity { form, also: None, span }))
        });
        Some(Quantity { form, also, span })
    }

    pub(super) fn form(self, pair: Node<'_>) -> Option<QuantityForm> {
        let rule = pair.as_rule();
        if rule == Rule::amount {
            return Some(QuantityForm::Exact(self.amount(pair)));
        }
        let mut parts = pair.into_inner();
        let first = parts.next()?;
        Some(match rule {
            Rule::bounded => {
                let low = matches!(first.as_str(), "min" | "at least");
                let amount = self.amount(parts.next()?);
                if low { QuantityForm::Min(amount) } else { QuantityForm::Max(amount) }
            }
            Rule::renewed => {
                QuantityForm::NewWorn { new: self.amount(first), worn: self.amount(parts.next()?) }
            }
            Rule::ranged => {
                QuantityForm::Between { low: self.amount(first), high: self.amount(parts.next()?) }
            }
            _ => self.tolerance(&first, parts)?,
        })
    }

    /// `9 ± 1 N.m` and `500 +1/-0 mm`: numbers, then perhaps a unit that holds for all of them.
    pub(super) fn tolerance(self, nominal: &Node<'_>, rest: Pairs<'_, Rule>) -> Option<QuantityForm> {
        let rest: Vec<Node<'_>> = rest.collect();
        let unit = rest.iter().find(|p| p.as_rule() == Rule::unit).map(|p| self.text(p));
        let amount = |pair: &Node<'_>| {
            let number = self.text(pair);
            let span = number.span;
            Amount { number, unit: unit.clone(), span }
        };
        let plus = amount(rest.first()?);
        let minus = rest.get(1).filter(|p| p.as_rule() == Rule::number).map_or_else(|| plus.clone(), amount);
        Some(QuantityForm::Tolerance { nominal: amount(nominal), plus, minus })
    }

    pub(super) fn amount(self, pair: Node<'_>) -> Amount {
        let span = self.span(&pair);
        let mut parts = pair.into_inner();
        let number = parts.next().map(|number| self.text(&number)).unwrap_or_default();
        Amount { number, unit: parts.next().map(|unit| self.text(&unit)), span }
    }
}
