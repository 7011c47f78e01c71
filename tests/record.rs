//! The record of a job: its limits, its seal, its reading, and what is held against the procedure.
mod faults;
mod limits;
mod page;
mod reading;
mod seal;
mod tampering;

use crate::support::shop::{self, Shop};
use cotter::model::Document;
use cotter::model::settings::Units;
use cotter::record::{self, Plan, Problem, Turn};
use cotter::source::{FileId, SourceFile};
use serde_json::{Value, json};

/// The demo procedure that has everything: models, a reading with outcomes, a hold, torques.
const DEMO: &str = "procedures/pump-f40/fw-pmp-014.cotter";
/// Its steps, found by eye in the printed checklist.
const SEAT: u32 = 18;
const HOLD: u32 = 21;
const SCREWS: u32 = 33;

fn document_of(name: &str) -> Document {
    let text = std::fs::read_to_string(shop::package(name)).unwrap();
    Shop::demo().compile(&SourceFile::new(FileId(0), name, text)).document
}

fn demo() -> Plan {
    Plan::of(&document_of(DEMO), &Units::default()).unwrap()
}

/// A plan of a text of its own.
fn plan_of(steps: &str) -> Plan {
    let source = SourceFile::new(FileId(0), "one.cotter", cotter::checks::example(steps));
    let compiled = Shop::default().compile(&source);
    let errors: Vec<_> = compiled.findings.iter().map(|it| &it.message).collect();
    assert!(compiled.document.slips.is_empty(), "{errors:?}");
    Plan::of(&compiled.document, &Units::default()).unwrap()
}

fn moment(second: usize) -> String {
    format!("2026-11-02T{:02}:{:02}:{:02}Z", 8 + second / 3600, second / 60 % 60, second % 60)
}

/// A record in which all is as the plan wants it, on the first of its models.
pub(crate) fn good(plan: &Plan) -> Value {
    let model = plan.models.first().cloned().unwrap_or_default();
    let is_for = |turn: &&Turn| {
        let steps = [plan.step(turn.step).unwrap(), plan.step(turn.at).unwrap()];
        // No finding is other than it should be: what hangs on one is not done.
        steps.iter().all(|step| step.is_for(&model) && step.hangs.iter().all(|hang| !hang.taken))
    };
    let steps: Vec<Value> = (1..)
        .zip(plan.turns.iter().filter(is_for))
        .map(|(at, turn)| entry(plan, turn, &moment(at)))
        .collect();
    sealed(json!({
        "format": "cotter-record", "version": 1,
        "procedure": {
            "number": plan.number, "title": plan.title, "revision": plan.revision, "source": plan.source,
        },
        "job": { "number": "4711", "serial": "300123", "technician": "Ada Fenn", "model": model },
        "started": moment(0), "saved": moment(3000), "steps": steps,
    }))
}

fn entry(plan: &Plan, turn: &Turn, at: &str) -> Value {
    let step = plan.step(turn.step).unwrap();
    let value = |field: &record::Field| {
        let (mut typed, mut told) = ("as found".to_owned(), ["", "", ""]);
        if let Some(limits) = &field.limits {
            typed = if limits.low.is_empty() { limits.high.clone() } else { limits.low.clone() };
            told = [&limits.low, &limits.high, &limits.unit];
        }
        let [low, high, unit] = told;
        json!({ "field": field.field, "attempt": 1, "label": field.label, "typed": typed, "unit": unit, "low": low,
            "high": high, "limits_in": unit, "at": at })
    };
    let owed = step.holds.iter().filter(|hold| hold.branch.is_none());
    let holds: Vec<Value> =
        owed.map(|it| json!({ "hold": it.hold, "role": it.role, "name": "Ben Moor", "at": at })).collect();
    let values: Vec<Value> = step.fields.iter().map(value).collect();
    json!({ "step": turn.step, "round": turn.round, "state": "done", "at": at, "attempts": 1, "values": values, "outcomes": [],
        "holds": holds })
}

/// With the seal that fits it.
fn sealed(mut record: Value) -> Value {
    record["seal"] = record::seal(&record).into();
    record
}

