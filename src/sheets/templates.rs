//! The pages' shells, compiled once.
use super::SheetError;
use handlebars::Handlebars;
use serde::Serialize;
use std::sync::LazyLock;

/// Colours, type and panels: what all pages share.
pub const LOOK: &str = include_str!("look.css");

const SHELLS: [(&str, &str); 6] = [
    ("title", include_str!("title.hbs")),
    ("row", include_str!("bench/row.hbs")),
    ("side", include_str!("bench/side.hbs")),
    ("bench", include_str!("bench/page.hbs")),
    ("checklist", include_str!("checklist/page.hbs")),
    ("index", include_str!("index/page.hbs")),
];

static REGISTRY: LazyLock<Handlebars<'static>> = LazyLock::new(|| {
    let mut registry = Handlebars::new();
    registry.set_strict_mode(true);
    for (name, text) in SHELLS {
        registry.register_template_string(name, text).expect("the shells are compiled by a test");
    }
    registry
});

/// The page named `shell`, filled from `view`.
pub fn fill(shell: &str, view: &impl Serialize) -> Result<String, SheetError> {
    REGISTRY.render(shell, view).map_err(|error| SheetError::Template(error.to_string()))
}
