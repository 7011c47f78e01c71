//! Whatever single thing is changed in a saved record, the check does not pass.
use super::{demo, good, said, sealed};
use cotter::record;
use proptest::prelude::*;
use serde_json::{Value, json};

/// The JSON pointers of everything in a value, itself left out.
fn paths(value: &Value, at: &str, found: &mut Vec<String>) {
    let mut each = |key: &str, inner: &Value| {
        let path = format!("{at}/{key}");
        paths(inner, &path, found);
        found.push(path);
    };
    match value {
        Value::Object(fields) => fields.iter().for_each(|(key, inner)| each(key, inner)),
        Value::Array(items) => items.iter().enumerate().for_each(|(at, inner)| each(&at.to_string(), inner)),
        _ => {}
    }
}

/// Another value of about the same kind.
fn changed(value: &Value, how: usize, text: &str) -> Value {
    match value {
        Value::String(old) if how == 0 && !old.is_empty() => {
            let mut chars: Vec<char> = old.chars().collect();
            let at = text.len() % chars.len();
            chars[at] = if chars[at] == '1' { '2' } else { '1' };
            Value::from(chars.into_iter().collect::<String>())
        }
        Value::String(old) => Value::from(format!("{old}{text}x")),
        Value::Number(old) => json!(old.as_u64().unwrap() + 1 + how as u64),
        Value::Array(items) if items.is_empty() => json!([{}]),
        Value::Array(items) if how == 0 => Value::from(items[1..].to_vec()),
        Value::Array(items) => Value::from([items.clone(), vec![items[0].clone()]].concat()),
        Value::Object(_) if how == 0 => json!({}),
        Value::Object(fields) => {
            let mut fields = fields.clone();
            fields.insert(format!("x{text}"), json!(1));
            Value::from(fields)
        }
        _ => json!("x"),
    }
}

/// What `cotter record check` goes by: it can be read, and nothing is wrong with it.
fn passes(record: &Value, plan: &record::Plan) -> bool {
    record::read(record.to_string().as_bytes()).is_ok_and(|it| record::judge(&it, plan).is_empty())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_single_change_passes(place in any::<prop::sample::Index>(), how in 0_usize..3, text in "[a-z]{0,6}") {
        let plan = demo_plan();
        let mut record = good(plan);
        let mut all = Vec::new();
        paths(&record, "", &mut all);
        let path = place.get(&all);
        if how == 2 {
            let (parent, key) = path.rsplit_once('/').unwrap();
            match record.pointer_mut(parent).unwrap() {
                Value::Object(fields) => { fields.remove(key); }
                Value::Array(items) => { items.remove(key.parse().unwrap()); }
                _ => unreachable!(),
            }
        } else {
            let old = record.pointer(path).unwrap().clone();
            *record.pointer_mut(path).unwrap() = changed(&old, how, &text);
        }
        prop_assert!(!passes(&record, plan), "{path} changed, and it passes");
    }
}

fn demo_plan() -> &'static record::Plan {
    static PLAN: std::sync::OnceLock<record::Plan> = std::sync::OnceLock::new();
    PLAN.get_or_init(demo)
}

#[test]
fn an_untouched_record_passes_so_that_the_above_says_something() {
    assert!(passes(&good(demo_plan()), demo_plan()));
}

#[test]
fn a_broken_seal_is_said_once_and_alone() {
    let mut record = good(demo_plan());
    record["job"]["number"] = "4712".into();
    record["steps"][3]["state"] = "open".into();
    assert_eq!(said(&record, demo_plan()), [("seal-broken", None)]);
    // Sealed anew it is another matter: the seal holds off slips, not forgers.
    assert_eq!(said(&sealed(record), demo_plan()), [("not-done", Some(4))]);
}
