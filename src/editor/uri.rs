//! `file:` addresses to paths and back (RFC 8089, RFC 3986).
use std::path::{Path, PathBuf};

/// The path of a file. What has no file of its own, as a page that was never saved, gets a folder of its own that
/// no disk has, so that it is worked on like any other.
pub fn to_path(uri: &str) -> PathBuf {
    match uri.strip_prefix("file://") {
        Some(rest) => {
            // A host, mostly none, stands before the first slash.
            let at = rest.find('/').unwrap_or(0);
            let path = decoded(rest.get(at..).unwrap_or(""));
            let drive = path.strip_prefix('/').filter(|rest| rest.as_bytes().get(1) == Some(&b':'));
            PathBuf::from(drive.map_or(path.clone(), str::to_owned))
        }
        None => Path::new(NOWHERE).join(uri.replace(['/', '\\'], "_")),
    }
}

/// A root that no disk has.
const NOWHERE: &str = "/not-on-disk:";

/// The address of a file.
pub fn of_path(path: &Path) -> String {
    let text = path.to_string_lossy().replace('\\', "/");
    let mut uri = String::from(if text.starts_with('/') { "file://" } else { "file:///" });
    for byte in text.bytes() {
        match byte {
            b'A'..=b'Z' | b'a'..=b'z' | b'0'..=b'9' | b'/' | b'-' | b'.' | b'_' | b'~' => {
                uri.push(byte.into())
            }
            _ => uri.push_str(&format!("%{byte:02X}")),
        }
    }
    uri
}

fn decoded(text: &str) -> String {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.bytes();
    while let Some(byte) = rest.next() {
        let mut ahead = rest.clone();
        let digit = |byte: Option<u8>| byte.and_then(|it| char::from(it).to_digit(16));
        match (byte, digit(ahead.next()), digit(ahead.next())) {
            (b'%', Some(high), Some(low)) => {
                bytes.push(u8::try_from(high * 16 + low).unwrap_or(b'%'));
                rest = ahead;
            }
            _ => bytes.push(byte),
        }
    }
    String::from_utf8_lossy(&bytes).into_owned()
}
