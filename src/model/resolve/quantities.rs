//! Written quantities to typed ones.
use super::Resolver;
use crate::model::quantity::{Agreement, Dimension, Form, Number, Quantity, QuantityError, Unit};
use crate::model::slip::Slip;
use crate::source::{Span, Text};
use crate::syntax::ast::{self, Amount, QuantityForm};

type Amounts<'a> = [Option<&'a Amount>; 3];

/// What may stand at a place.
#[derive(Debug, Clone, Copy)]
pub(super) struct Want<'w> {
    /// Dimensions that fit, the likeliest first; empty: any.
    pub dimensions: &'w [Dimension],
    /// What the quantity is for, as in "a torque for `tighten`": "the time of a step".
    pub context: &'w str,
}

impl Want<'_> {
    pub(super) const ANYTHING: Want<'static> = Want { dimensions: &[], context: "a quantity" };

    fn fits(&self, dimension: Dimension) -> bool {
        // A difference is usually written in plain degrees.
        let as_difference = dimension == Dimension::Temperature
            && self.dimensions.contains(&Dimension::TemperatureDifference);
        self.dimensions.is_empty() || self.dimensions.contains(&dimension) || as_difference
    }

    /// Units that a bare number most likely lacks, as an author writes them: those of the likeliest dimension, or
    /// one of each usual one where any fits.
    fn likely(&self) -> Vec<String> {
        let usual = [Dimension::Length, Dimension::Pressure, Dimension::Temperature, Dimension::Torque];
        let (dimensions, each) = match self.dimensions.first() {
            Some(likeliest) => (std::slice::from_ref(likeliest), 3),
            None => (usual.as_slice(), 1),
        };
        let units = dimensions.iter().flat_map(|&d| Unit::likely_for(d).iter().take(each));
        units.map(|unit| unit.source.to_owned()).collect()
    }
}

