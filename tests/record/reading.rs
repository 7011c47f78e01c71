//! Every way in which a file can be no record has its own sentence, and none ends the program.
use super::{demo, good};
use cotter::record::{self, ReadError};
use serde_json::{Value, json};

fn refused(bytes: &[u8]) -> ReadError {
    record::read(bytes).err().unwrap_or_else(|| panic!("read: {}", String::from_utf8_lossy(bytes)))
}

#[test]
fn a_file_that_is_no_record_is_told_of() {
    let cases: [(&[u8], &str); 9] = [
        (b"", "ends in the middle"),
        (b"{\"format\": \"cotter-record\", \"ver", "ends in the middle"),
        (b"\xff\xfe{}", "is not UTF-8"),
        (b"hello", "is not JSON"),
        (b"{} {}", "is not JSON"),
        (b"{}", "is no record"),
        (b"{\"format\": \"cotter-record\", \"version\": 2}", "of version 2"),
        (b"{\"format\": \"cotter-record\", \"version\": 1}", "missing field"),
        (b"{\"format\": \"cotter-record\", \"version\": 1, \"version\": 1}", "the key `version` twice"),
    ];
    for (bytes, words) in cases {
        let error = refused(bytes);
        assert!(error.message.contains(words), "{words}: {error:?}");
        assert!(!error.help.is_empty());
    }
}

#[test]
fn a_key_that_stands_twice_far_inside_is_found_with_its_line() {
    let text = serde_json::to_string_pretty(&good(&demo())).unwrap();
    let twice = text.replacen("\"typed\":", "\"typed\": \"8\",\n\"typed\":", 1);
    let error = refused(twice.as_bytes());
    assert!(error.message.contains("`typed` twice"), "{error:?}");
    let line = twice[..twice.match_indices("\"typed\":").nth(1).unwrap().0].matches('\n').count() + 1;
    assert_eq!(error.place.map(|(line, _)| line), Some(line));
}

#[test]
fn a_large_and_a_deep_file_are_refused() {
    let large = vec![b' '; usize::try_from(record::LARGEST).unwrap() + 1];
    assert!(refused(&large).message.contains("larger than 5 MiB"));
    let deep = [b"[".repeat(100_000), b"]".repeat(100_000)].concat();
    assert!(refused(&deep).message.contains("nested deeper"));
    let inside = format!("{{\"format\": {}1", "{\"a\": ".repeat(100_000));
    assert!(refused(inside.as_bytes()).message.contains("nested deeper"));
}

#[test]
fn no_part_of_a_record_cut_off_is_one() {
    let text = good(&demo()).to_string();
    for end in (0..text.len()).step_by(97).filter(|end| text.is_char_boundary(*end)) {
        refused(&text.as_bytes()[..end]);
    }
}

#[test]
fn the_published_schema_is_current() {
    let path = crate::support::shop::package("grammar/record.schema.json");
    if std::env::var_os("COTTER_BLESS").is_some() {
        std::fs::write(&path, record::Record::schema()).unwrap();
    }
    assert_eq!(std::fs::read_to_string(&path).unwrap(), record::Record::schema(), "bless it");
}

#[test]
fn the_schema_takes_a_good_record_and_no_other_shape() {
    let schema: Value = serde_json::from_str(&record::Record::schema()).unwrap();
    let validator = jsonschema::draft202012::new(&schema).unwrap();
    let record = good(&demo());
    assert!(validator.is_valid(&record), "{:?}", validator.iter_errors(&record).next());
    let faults: [(&str, Value); 8] = [
        ("/format", json!("other")),
        ("/version", json!(2)),
        ("/seal", json!("sha256:12")),
        ("/started", json!("yesterday")),
        ("/job/number", json!(4711)),
        ("/steps/0/step", json!(0)),
        ("/steps/0/state", json!("half done")),
        ("/steps/0/values", json!(null)),
    ];
    for (path, fault) in faults {
        let mut broken = record.clone();
        *broken.pointer_mut(path).unwrap() = fault;
        assert!(!validator.is_valid(&broken), "{path}");
    }
    for path in ["", "/procedure", "/job", "/steps/0"] {
        let mut more = record.clone();
        more.pointer_mut(path).unwrap()["more"] = json!(1);
        assert!(!validator.is_valid(&more), "{path} takes a field that nobody knows");
    }
}
