//! A record: any bytes are read or refused with words, and one that can be read is held against a procedure. It is sealed
//! anew first, as a forger would: else the seal is all that is ever looked at.
use super::shop::compiled_alone;
use cotter::model::settings::Units;
use cotter::record::{Opened, Plan, judge, read, readings, seal};
use serde_json::Value;
use std::sync::OnceLock;

pub fn holds(bytes: &[u8]) {
    hold_against(read(bytes));
    let Ok(mut record) = serde_json::from_slice::<Value>(bytes) else { return };
    let fitting = seal(&record);
    let Some(fields) = record.as_object_mut() else { return };
    fields.insert("seal".to_owned(), fitting.into());
    let opened = read(record.to_string().as_bytes());
    assert!(opened.as_ref().map_or(true, |it| it.sealed), "a fitting seal is refused");
    hold_against(opened);
}

/// What a small procedure asks for, of which a whole record is small too.
pub fn plan() -> &'static Plan {
    static PLAN: OnceLock<Plan> = OnceLock::new();
    PLAN.get_or_init(|| {
        let compiled = compiled_alone(include_str!("record.cotter"));
        Plan::of(&compiled.document, &Units::default()).expect("it is a procedure")
    })
}

fn hold_against(opened: Result<Opened, cotter::record::ReadError>) {
    match opened {
        Ok(opened) => {
            let problems = judge(&opened, plan());
            assert!(problems.iter().all(|it| !it.message.is_empty() && !it.help.is_empty()));
            assert!(opened.sealed || !problems.is_empty(), "a broken seal passes");
            readings(&opened.record);
        }
        Err(error) => assert!(!error.message.is_empty()),
    }
}