impl Resolver<'_> {
    /// The typed quantity, or `None` after a slip.
    pub(super) fn quantity(&mut self, written: &ast::Quantity, want: Want<'_>) -> Option<Quantity> {
        if written.form == QuantityForm::None {
            return Some(Quantity::none(written.span));
        }
        let first = self.single(written, want)?;
        let Some(also) = &written.also else { return Some(first) };
        let same = [first.dimension()];
        let Some(mut second) = self.single(also, Want { dimensions: &same, ..want }) else {
            return Some(first);
        };
        if let (&Form::Exact(n), &(Form::Max(_) | Form::Min(_))) = (second.form(), first.form()) {
            let form = if matches!(first.form(), Form::Max(_)) { Form::Max(n) } else { Form::Min(n) };
            second = Quantity::new(form, second.unit(), second.span()).unwrap_or(second);
        }
        self.compare(&first, &second);
        Some(first.with_also(second))
    }

    fn compare(&mut self, first: &Quantity, second: &Quantity) {
        let converted = match first.agrees_with(second) {
            Agreement::Agrees | Agreement::TooLarge => return,
            Agreement::Disagrees { printed, .. } => format!("{printed} {}", second.unit().symbol),
            Agreement::OtherDimension { .. } | Agreement::OtherWaveform | Agreement::OtherForm => {
                first.converted(second.unit()).map_or_else(|_| first.print(), |quantity| quantity.print())
            }
        };
        self.slip(Slip::UnitsDisagree {
            span: first.span(),
            first: first.print(),
            second: second.print(),
            second_span: second.span(),
            converted,
        });
    }

    /// One quantity without its second unit.
    fn single(&mut self, written: &ast::Quantity, want: Want<'_>) -> Option<Quantity> {
        let amounts = written.form.amounts();
        let form = form(&written.form, |amount| self.number(&amount.number))?;
        let unit = self.unit_of(&amounts, want)?;
        if !want.fits(unit.dimension) {
            self.slip(Slip::WrongDimension {
                span: written.span,
                found: unit.dimension,
                expected: want.dimensions.to_vec(),
                context: want.context.to_owned(),
            });
            return None;
        }
        match Quantity::new(form, unit, written.span) {
            Ok(quantity) => {
                self.range(&quantity);
                Some(quantity)
            }
            Err(error) => {
                self.unreadable(written.span, error);
                None
            }
        }
    }

    fn range(&mut self, quantity: &Quantity) {
        if quantity.is_empty_range() {
            let mut numbers = quantity.form().numbers();
            let mut next = || numbers.next().map(|n| n.to_string()).unwrap_or_default();
            let (low, high) = (next(), next());
            self.slip(Slip::EmptyRange { span: quantity.span(), low, high });
        }
    }

    fn unreadable(&mut self, span: Span, error: QuantityError) {
        let number = Text::new(self.source.slice(span), span);
        self.slip(Slip::UnreadableNumber { number, why: error.to_string() });
    }

    /// The exact number, or `None` after a slip.
    pub(super) fn number(&mut self, written: &Text) -> Option<Number> {
        match Number::parse(written.as_str()) {
            Ok(number) => Some(number),
            Err(error) => {
                self.slip(Slip::UnreadableNumber { number: written.clone(), why: error.to_string() });
                None
            }
        }
    }

    /// `26,5`, read as `26` and the next thing of a list.
    fn decimal_comma(&self, whole: Span) -> Option<Slip> {
        let behind = self.source.text.get(whole.end as usize..)?.strip_prefix(',')?;
        let decimals = behind.find(|c: char| !c.is_ascii_digit()).unwrap_or(behind.len());
        let span = Span::new(whole.file, whole.start as usize, whole.end as usize + 1 + decimals);
        let number = Text::new(self.source.slice(span), span);
        let why = format!("a decimal comma is written as a point, `{}`", number.value.replace(',', "."));
        (decimals > 0).then_some(Slip::UnreadableNumber { number, why })
    }

    /// The one unit of all amounts: the last one has it, and those that repeat it must agree.
    fn unit_of(&mut self, amounts: &Amounts<'_>, want: Want<'_>) -> Option<&'static Unit> {
        let amounts = || amounts.iter().copied().flatten();
        let Some(word) = amounts().rev().find_map(|amount| amount.unit.as_ref()) else {
            let number = amounts().last().map(|amount| amount.number.clone())?;
            match self.decimal_comma(number.span) {
                Some(slip) => self.slip(slip),
                None => self.slip(Slip::MissingUnit { number, likely: want.likely() }),
            }
            return None;
        };
        let unit = self.unit(word)?;
        for other in amounts().filter_map(|amount| amount.unit.as_ref()) {
            if other.value != word.value && self.unit(other)? != unit {
                let why = "both ends of a range are written in one unit".to_owned();
                self.slip(Slip::UnreadableNumber { number: other.clone(), why });
                return None;
            }
        }
        Some(unit)
    }

    fn unit(&mut self, word: &Text) -> Option<&'static Unit> {
        let unit = Unit::find(word.as_str());
        if unit.is_none() {
            let near = Unit::suggest(word.as_str()).into_iter().map(str::to_owned).collect();
            self.slip(Slip::UnknownUnit { unit: word.clone(), near });
        }
        unit
    }
}

/// The form with its exact numbers, where `number` can read each.
pub fn form(written: &QuantityForm, mut number: impl FnMut(&Amount) -> Option<Number>) -> Option<Form> {
    Some(match written {
        QuantityForm::Exact(n) => Form::Exact(number(n)?),
        QuantityForm::Max(n) => Form::Max(number(n)?),
        QuantityForm::Min(n) => Form::Min(number(n)?),
        QuantityForm::Between { low, high } => Form::Between(number(low)?, number(high)?),
        QuantityForm::Tolerance { nominal, plus, minus } => {
            Form::Tolerance { nominal: number(nominal)?, plus: number(plus)?, minus: number(minus)? }
        }
        QuantityForm::NewWorn { new, worn } => Form::NewWorn { new: number(new)?, worn: number(worn)? },
        QuantityForm::None => Form::None,
    })
}
