//! The two documents for authors that are made from the tables and the rules: `grammar/language.md` and
//! `grammar/rules.md`.
//!
//! Chapters are plain Markdown beside this file; a line `{{table}}` in one stands for a table of [`tables`].
mod highlighting;
mod rules;
mod tables;

pub use highlighting::highlighting;
pub use rules::rules;
pub use tables::{effect_words, takes};

const CHAPTERS: [&str; 15] = [
    include_str!("chapters/01-page.md"),
    include_str!("chapters/02-lines.md"),
    include_str!("chapters/03-head.md"),
    include_str!("chapters/04-things.md"),
    include_str!("chapters/05-quantities.md"),
    include_str!("chapters/06-torques.md"),
    include_str!("chapters/07-messages.md"),
    include_str!("chapters/08-steps.md"),
    include_str!("chapters/09-findings.md"),
    include_str!("chapters/10-control.md"),
    include_str!("chapters/11-details.md"),
    include_str!("chapters/12-prose.md"),
    include_str!("chapters/15-record.md"),
    include_str!("chapters/13-house.md"),
    include_str!("chapters/14-verbs.md"),
];

/// Heads a generated document, so that nobody mends it in the wrong place.
fn generated(from: &str) -> String {
    format!(
        "<!-- Generated from {from}. Mend it there, then run `COTTER_BLESS=1 cargo test --test main -- docs`. -->\n"
    )
}

/// The language reference, as Markdown.
pub fn language() -> String {
    let mut page = generated("src/handbook/chapters and the tables of grammar/");
    for chapter in CHAPTERS {
        for line in chapter.lines() {
            match table_name(line) {
                Some(name) => page.push_str(&tables::table(name).unwrap_or_else(|| line.to_owned())),
                None => page.push_str(line),
            }
            page.push('\n');
        }
        page.push('\n');
    }
    page.truncate(page.trim_end().len());
    page.push('\n');
    page
}

fn table_name(line: &str) -> Option<&str> {
    line.strip_prefix("{{")?.strip_suffix("}}")
}
