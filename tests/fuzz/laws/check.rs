//! The whole check, with the ledger and every rule: findings lie in the text, in order and the same each time; mends can be
//! applied; and what only some commands work out is worked out.
use super::parse::lie_in;
use super::shop::{compiled, demo, shop, source};
use cotter::compare::compare;
use cotter::workspace::fixes::{Looked, of};
use cotter::{Compiled, draft, syntax};

pub fn holds(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    let source = source(&text);
    let Compiled { document, findings } = compiled(&source);
    lie_in(&text, &findings);
    assert!(findings.is_sorted_by_key(|it| (it.span.start, it.span.end)), "findings are not in order");
    assert_eq!(compiled(&source).findings, findings, "a second look finds something else");
    let tree = &syntax::parse(&source).tree;
    let looked = Looked {
        settings: &shop().settings,
        source: &source,
        document: &document,
        findings: &findings,
        tree,
    };
    for fix in findings.iter().flat_map(|finding| of(&looked, finding)) {
        for edit in &fix.edits {
            assert!(text.get(edit.span.range()).is_some(), "{}: {:?}", fix.title, edit.span);
        }
    }
    if let Some(draft) = draft::rebuild(&document, &document.declarations, &shop().register) {
        assert!(text.is_char_boundary(draft.place), "a draft would cut a character");
    }
    let same = compare(&document, &document).changes;
    assert!(same.is_empty(), "it differs from itself: {same:#?}");
    compare(&demo().document, &document);
}
