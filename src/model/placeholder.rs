//! What keeps the place of words that are still to be written.

/// Whether a text is nothing but dots, dashes, underscores or question marks, in quotes or not. The first letter decides
/// for nearly every text.
#[inline]
pub fn stands_for_words(text: &str) -> bool {
    !text.as_bytes().first().is_some_and(u8::is_ascii_alphanumeric) && is_dots(text)
}

fn is_dots(text: &str) -> bool {
    let quote = |letter| matches!(letter, '"' | '“' | '”' | ' ');
    let stands = |letter| matches!(letter, '…' | '.' | '?' | '_' | '-' | '–' | '—');
    text.chars().all(|letter| stands(letter) || quote(letter)) && text.contains(stands)
}