/// What is said of a record, by kind and step.
fn said(record: &Value, plan: &Plan) -> Vec<(&'static str, Option<u32>)> {
    problems(record, plan).into_iter().map(|it| (it.kind, it.step)).collect()
}

fn problems(record: &Value, plan: &Plan) -> Vec<Problem> {
    let opened = record::read(record.to_string().as_bytes()).unwrap_or_else(|error| panic!("{error:?}"));
    record::judge(&opened, plan)
}

/// The entry of a step, first way through.
fn step(record: &mut Value, number: u32) -> &mut Value {
    let steps = record["steps"].as_array_mut().unwrap();
    steps.iter_mut().find(|it| it["step"] == number && it["round"] == "").unwrap()
}

#[test]
fn a_good_record_of_every_demo_procedure_has_no_problem() {
    let mut seen = 0;
    for path in shop::sources(&shop::package("procedures")) {
        let document = document_of(&shop::name(&shop::package(""), &path));
        let Some(plan) = Plan::of(&document, &Units::default()) else { continue };
        let mut record = good(&plan);
        for entry in record["steps"].as_array_mut().unwrap() {
            let step = plan.steps.iter().find(|it| entry["step"] == it.step).unwrap();
            if step.choice {
                let (at, when) = (entry["at"].clone(), &step.branches[0].when);
                entry["outcomes"] = json!([{ "branch": 1, "attempt": 1, "when": when, "at": at }]);
            }
        }
        assert_eq!(said(&sealed(record), &plan), [], "{}", plan.number);
        seen += 1;
    }
    assert_eq!(seen, 12);
}

#[test]
fn the_plan_of_the_demo_procedure_is_what_its_text_says() {
    let plan = demo();
    let seat = plan.step(SEAT).unwrap();
    let limits = seat.fields[0].limits.as_ref().unwrap();
    assert_eq!((seat.fields[0].label.as_str(), seat.fields.len()), ("bearing seat diameter", 1));
    assert_eq!((limits.low.as_str(), limits.high.as_str(), limits.unit.as_str()), ("30.002", "30.015", "mm"));
    let branches: Vec<_> =
        seat.branches.iter().map(|it| (it.when.as_str(), it.below, it.above, it.stop)).collect();
    assert_eq!(branches, [("below", true, false, true), ("above", false, true, false)]);
    assert_eq!(seat.branches[1].redo, Some(record::Redo { from: SEAT, most: Some(2) }));
    assert_eq!(plan.step(HOLD).unwrap().holds[0].role, "instructor");
    let screws = &plan.step(SCREWS).unwrap().fields[0];
    assert_eq!(
        (screws.kind, screws.units.as_slice()),
        (record::Kind::Tightened, ["N·m", "lbf·in"].as_slice())
    );
}

#[test]
fn rounds_of_a_repeat_are_turns_of_their_own() {
    let plan = plan_of(
        "parts\n    screws \"Screw\" x2\nclean screws as first\nremove screws as last\n\
         repeat first to last for rear-left, front-right\n",
    );
    let turns: Vec<_> = plan.turns.iter().map(|it| (it.step, it.round.as_str(), it.at)).collect();
    let rounds = [(1, "rear left", 3), (2, "rear left", 3), (1, "front right", 3), (2, "front right", 3)];
    assert_eq!(turns, [vec![(1, "", 1), (2, "", 2)], rounds.to_vec(), vec![(3, "", 3)]].concat());
}

#[test]
fn what_the_page_was_made_of_tells_in_its_hash() {
    let hash = |text: &str| {
        let source = SourceFile::new(FileId(0), "one.cotter", text);
        record::fingerprint(&Shop::default().compile(&source).document)
    };
    let text = "procedure A-1 \"One\"\n";
    assert_ne!(hash(text), hash("procedure A-1 \"Two\"\n"));
    assert_eq!(hash(text), hash("\u{feff}procedure A-1 \"One\"\r\n"), "copying changes line ends");
    // The catalogue counts too.
    let demo = document_of(DEMO);
    assert!(demo.texts.len() > 1 && demo.texts.iter().any(|it| it.contains("catalogue ")));
    let alone = Document { texts: demo.texts[..1].to_vec(), ..demo.clone() };
    assert_ne!(record::fingerprint(&demo), record::fingerprint(&alone));
}
