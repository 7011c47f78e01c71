//! Written quantities to typed ones, where they can be; what is wrong with one has its finding.
use super::{Kind, Marker};
use crate::model::quantity::{Form, Number, Quantity, Unit};
use crate::syntax::ast::{self, Amount, QuantityForm};

impl Marker<'_> {
    pub(super) fn quantity(&mut self, written: &ast::Quantity) {
        if let Some(typed) = typed(written) {
            self.mark(written.span, Kind::Quantity(Box::new(typed)));
        }
        self.amounts(written);
        written.also.iter().for_each(|also| self.amounts(also));
    }

    fn amounts(&mut self, written: &ast::Quantity) {
        for amount in amounts(&written.form).into_iter().flatten() {
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
    let number = |amount: &Amount| Number::parse(amount.number.as_str()).ok();
    let form = match &written.form {
        QuantityForm::Exact(n) => Form::Exact(number(n)?),
        QuantityForm::Max(n) => Form::Max(number(n)?),
        QuantityForm::Min(n) => Form::Min(number(n)?),
        QuantityForm::Between { low, high } => Form::Between(number(low)?, number(high)?),
        QuantityForm::Tolerance { nominal, plus, minus } => {
            Form::Tolerance { nominal: number(nominal)?, plus: number(plus)?, minus: number(minus)? }
        }
        QuantityForm::NewWorn { new, worn } => Form::NewWorn { new: number(new)?, worn: number(worn)? },
        QuantityForm::None => return None,
    };
    let unit = amounts(&written.form).into_iter().flatten().rev().find_map(|amount| amount.unit.as_ref())?;
    Quantity::new(form, Unit::find(unit.as_str())?, written.span).ok()
}

fn amounts(form: &QuantityForm) -> [Option<&Amount>; 3] {
    match form {
        QuantityForm::Exact(amount) | QuantityForm::Max(amount) | QuantityForm::Min(amount) => {
            [Some(amount), None, None]
        }
        QuantityForm::Between { low, high } => [Some(low), Some(high), None],
        QuantityForm::Tolerance { nominal, plus, minus } => [Some(nominal), Some(plus), Some(minus)],
        QuantityForm::NewWorn { new, worn } => [Some(new), Some(worn), None],
        QuantityForm::None => [None, None, None],
    }
}
