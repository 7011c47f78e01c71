//! Findings for programs: told once with places and a fingerprint, then written in one of several formats.
pub mod baseline;
mod github;
mod json;
mod junit;
mod lines;
mod sarif;
mod told;

pub use told::{Told, of_file};

use super::tally::Tally;
use super::trouble::Trouble;
use crate::report::Severity;

/// What one run has to tell.
pub struct Answer<'a> {
    /// Of all files, in order.
    pub findings: &'a [Told],
    /// Every file that was looked at, as shown.
    pub files: &'a [String],
    pub troubles: &'a [Trouble],
    pub tally: Tally,
    /// From this weight on a finding counts as an error.
    pub threshold: Severity,
}

pub use github::answer as github;
pub use json::answer as json;
pub use junit::answer as junit;
pub use lines::answer as lines;
pub use sarif::answer as sarif;

/// On one line.
fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
