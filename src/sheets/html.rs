//! Writing HTML so that nothing an author wrote can be markup.
use std::fmt::Write as _;

/// `text` with the five characters escaped that could end a text or a quoted attribute.
pub fn escape(out: &mut String, text: &str) {
    if !needs_escape(text) {
        return out.push_str(text);
    }
    let mut from = 0;
    for (at, byte) in text.bytes().enumerate() {
        if let Some(entity) = entity(byte) {
            out.push_str(text.get(from..at).unwrap_or(""));
            out.push_str(entity);
            from = at + 1;
        }
    }
    out.push_str(text.get(from..).unwrap_or(""));
}

/// Whether one of the five stands in it; in most texts none does.
pub fn needs_escape(text: &str) -> bool {
    let ends = |byte: u8| b"&<>\"'".iter().fold(0, |any, &it| any | u8::from(byte == it));
    // Sixteen are looked at in one go, without a branch; what is left over together with what stands before it.
    let in_block = |block: &[u8; 16]| block.map(ends) != [0; 16];
    match text.as_bytes().as_chunks() {
        ([], short) => short.iter().any(|&byte| ends(byte) > 0),
        (blocks, _) => blocks.iter().any(in_block) || text.as_bytes().last_chunk().is_some_and(in_block),
    }
}

fn entity(byte: u8) -> Option<&'static str> {
    Some(match byte {
        b'&' => "&amp;",
        b'<' => "&lt;",
        b'>' => "&gt;",
        b'"' => "&quot;",
        b'\'' => "&#39;",
        _ => return None,
    })
}

/// [`escape`] into a string of its own.
pub fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 8);
    escape(&mut out, text);
    out
}

/// A label of ours to stand in a shell: its apostrophes end nothing there.
pub fn escaped_label(text: &str) -> String {
    escaped(text).replace("&#39;", "'")
}

/// A label of ours inside a CSS string.
pub fn css_label(text: &str) -> String {
    text.replace(['"', '\\', '<'], "")
}

/// `<tag class="class">text</tag>`; an empty class is left out. `tag` and `class` are the program's own words.
pub fn element(out: &mut String, tag: &str, class: &str, text: &str) {
    open(out, tag, class);
    escape(out, text);
    close(out, tag);
}

/// Words of an author's: a span of their own where they are in another language than the page.
pub fn author(out: &mut String, language: Option<&str>, text: &str) {
    let Some(language) = language.filter(|_| !text.is_empty()) else { return escape(out, text) };
    open_in(out, "span", language);
    escape(out, text);
    close(out, "span");
}

/// [`author`] into a string of its own.
pub fn authored(language: Option<&str>, text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 24);
    author(&mut out, language, text);
    out
}

/// What a tag says of the language of an author's words in it, blank and all; nothing where it is the page's.
pub fn in_language(language: Option<&str>) -> String {
    language.map(|it| format!(" lang=\"{it}\"")).unwrap_or_default()
}

/// `<tag lang="language">`.
pub fn open_in(out: &mut String, tag: &str, language: &str) {
    out.push('<');
    out.push_str(tag);
    out.push_str(" lang=\"");
    out.push_str(language);
    out.push_str("\">");
}

pub fn open(out: &mut String, tag: &str, class: &str) {
    out.push('<');
    out.push_str(tag);
    if !class.is_empty() {
        out.push_str(" class=\"");
        out.push_str(class);
        out.push('"');
    }
    out.push('>');
}

pub fn close(out: &mut String, tag: &str) {
    out.push_str("</");
    out.push_str(tag);
    out.push('>');
}

/// A link to a step of the same page.
pub fn step_link(out: &mut String, step: u32, words: &str) {
    out.push_str("<a href=\"#step-");
    number(out, step);
    out.push_str("\">");
    escape(out, words);
    close(out, "a");
}

/// A page without steps of its own, with its links to steps leading to another page. No author's text holds a quote
/// that could stand for one of ours.
pub fn steps_on(file: &str, page: &str) -> String {
    page.replace("href=\"#step-", &format!("href=\"{file}#step-"))
}

/// An entry of a page's contents.
pub fn entry(out: &mut String, anchor: &str, title: &str) {
    out.push_str("<li><a href=\"#");
    out.push_str(anchor);
    out.push_str("\">");
    escape(out, title);
    out.push_str("</a></li>\n");
}

/// A section with its heading; `body` is markup.
pub fn section(out: &mut String, anchor: &str, title: &str, body: &str) {
    out.push_str("<section class=\"");
    out.push_str(anchor);
    out.push_str("\" aria-labelledby=\"");
    out.push_str(anchor);
    out.push_str("\">\n<h2 id=\"");
    out.push_str(anchor);
    out.push_str("\">");
    escape(out, title);
    out.push_str("</h2>\n");
    out.push_str(body);
    out.push_str("</section>\n");
}

/// A number in decimal.
pub fn number(out: &mut String, value: u32) {
    if value >= 10 {
        number(out, value / 10);
    }
    let last = u8::try_from(value % 10).unwrap_or(0);
    out.push(char::from(b'0' + last));
}

/// A CSS string token, quotes included: all but letters, digits and blanks is written as an escape, so that
/// it can end neither the string nor the style element.
pub fn css_string(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 8);
    out.push('"');
    for c in text.chars() {
        if c.is_ascii_alphanumeric() || c == ' ' {
            out.push(c);
        } else {
            // The blank ends the escape, so that a blank of the text after it stays.
            let _ = write!(out, "\\{:x} ", u32::from(c));
        }
    }
    out.push('"');
    out
}

/// A procedure's number as one segment of a relative address.
pub fn path_segment(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for byte in text.bytes() {
        if byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_' | b'.') {
            out.push(char::from(byte));
        } else {
            let _ = write!(out, "%{byte:02X}");
        }
    }
    out
}

/// With a capital at the start.
pub fn sentence_case(text: &str) -> String {
    let mut chars = text.chars();
    let mut out = String::with_capacity(text.len());
    out.extend(chars.next().into_iter().flat_map(char::to_uppercase));
    out.push_str(chars.as_str());
    out
}
