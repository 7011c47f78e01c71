//! Written quantities to typed ones, where they can be; what is wrong with one has its finding.
use super::{Kind, Marker};
use crate::model::quantity::{Number, Quantity, Unit};
use crate::model::resolve::quantity_form;
use crate::syntax::ast::{self, Amount};

impl Marker<'_> {
    pub(super) fn quantity(&mut self, written: &ast::Quantity) {
        if let Some(typed) = typed(written) {
            self.mark(written.span, Kind::Quantity(Box::new(typed)));
        }
        self.amounts(written);
        written.also.iter().for_each(|also| self.amounts(also));
    }

    fn amounts(&mut self, written: &ast::Quantity) {
        for amount in written.form.amounts().into_iter().flatten() {
            self.amount(amount);
        }
    }

    pub(super) fn amount(&mut self, amount: &Amount) {
        self.mark(amount.number.span, Kind::Figures);
        amount.unit.iter().for_each(|unit| self.mark(unit.span, Kind::Unit));
    }
}

fn typed(written: &ast::Quantity) -> Option<Quantity> {
    let first = single(written)?;
    Some(match written.also.as_deref().and_then(single) {
        Some(also) => first.with_also(also),
        None => first,
    })
}

fn single(written: &ast::Quantity) -> Option<Quantity> {
    let form = quantity_form(&written.form, |amount| Number::parse(amount.number.as_str()).ok())?;
    let unit = written.form.amounts().into_iter().flatten().rev().find_map(|amount| amount.unit.as_ref())?;
    Quantity::new(form, Unit::find(unit.as_str())?, written.span).ok()
}
