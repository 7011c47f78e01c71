//! How a quantity is printed: the author's figures, house typography.
use super::exact::Exact;
use super::number::Number;
use super::preferences::UnitPreferences;
use super::unit::Unit;
use super::value::{Form, Quantity};

impl Quantity {
    /// In the author's unit: "8–10 N·m", "9 ± 1 N·m", "max 0.5 mm", "none".
    pub fn print(&self) -> String {
        let unit = self.unit();
        match *self.form() {
            Form::Exact(n) => with_unit(&n.to_string(), n, unit),
            Form::Between(low, high) if low.is_negative() || high.is_negative() => {
                with_unit(&format!("{low} to {high}"), high, unit)
            }
            Form::Between(low, high) => with_unit(&format!("{low}–{high}"), high, unit),
            Form::Tolerance { nominal, plus, minus } if plus == minus => {
                tolerance(&format!("{nominal} ± {plus}"), unit)
            }
            Form::Tolerance { nominal, plus, minus } => {
                tolerance(&format!("{nominal} +{plus}/\u{2212}{minus}"), unit)
            }
            Form::Max(n) => format!("max {}", with_unit(&n.to_string(), n, unit)),
            Form::Min(n) => format!("min {}", with_unit(&n.to_string(), n, unit)),
            Form::None => "none".to_owned(),
            Form::NewWorn { new, worn } => format!(
                "new {}, worn {}",
                with_unit(&new.to_string(), new, unit),
                with_unit(&worn.to_string(), worn, unit)
            ),
        }
    }

    /// The same amount in the second unit: the author's own where written, else converted by `preferences`.
    /// `None` where one unit is enough.
    pub fn print_second(&self, preferences: &UnitPreferences) -> Option<String> {
        if let Some(also) = self.also() {
            return Some(also.print());
        }
        let converted = self.converted(self.counterpart(preferences)?).ok()?;
        Some(converted.print())
    }

    /// "8–10 N·m (71–88 lbf·in)".
    pub fn print_both(&self, preferences: &UnitPreferences) -> String {
        match self.print_second(preferences) {
            Some(second) => format!("{} ({second})", self.print()),
            None => self.print(),
        }
    }
}

impl std::fmt::Display for Quantity {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.print())
    }
}

/// The number's text and the symbol; only the signs that stand raised (90°, 5′) follow without a space.
fn with_unit(text: &str, number: Number, unit: &Unit) -> String {
    let one = Exact::from_integer(1);
    let symbol = match unit.plural {
        Some(plural) if number.value() > one => plural,
        _ => unit.symbol,
    };
    if unit.symbol == "°" { format!("{text}{symbol}") } else { format!("{text} {symbol}") }
}

fn tolerance(text: &str, unit: &Unit) -> String {
    let symbol = unit.plural.unwrap_or(unit.symbol);
    if symbol == "°" { format!("({text})°") } else { format!("{text} {symbol}") }
}
