//! How a quantity is printed: the author's figures, house typography.
use super::number::Number;
use super::preferences::UnitPreferences;
use super::unit::Unit;
use super::value::{Form, Quantity};

/// What a language puts round the figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Figures {
    /// Between the whole and its tenths.
    pub decimal: char,
    /// Between two limits that a dash would not part, one of them being below zero.
    pub to: &'static str,
    pub max: &'static str,
    pub min: &'static str,
    pub none: &'static str,
    /// What a new one has, and from where on it is worn out.
    pub new: &'static str,
    pub worn: &'static str,
    /// Symbols that are words: as they stand in the table of units, and in the language.
    pub units: &'static [(&'static str, &'static str)],
}

impl Figures {
    pub const ENGLISH: Figures = Figures {
        decimal: '.',
        to: " to ",
        max: "max ",
        min: "min ",
        none: "none",
        new: "new ",
        worn: ", worn ",
        units: &[],
    };

    /// A unit's symbol in the language.
    pub fn unit(&self, symbol: &'static str) -> &'static str {
        self.units.iter().find(|(written, _)| *written == symbol).map_or(symbol, |(_, own)| own)
    }

    /// A number alone.
    pub fn number(&self, number: Number) -> String {
        let mut out = String::new();
        number.print_to(&mut out, self.decimal);
        out
    }

    /// The number and the symbol; only the signs that stand raised (90°, 5′) follow without a space.
    fn with_unit(&self, out: &mut String, number: Number, unit: &Unit) {
        number.print_to(out, self.decimal);
        out.push_str(if unit.symbol == "°" { "" } else { " " });
        // More than one, without a comparison of fractions.
        let plural = unit.plural.filter(|_| number.value().numer() > number.value().denom());
        out.push_str(self.unit(plural.unwrap_or(unit.symbol)));
    }

    fn labelled(&self, out: &mut String, label: &str, number: Number, unit: &Unit) {
        out.push_str(label);
        self.with_unit(out, number, unit);
    }

    /// "9 ± 1 N·m", "500 +1/−0 N·m", "(45 ± 5)°".
    fn tolerance(&self, out: &mut String, nominal: Number, plus: Number, minus: Number, unit: &Unit) {
        let symbol = self.unit(unit.plural.unwrap_or(unit.symbol));
        let raised = symbol == "°";
        out.push_str(if raised { "(" } else { "" });
        nominal.print_to(out, self.decimal);
        out.push_str(if plus == minus { " ± " } else { " +" });
        plus.print_to(out, self.decimal);
        if plus != minus {
            out.push_str("/\u{2212}");
            minus.print_to(out, self.decimal);
        }
        out.push_str(if raised { ")" } else { " " });
        out.push_str(symbol);
    }
}

impl Quantity {
    /// In the author's unit: "8–10 N·m", "9 ± 1 N·m", "max 0.5 mm", "none".
    pub fn print(&self) -> String {
        self.print_in(&Figures::ENGLISH)
    }

    /// The same in another language: "max. 0,5 mm".
    pub fn print_in(&self, figures: &Figures) -> String {
        // Room for the second unit too.
        let mut out = String::with_capacity(48);
        self.print_to(&mut out, figures);
        out
    }

    fn print_to(&self, out: &mut String, figures: &Figures) {
        let unit = self.unit();
        match *self.form() {
            Form::Exact(n) => figures.with_unit(out, n, unit),
            Form::Between(low, high) => {
                low.print_to(out, figures.decimal);
                out.push_str(if low.is_negative() || high.is_negative() { figures.to } else { "–" });
                figures.with_unit(out, high, unit);
            }
            Form::Tolerance { nominal, plus, minus } => figures.tolerance(out, nominal, plus, minus, unit),
            Form::Max(n) => figures.labelled(out, figures.max, n, unit),
            Form::Min(n) => figures.labelled(out, figures.min, n, unit),
            Form::None => out.push_str(figures.none),
            Form::NewWorn { new, worn } => {
                figures.labelled(out, figures.new, new, unit);
                figures.labelled(out, figures.worn, worn, unit);
            }
        }
    }

    /// The same amount in the second unit: the author's own where written, else converted by `preferences`.
    /// `None` where one unit is enough.
    pub fn print_second(&self, preferences: &UnitPreferences) -> Option<String> {
        self.second(preferences).map(|second| second.print())
    }

    /// The same amount in the second unit, as [`Quantity::print_second`] prints it.
    pub fn second(&self, preferences: &UnitPreferences) -> Option<Quantity> {
        match self.also() {
            Some(also) => Some(also.clone()),
            None => self.converted(self.counterpart(preferences)?).ok(),
        }
    }

    /// "8–10 N·m (71–88 lbf·in)", "max 45 °C (113 °F)".
    pub fn print_both(&self, preferences: &UnitPreferences) -> String {
        self.print_both_in(preferences, &Figures::ENGLISH)
    }

    /// The same in another language.
    pub fn print_both_in(&self, preferences: &UnitPreferences, figures: &Figures) -> String {
        let mut out = self.print_in(figures);
        if let Some(second) = self.second(preferences) {
            out.push_str(" (");
            match (self.form(), second.form()) {
                // The bound is said once.
                (Form::Max(_), &Form::Max(n)) | (Form::Min(_), &Form::Min(n)) => {
                    figures.with_unit(&mut out, n, second.unit());
                }
                _ => second.print_to(&mut out, figures),
            }
            out.push(')');
        }
        out
    }
}

impl std::fmt::Display for Quantity {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.print())
    }
}
