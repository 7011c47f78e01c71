//! `[names]` in free words.
use std::ops::Range;

/// The places of the names, without their brackets. `[5]`, `[see there]` and links are ordinary text.
pub fn names(text: &str) -> impl Iterator<Item = Range<usize>> + '_ {
    memchr::memchr_iter(b'[', text.as_bytes()).filter_map(|open| {
        let start = open + 1;
        let length = text.get(start..)?.find(']')?;
        let word = text.get(start..start + length)?;
        let behind = text.as_bytes().get(start + length + 1);
        (is_name(word) && behind != Some(&b'(')).then_some(start..start + length)
    })
}

fn is_name(text: &str) -> bool {
    text.starts_with(|c: char| c.is_ascii_alphabetic())
        && text.bytes().all(|b| b.is_ascii_alphanumeric() || matches!(b, b'-' | b'_'))
}
