//! The pages' shells, compiled once.
use super::language::{PerLanguage, Words, put_in};
use super::{SheetError, html};
use handlebars::Handlebars;
use memchr::memmem::Finder;
use serde::Serialize;
use std::sync::LazyLock;

/// Colours, type and panels: what all pages share.
pub const LOOK: &str = include_str!("look.css");

/// Stands in a shell for the text of `title.hbs`. The shell takes it in when it is compiled: as the engine's
/// own partial it would be put together anew for each page.
const TITLE: (&str, &str) = ("{{> title}}", include_str!("title.hbs"));

const SHELLS: [(&str, &str); 8] = [
    ("side", include_str!("bench/side.hbs")),
    ("bench", include_str!("bench/page.hbs")),
    ("checklist", include_str!("checklist/page.hbs")),
    ("assessment", include_str!("assessment/page.hbs")),
    ("answers", include_str!("handout/page.hbs")),
    ("kit", include_str!("kit/page.hbs")),
    ("changes", include_str!("changes/page.hbs")),
    ("index", include_str!("index/page.hbs")),
];

static SHELLS_BY_LANGUAGE: PerLanguage<Handlebars<'static>> = PerLanguage::new();

/// The shells with the words of a language in them.
fn shells(words: &Words) -> Handlebars<'static> {
    let mut registry = Handlebars::new();
    registry.set_strict_mode(true);
    registry.register_escape_fn(html::escaped);
    for (name, text) in SHELLS {
        let whole = put_in(&text.replace(TITLE.0, TITLE.1), words, html::escaped_label);
        registry.register_template_string(name, whole).expect("the shells are compiled by a test");
    }
    registry
}

/// The style of a sheet with the words of a language in it; `kept` keeps it once it is made.
pub fn style(kept: &'static PerLanguage<String>, parts: &[&str], words: &Words) -> &'static str {
    // An empty string behind the last counter says nothing.
    kept.get(words.language(), || put_in(&parts.concat(), words, html::css_label).replace(" \"\"", ""))
}

/// The page named `shell` in a language, filled from `view`; each `<!--name-->` in it then gives way to the text of that name.
///
/// The long texts and lists stay out of the template engine, which would copy them. No author's text can hold
/// such a mark: it is escaped.
pub fn fill(
    shell: &str,
    words: &Words,
    view: &impl Serialize,
    texts: &[(&str, &str)],
) -> Result<String, SheetError> {
    let registry = SHELLS_BY_LANGUAGE.get(words.language(), || shells(words));
    let filled = registry.render(shell, view).map_err(|error| SheetError::Template(error.to_string()))?;
    let length = texts.iter().map(|(_, text)| text.len()).sum::<usize>();
    let mut page = String::with_capacity(filled.len() + length);
    let mut rest = filled.as_str();
    while let Some((before, mark, after)) = next_mark(rest) {
        page.push_str(before);
        page.push_str(texts.iter().find(|(name, _)| *name == mark).map_or("", |(_, text)| text));
        rest = after;
    }
    page.push_str(rest);
    Ok(page)
}

fn next_mark(text: &str) -> Option<(&str, &str, &str)> {
    static OPENS: LazyLock<Finder<'static>> = LazyLock::new(|| Finder::new("<!--"));
    static ENDS: LazyLock<Finder<'static>> = LazyLock::new(|| Finder::new("-->"));
    let (before, rest) = text.split_at_checked(OPENS.find(text.as_bytes())?)?;
    let rest = rest.strip_prefix("<!--")?;
    let (mark, rest) = rest.split_at_checked(ENDS.find(rest.as_bytes())?)?;
    Some((before, mark, rest.strip_prefix("-->")?))
}
