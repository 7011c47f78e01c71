//! What a file of the user's would become, as a difference.

/// The lines that differ, with two around them; `done` says what was done to the second text.
pub fn unified(shown: &str, done: &str, before: &str, after: &str) -> String {
    let difference = similar::TextDiff::from_lines(before, after);
    difference.unified_diff().context_radius(2).header(shown, &format!("{shown}, {done}")).to_string()
}
