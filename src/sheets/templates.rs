//! The pages' shells, compiled once.
use super::{SheetError, html};
use handlebars::Handlebars;
use serde::Serialize;
use std::sync::LazyLock;

/// Colours, type and panels: what all pages share.
pub const LOOK: &str = include_str!("look.css");

/// Stands in a shell for the text of `title.hbs`. The shell takes it in when it is compiled: as the engine's
/// own partial it would be put together anew for each page.
const TITLE: (&str, &str) = ("{{> title}}", include_str!("title.hbs"));

const SHELLS: [(&str, &str); 4] = [
    ("side", include_str!("bench/side.hbs")),
    ("bench", include_str!("bench/page.hbs")),
    ("checklist", include_str!("checklist/page.hbs")),
    ("index", include_str!("index/page.hbs")),
];

static REGISTRY: LazyLock<Handlebars<'static>> = LazyLock::new(|| {
    let mut registry = Handlebars::new();
    registry.set_strict_mode(true);
    registry.register_escape_fn(html::escaped);
    for (name, text) in SHELLS {
        let whole = text.replace(TITLE.0, TITLE.1);
        registry.register_template_string(name, whole).expect("the shells are compiled by a test");
    }
    registry
});

/// The page named `shell`, filled from `view`; each `<!--name-->` in it then gives way to the text of that name.
///
/// The long texts and lists stay out of the template engine, which would copy them. No author's text can hold
/// such a mark: it is escaped.
pub fn fill(shell: &str, view: &impl Serialize, texts: &[(&str, &str)]) -> Result<String, SheetError> {
    let filled = REGISTRY.render(shell, view).map_err(|error| SheetError::Template(error.to_string()))?;
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
    let (before, rest) = text.split_once("<!--")?;
    let (mark, after) = rest.split_once("-->")?;
    Some((before, mark, after))
}
