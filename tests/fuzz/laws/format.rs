//! The formatter: the same ink, the same meaning, and nothing left for a second run.
use super::shop::{compiled, source};
use cotter::syntax::format as formatted;

pub fn holds(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    let once = formatted(&source(&text));
    let twice = formatted(&source(&once));
    assert_eq!(once, twice, "a second run changes it");
    assert_eq!(ink(&text), ink(&once), "something is lost");
    let (before, after) = (meaning(&text), meaning(&once));
    assert_eq!(before.1, after.1, "other findings");
    assert_eq!(before.0, after.0, "it means something else");
}

fn ink(text: &str) -> String {
    text.chars().filter(|letter| !letter.is_whitespace() && *letter != '\u{feff}').collect()
}

/// The resolved document without its text and its places, and the rules of its findings in order.
fn meaning(text: &str) -> (String, Vec<&'static str>) {
    let mut compiled = compiled(&source(text));
    compiled.document.texts.clear();
    let rules = compiled.findings.iter().map(|it| it.rule).collect();
    (without_places(&format!("{:?}", compiled.document)), rules)
}

/// What a debug print says, without the places in it.
fn without_places(printed: &str) -> String {
    let mut plain = String::with_capacity(printed.len());
    let mut rest = printed;
    while let Some(at) = ["Span {", "lines: ["].iter().filter_map(|mark| rest.find(mark)).min() {
        let (before, from) = rest.split_at(at);
        plain.push_str(before);
        let close = if from.starts_with("Span") { '}' } else { ']' };
        rest = from.split_once(close).map_or("", |(_, behind)| behind);
    }
    plain + rest
}
