//! How a quantity is printed: the author's figures, house typography.
use super::number::Number;
use super::preferences::UnitPreferences;
use super::unit::Unit;
use super::value::{Form, Quantity};

impl Quantity {
    /// In the author's unit: "8–10 N·m", "9 ± 1 N·m", "max 0.5 mm", "none".
    pub fn print(&self) -> String {
        // Room for the second unit too.
        let mut out = String::with_capacity(48);
        self.print_to(&mut out);
        out
    }

    fn print_to(&self, out: &mut String) {
        let unit = self.unit();
        match *self.form() {
            Form::Exact(n) => with_unit(out, n, unit),
            Form::Between(low, high) => {
                low.print_to(out);
                out.push_str(if low.is_negative() || high.is_negative() { " to " } else { "–" });
                with_unit(out, high, unit);
            }
            Form::Tolerance { nominal, plus, minus } => tolerance(out, nominal, plus, minus, unit),
            Form::Max(n) => labelled(out, "max ", n, unit),
            Form::Min(n) => labelled(out, "min ", n, unit),
            Form::None => out.push_str("none"),
            Form::NewWorn { new, worn } => {
                labelled(out, "new ", new, unit);
                labelled(out, ", worn ", worn, unit);
            }
        }
    }

    /// The same amount in the second unit: the author's own where written, else converted by `preferences`.
    /// `None` where one unit is enough.
    pub fn print_second(&self, preferences: &UnitPreferences) -> Option<String> {
        self.second(preferences).map(|second| second.print())
    }

    fn second(&self, preferences: &UnitPreferences) -> Option<Quantity> {
        match self.also() {
            Some(also) => Some(also.clone()),
            None => self.converted(self.counterpart(preferences)?).ok(),
        }
    }

    /// "8–10 N·m (71–88 lbf·in)", "max 45 °C (113 °F)".
    pub fn print_both(&self, preferences: &UnitPreferences) -> String {
        let mut out = self.print();
        if let Some(second) = self.second(preferences) {
            out.push_str(" (");
            match (self.form(), second.form()) {
                // The bound is said once.
                (Form::Max(_), &Form::Max(n)) | (Form::Min(_), &Form::Min(n)) => {
                    with_unit(&mut out, n, second.unit());
                }
                _ => second.print_to(&mut out),
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

/// The number and the symbol; only the signs that stand raised (90°, 5′) follow without a space.
fn with_unit(out: &mut String, number: Number, unit: &Unit) {
    number.print_to(out);
    out.push_str(if unit.symbol == "°" { "" } else { " " });
    // More than one, without a comparison of fractions.
    let plural = unit.plural.filter(|_| number.value().numer() > number.value().denom());
    out.push_str(plural.unwrap_or(unit.symbol));
}

fn labelled(out: &mut String, label: &str, number: Number, unit: &Unit) {
    out.push_str(label);
    with_unit(out, number, unit);
}

/// "9 ± 1 N·m", "500 +1/−0 N·m", "(45 ± 5)°".
fn tolerance(out: &mut String, nominal: Number, plus: Number, minus: Number, unit: &Unit) {
    let symbol = unit.plural.unwrap_or(unit.symbol);
    let raised = symbol == "°";
    out.push_str(if raised { "(" } else { "" });
    nominal.print_to(out);
    out.push_str(if plus == minus { " ± " } else { " +" });
    plus.print_to(out);
    if plus != minus {
        out.push_str("/\u{2212}");
        minus.print_to(out);
    }
    out.push_str(if raised { ")" } else { " " });
    out.push_str(symbol);
}
