//! Values that learners look up: blank on the handout, listed in the answers.
mod amounts;
mod answers;
mod numbers;
mod values;

pub use answers::answers;
pub use numbers::Numbers;

use super::wording::Run;
use super::{Sheet, blanks, html};

/// Which values are left blank. Safety messages keep all of theirs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Withhold {
    /// What is tightened to.
    pub torque: bool,
    /// What findings are held against.
    pub limits: bool,
}

/// What stands for a withheld value, as markup.
pub fn blank(out: &mut String, sheet: &Sheet<'_>) {
    out.push_str("<span class=\"look-up\" role=\"img\" aria-label=\"");
    html::escape(out, sheet.label("value-to-look-up"));
    out.push_str("\">______________</span>");
}

/// A line of words alone ("snug") gives no value away.
pub fn has_figures(line: &str) -> bool {
    line.contains(|c: char| c.is_ascii_digit())
}

impl Withhold {
    /// Whether that stretch of a sentence is withheld.
    pub fn hides(self, run: Run) -> bool {
        match run {
            Run::Torque => self.torque,
            Run::Limit => self.limits,
            _ => false,
        }
    }

    pub fn hides_blank(self, kind: blanks::Kind) -> bool {
        match kind {
            blanks::Kind::Tightened => self.torque,
            blanks::Kind::Reading => self.limits,
            blanks::Kind::Initials | blanks::Kind::Record => false,
        }
    }
}
