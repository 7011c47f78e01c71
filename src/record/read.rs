//! Reads a record: nothing in the file may be ambiguous, and every way it can be unusable has its own sentence.
use super::seal;
use super::shape::{FORMAT, Record, VERSION};
use serde::de::{Deserializer, MapAccess, SeqAccess, Visitor};
use serde::{Deserialize, de};
use serde_json::{Map, Value};
use std::fmt;

/// The largest record that is read, in bytes; a page writes a few ten thousand.
pub const LARGEST: u64 = 5 * 1024 * 1024;

/// A record, and whether its seal fits it.
#[derive(Debug, Clone)]
pub struct Opened {
    pub record: Record,
    pub sealed: bool,
}

/// Why a text is no record that can be judged. `line` and `column` from 1, where there is a place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadError {
    pub message: String,
    pub help: &'static str,
    pub place: Option<(usize, usize)>,
}

/// Reads the bytes of a record.
///
/// # Errors
/// Where it is too large, no UTF-8, no JSON, cut off, nested too deep, has a key twice, is of another format or version,
/// or lacks or adds a field.
pub fn read(bytes: &[u8]) -> Result<Opened, ReadError> {
    let fail = |message: &str, help| Err(ReadError { message: message.to_owned(), help, place: None });
    if bytes.len() as u64 > LARGEST {
        return fail("is larger than 5 MiB: no bench page writes such a record", AGAIN);
    }
    let Ok(text) = std::str::from_utf8(bytes) else {
        return fail("is not UTF-8 text", AGAIN);
    };
    let Once(value) = serde_json::from_str(text).map_err(|error| no_json(&error))?;
    let said = |key: &str| value.get(key);
    if said("format").and_then(Value::as_str) != Some(FORMAT) {
        return fail(
            "is no record: it does not say `\"format\": \"cotter-record\"`",
            "name a file that a bench page saved",
        );
    }
    if let Some(version) = said("version").and_then(Value::as_u64).filter(|it| *it != u64::from(VERSION)) {
        let message =
            format!("is a record of version {version}, and this program knows version {VERSION} only");
        return Err(ReadError { message, help: "use a Cotter as new as the page", place: None });
    }
    let wanted = seal::seal(&value);
    let record = Record::deserialize(&value).map_err(|error| ReadError {
        message: format!("is no whole record: {error}"),
        help: AGAIN,
        place: None,
    })?;
    let sealed = record.seal == wanted;
    Ok(Opened { record, sealed })
}

const AGAIN: &str = "save the record from the bench page again";

fn no_json(error: &serde_json::Error) -> ReadError {
    let place = Some((error.line(), error.column())).filter(|(line, _)| *line > 0);
    let said = error.to_string();
    let said = said.rsplit_once(" at line ").map_or(said.as_str(), |(said, _)| said);
    let message = if error.is_eof() {
        "ends in the middle: the record was cut off".to_owned()
    } else if said.starts_with("recursion limit") {
        "is nested deeper than any record".to_owned()
    } else if said.starts_with(TWICE) {
        format!("{said}, and which of the two holds cannot be told")
    } else {
        format!("is not JSON: {said}")
    };
    ReadError { message, help: AGAIN, place }
}

const TWICE: &str = "has the key ";

/// A value in which no object has a key twice.
struct Once(Value);

impl<'de> Deserialize<'de> for Once {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Once, D::Error> {
        deserializer.deserialize_any(OnceVisitor).map(Once)
    }
}

struct OnceVisitor;

impl<'de> Visitor<'de> for OnceVisitor {
    type Value = Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a JSON value")
    }
    fn visit_bool<E>(self, it: bool) -> Result<Value, E> {
        Ok(it.into())
    }
    fn visit_i64<E>(self, it: i64) -> Result<Value, E> {
        Ok(it.into())
    }
    fn visit_u64<E>(self, it: u64) -> Result<Value, E> {
        Ok(it.into())
    }
    fn visit_f64<E>(self, it: f64) -> Result<Value, E> {
        Ok(it.into())
    }
    fn visit_str<E>(self, it: &str) -> Result<Value, E> {
        Ok(it.into())
    }
    fn visit_unit<E>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }
    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Value, A::Error> {
        let mut all = Vec::new();
        while let Some(Once(item)) = items.next_element()? {
            all.push(item);
        }
        Ok(Value::Array(all))
    }
    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Value, A::Error> {
        let mut all = Map::new();
        while let Some(key) = entries.next_key::<String>()? {
            if all.contains_key(&key) {
                return Err(<A::Error as de::Error>::custom(format_args!("{TWICE}`{key}` twice")));
            }
            let Once(value) = entries.next_value()?;
            all.insert(key, value);
        }
        Ok(Value::Object(all))
    }
}
