//! SHA-256 over a record in the canonical form of RFC 8785, and over the text that a page was made of.
use crate::model::Document;
use serde_json::Value;
use sha2::{Digest, Sha256};
use std::borrow::Cow;

/// `sha256:…` over everything in the record but its seal.
///
/// A record holds texts, whole numbers, lists and objects; of those the canonical form is: keys sorted by their UTF-16
/// units, no white space, texts as JSON escapes them at the least.
pub fn seal(record: &Value) -> String {
    let mut text = String::new();
    match record {
        Value::Object(fields) => object(&mut text, fields.iter().filter(|(key, _)| *key != "seal")),
        other => canonical(&mut text, other),
    }
    format!("sha256:{}", hexadecimal(&Sha256::digest(text.as_bytes())))
}

/// SHA-256 of the procedure's text and those of the catalogues that it draws on, each with its length before it. A mark
/// at the start and the kind of line ends do not count: the language does not see them, and copying changes them.
pub fn fingerprint(document: &Document) -> String {
    let mut hash = Sha256::new();
    for text in &document.texts {
        let text = text.trim_start_matches('\u{feff}');
        let plain = match memchr::memchr(b'\r', text.as_bytes()) {
            Some(_) => Cow::from(text.replace("\r\n", "\n")),
            None => Cow::from(text),
        };
        hash.update((plain.len() as u64).to_be_bytes());
        hash.update(plain.as_bytes());
    }
    hexadecimal(&hash.finalize())
}

fn canonical(out: &mut String, value: &Value) {
    match value {
        Value::Object(fields) => object(out, fields.iter()),
        Value::Array(items) => {
            out.push('[');
            for (index, item) in items.iter().enumerate() {
                out.push_str(if index > 0 { "," } else { "" });
                canonical(out, item);
            }
            out.push(']');
        }
        // For texts, whole numbers and the three words, this is what the canonical form wants.
        plain => out.push_str(&plain.to_string()),
    }
}

fn object<'a>(out: &mut String, fields: impl Iterator<Item = (&'a String, &'a Value)>) {
    let mut fields: Vec<_> =
        fields.map(|(key, value)| (key.encode_utf16().collect::<Vec<_>>(), key, value)).collect();
    fields.sort_by(|a, b| a.0.cmp(&b.0));
    out.push('{');
    for (index, (_, key, value)) in fields.into_iter().enumerate() {
        out.push_str(if index > 0 { "," } else { "" });
        canonical(out, &Value::from(key.as_str()));
        out.push(':');
        canonical(out, value);
    }
    out.push('}');
}

fn hexadecimal(bytes: &[u8]) -> String {
    let digit = |half: u8| char::from_digit(u32::from(half), 16).unwrap_or('0');
    bytes.iter().flat_map(|byte| [digit(byte >> 4), digit(byte & 15)]).collect()
}
