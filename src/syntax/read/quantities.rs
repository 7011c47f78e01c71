//! Quantities as written: numbers and unit words.
use super::{Node, Places, Rule};
use crate::syntax::ast::{Amount, Quantity, QuantityForm};
use pest::iterators::Pairs;

impl Places {
    pub(super) fn quantity(self, pair: Node<'_>) -> Option<Quantity> {
        let span = self.span(&pair);
        let mut parts = pair.into_inner();
        let form = self.form(&mut parts)?;
        let also = parts.next().and_then(|second| {
            let place = self.span(&second);
            let form = self.form(&mut second.into_inner())?;
            Some(Box::new(Quantity { form, also: None, span: place }))
        });
        Some(Quantity { form, also, span })
    }

    /// Takes the parts of one plain quantity, and leaves a second one in brackets.
    fn form(self, parts: &mut Pairs<'_, Rule>) -> Option<QuantityForm> {
        let first = parts.next()?;
        match first.as_rule() {
            Rule::bound => {
                let amount = self.amount(parts.next()?);
                let low = matches!(first.as_str(), "min" | "at least");
                return Some(if low { QuantityForm::Min(amount) } else { QuantityForm::Max(amount) });
            }
            Rule::renewed => {
                let mut ends = first.into_inner();
                let new = self.amount(ends.next()?);
                return Some(QuantityForm::NewWorn { new, worn: self.amount(ends.next()?) });
            }
            _ => {}
        }
        let amount = self.amount(first);
        match parts.peek().map(|next| next.as_rule()) {
            Some(Rule::upper) => {
                let high = self.amount(parts.next()?.into_inner().next()?);
                Some(QuantityForm::Between { low: amount, high })
            }
            Some(Rule::tolerance) => Some(self.tolerance(amount, parts.next()?.into_inner())),
            _ => Some(QuantityForm::Exact(amount)),
        }
    }

    /// `9 ± 1 N.m` and `500 +1/-0 mm`: numbers, then perhaps a unit that holds for all of them.
    fn tolerance(self, mut nominal: Amount, rest: Pairs<'_, Rule>) -> QuantityForm {
        let (mut plus, mut minus, mut unit) = (Amount::default(), None, None);
        for part in rest {
            let word = self.text(&part);
            if part.as_rule() == Rule::unit {
                unit = Some(word);
                continue;
            }
            let amount = Amount { span: word.span, number: word, unit: None };
            if plus.number.value.is_empty() { plus = amount } else { minus = Some(amount) }
        }
        let mut minus = minus.unwrap_or_else(|| plus.clone());
        let unit = unit.or_else(|| nominal.unit.clone());
        nominal.unit = nominal.unit.or_else(|| unit.clone());
        plus.unit.clone_from(&unit);
        minus.unit = unit;
        QuantityForm::Tolerance { nominal, plus, minus }
    }

    pub(super) fn amount(self, pair: Node<'_>) -> Amount {
        let span = self.span(&pair);
        let mut parts = pair.into_inner();
        let number = parts.next().map(|number| self.text(&number)).unwrap_or_default();
        Amount { number, unit: parts.next().map(|unit| self.text(&unit)), span }
    }
}
