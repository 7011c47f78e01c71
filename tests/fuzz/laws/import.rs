//! A list of steps: what is made of it can be read.
use super::shop::alone;
use cotter::import::import as imported;
use cotter::syntax::parse;

pub fn holds(bytes: &[u8]) {
    let Ok(list) = std::str::from_utf8(bytes) else { return };
    // The program refuses these as no text.
    if list.contains('\0') {
        return;
    }
    let Ok(made) = imported(list, "X-1") else { return };
    let findings = parse(&alone(&made.source)).findings;
    assert!(findings.is_empty(), "{findings:#?}\n{}", made.source);
    assert!(made.typed <= made.lines, "{made:#?}");
}
