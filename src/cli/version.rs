//! What `cotter --version` says: enough to tell one program from another.
use crate::model::settings::NEWEST_EDITION;
use std::sync::LazyLock;

static LONG: LazyLock<String> = LazyLock::new(|| {
    let facts = [
        ("language edition", NEWEST_EDITION.to_string()),
        ("commit", env!("COTTER_COMMIT").to_owned()),
        ("target", env!("COTTER_TARGET").to_owned()),
        ("features", env!("COTTER_FEATURES").to_owned()),
        ("built by", env!("COTTER_RUSTC").to_owned()),
    ];
    let known = facts.into_iter().filter(|(_, value)| !value.is_empty());
    let lines: String = known.map(|(name, value)| format!("\n{name}: {value}")).collect();
    format!("{}{lines}", env!("CARGO_PKG_VERSION"))
});

/// The number, and a line for each fact of the build that is known.
pub fn long() -> &'static str {
    &LONG
}
