//! Each kind of fault in a record whose seal fits is told of, once, at its step.
use super::{HOLD, SCREWS, SEAT, demo, good, moment, plan_of, problems, said, sealed, step};
use cotter::record::Plan;
use serde_json::{Value, json};

/// What is said of a good record of the demo procedure with this change.
fn after(change: impl FnOnce(&mut Value)) -> Vec<(&'static str, Option<u32>)> {
    let plan = demo();
    let mut record = good(&plan);
    change(&mut record);
    said(&sealed(record), &plan)
}

#[test]
fn a_record_of_another_procedure_revision_or_text() {
    assert_eq!(after(|it| it["procedure"]["number"] = "FW-PMP-021".into()), [("other-procedure", None)]);
    assert_eq!(after(|it| it["procedure"]["revision"] = "B, 2025-01-10".into()), [("other-revision", None)]);
    assert_eq!(after(|it| it["procedure"]["source"] = "0".repeat(64).into()), [("other-source", None)]);
    assert_eq!(after(|it| it["procedure"]["title"] = "Another".into()), [("other-source", None)]);
}

#[test]
fn a_job_that_is_not_known() {
    for field in ["number", "serial", "technician"] {
        assert_eq!(after(|it| it["job"][field] = "  ".into()), [("job-incomplete", None)], "{field}");
    }
    let said = after(|it| it["job"]["model"] = "F41".into());
    assert!(said.contains(&("unknown-model", None)), "{said:?}");
}

#[test]
fn steps_that_are_not_done_are_one_message() {
    let plan = demo();
    let mut record = good(&plan);
    step(&mut record, 3)["state"] = "open".into();
    record["steps"].as_array_mut().unwrap().retain(|it| !(12..=14).contains(&it["step"].as_u64().unwrap()));
    let problems = problems(&sealed(record), &plan);
    assert_eq!(problems.len(), 1);
    assert_eq!(problems[0].message, "not done: step 3, steps 12 to 14");
}

#[test]
fn a_step_that_is_put_aside_must_be_one_that_may_be() {
    assert_eq!(after(|it| step(it, 3)["state"] = "not-applicable".into()), [("not-done", Some(3))]);
}

const LOOK: &str = "parts\n    pump \"Pump\"\ninspect pump \"cracks\" as look\n    if cracked: report supervisor\n\
                    clean pump\n    only: look cracked\n";

/// The look came out so, and the step that hangs on it was left so.
fn looked(cracked: bool, cleaned: &str) -> Vec<(&'static str, Option<u32>)> {
    let plan = plan_of(LOOK);
    let mut record = good(&plan);
    let mut next = step(&mut record, 1).clone();
    (next["step"], next["at"], next["state"]) = (2.into(), moment(2).into(), cleaned.into());
    let steps = record["steps"].as_array_mut().unwrap();
    steps.truncate(1);
    if !cleaned.is_empty() {
        steps.push(next);
    }
    if cracked {
        steps[0]["outcomes"] = json!([{ "branch": 1, "attempt": 1, "when": "cracked", "at": moment(1) }]);
    }
    said(&sealed(record), &plan)
}

#[test]
fn a_step_that_hangs_on_a_finding_is_done_if_it_came_true_and_only_then() {
    assert_eq!(looked(true, "done"), []);
    assert_eq!(looked(false, ""), []);
    assert_eq!(looked(false, "not-applicable"), []);
    assert_eq!(looked(false, "done"), [("not-asked-for", Some(2))]);
    assert_eq!(looked(true, ""), [("not-done", Some(2))]);
    assert_eq!(looked(true, "not-applicable"), [("not-done", Some(2))]);
}

#[test]
fn what_the_record_cannot_tell_may_be_put_aside() {
    let plan = plan_of(
        "parts\n    shaft \"Shaft\"\nmeasure shaft \"seat\" 12.0 to 12.4 mm as seat\n    if outside: report supervisor\n\
        clean shaft\n    only: seat above\n",
    );
    assert_eq!(plan.step(2).unwrap().hangs, []);
    let mut record = good(&plan);
    step(&mut record, 2)["state"] = "not-applicable".into();
    assert_eq!(said(&sealed(record), &plan), []);
}

#[test]
fn a_step_of_another_model_or_of_none_at_all() {
    let other = |it: &mut Value, number: u32| {
        let mut entry = step(it, 4).clone();
        entry["step"] = number.into();
        entry["at"] = moment(4).into();
        it["steps"].as_array_mut().unwrap().insert(4, entry);
    };
    assert_eq!(after(|it| other(it, 5)), [("not-for-model", Some(5))]);
    assert_eq!(after(|it| other(it, 500))[0], ("unknown-step", Some(500)));
    assert_eq!(after(|it| other(it, 4)), [("unknown-step", Some(4))]);
}

fn outcome(record: &mut Value, branch: u32, attempt: u32, when: &str) {
    let entry = step(record, SEAT);
    let at = entry["at"].clone();
    let outcome = json!({ "branch": branch, "attempt": attempt, "when": when, "at": at });
    entry["outcomes"].as_array_mut().unwrap().push(outcome);
}

fn type_seat(record: &mut Value, attempt: usize, typed: &str) {
    let entry = step(record, SEAT);
    entry["attempts"] = attempt.max(entry["attempts"].as_u64().unwrap() as usize).into();
    let values = entry["values"].as_array_mut().unwrap();
    while values.len() < attempt {
        let mut next = values[0].clone();
        next["attempt"] = (values.len() + 1).into();
        values.push(next);
    }
    values[attempt - 1]["typed"] = typed.into();
}

#[test]
fn a_value_out_of_limits_needs_the_outcome_of_its_side() {
    let plan = demo();
    let mut record = good(&plan);
    type_seat(&mut record, 1, "29,998");
    let problems = problems(&sealed(record), &plan);
    assert_eq!(problems[0].kind, "out-of-limits");
    assert!(problems[0].message.starts_with("bearing seat diameter reads 29,998 mm, below 30.002–30.015 mm"));
    let wrong_side = after(|it| {
        type_seat(it, 1, "29.998");
        outcome(it, 2, 1, "above");
    });
    assert!(wrong_side.contains(&("out-of-limits", Some(SEAT))), "{wrong_side:?}");
    assert_eq!(after(|it| outcome(it, 1, 1, "below"))[0], ("outcome-without-cause", Some(SEAT)));
    assert_eq!(after(|it| type_seat(it, 1, "thirty")), [("no-number", Some(SEAT))]);
    assert_eq!(after(|it| type_seat(it, 1, " ")), [("value-missing", Some(SEAT))]);
    assert_eq!(after(|it| step(it, SEAT)["values"] = json!([])), [("value-missing", Some(SEAT))]);
}

#[test]
fn after_a_stop_nothing_is_owed_and_nothing_goes_on() {
    let stop = |it: &mut Value| {
        type_seat(it, 1, "29.998");
        outcome(it, 1, 1, "below");
    };
    let ended = after(|it| {
        stop(it);
        it["steps"]
            .as_array_mut()
            .unwrap()
            .retain(|entry| entry["step"].as_u64().unwrap() <= u64::from(SEAT));
    });
    assert_eq!(ended, []);
    assert_eq!(after(stop)[0], ("after-stop", Some(SEAT + 1)));
}

#[test]
fn a_step_done_again_needs_its_outcome_and_has_an_end() {
    let again = |it: &mut Value, times: usize| {
        for attempt in 1..=times {
            type_seat(it, attempt, "30.020");
            outcome(it, 2, u32::try_from(attempt).unwrap(), "above");
        }
        type_seat(it, times + 1, "30.010");
    };
    assert_eq!(after(|it| again(it, 1)), []);
    assert_eq!(after(|it| again(it, 2)), []);
    assert_eq!(after(|it| again(it, 3)), [("too-often", Some(SEAT))]);
    let not_again = after(|it| {
        type_seat(it, 1, "30.020");
        outcome(it, 2, 1, "above");
    });
    assert_eq!(not_again, [("not-done-again", Some(SEAT))]);
    assert_eq!(after(|it| type_seat(it, 2, "30.010")), [("attempt-missing", Some(SEAT))]);
    let gap = after(|it| {
        type_seat(it, 1, "30.010");
        step(it, SEAT)["values"][0]["attempt"] = 4_000_000_000_u32.into();
    });
    assert_eq!(gap, [("attempt-missing", Some(SEAT))]);
}

/// Grease, a hold, a reading that sends back to the grease: done twice, the second time at 11, 12 and 13.
fn greased_twice() -> (Plan, Value) {
    let plan = plan_of(
        "parts\n    shaft \"Shaft\"\nclean shaft as start\nhold instructor \"the shaft is clean\"\n\
        measure shaft \"run-out\" max 0.05 mm as play\n    if above: repeat from start, at most 3 times\n",
    );
    let mut record = good(&plan);
    for (number, second) in [(1, 11), (2, 12), (3, 13)] {
        let entry = step(&mut record, number);
        (entry["at"], entry["attempts"]) = (moment(second).into(), 2.into());
    }
    step(&mut record, 2)["holds"][0]["at"] = moment(12).into();
    let entry = step(&mut record, 3);
    let mut second = entry["values"][0].clone();
    (second["attempt"], second["at"]) = (2.into(), moment(13).into());
    entry["values"][0]["typed"] = "0.09".into();
    entry["values"].as_array_mut().unwrap().push(second);
    entry["outcomes"] = json!([{ "branch": 1, "attempt": 1, "when": "above", "at": moment(4) }]);
    (plan, record)
}

#[test]
fn all_that_an_outcome_sends_back_over_is_done_again() {
    let (plan, record) = greased_twice();
    assert_eq!(said(&sealed(record), &plan), []);
    let after = |change: &dyn Fn(&mut Value)| {
        let (plan, mut record) = greased_twice();
        change(&mut record);
        said(&sealed(record), &plan)
    };
    let before = after(&|it| step(it, 1)["at"] = moment(3).into());
    assert_eq!(before, [("not-done-again", Some(1))], "ticked before the reading");
    let once = after(&|it| step(it, 1)["attempts"] = 1.into());
    assert_eq!(once, [("not-done-again", Some(1))]);
    let thrice = after(&|it| step(it, 1)["attempts"] = 3.into());
    assert_eq!(thrice, [("attempt-missing", Some(1))]);
    let many = after(&|it| step(it, 1)["attempts"] = 4_000_000_000_u32.into());
    assert_eq!(many, [("attempt-missing", Some(1))]);
    let old_signature = after(&|it| step(it, 2)["holds"][0]["at"] = moment(2).into());
    assert_eq!(old_signature, [("hold-passed", Some(2))], "signed before it was cleaned again");
}

#[test]
fn holds_are_signed_by_another_and_in_order() {
    assert_eq!(after(|it| step(it, HOLD)["holds"] = json!([])), [("hold-unsigned", Some(HOLD))]);
    assert_eq!(after(|it| step(it, HOLD)["holds"][0]["name"] = " ".into()), [("hold-unsigned", Some(HOLD))]);
    assert_eq!(
        after(|it| step(it, HOLD)["holds"][0]["name"] = "ada  FENN".into()),
        [("signed-by-doer", Some(HOLD))]
    );
    assert_eq!(
        after(|it| step(it, HOLD)["holds"][0]["role"] = "inspector".into())[0],
        ("unknown-signature", Some(HOLD))
    );
    let early = after(|it| step(it, HOLD)["holds"][0]["at"] = moment(2).into());
    assert_eq!(early, [("hold-passed", Some(HOLD))]);
    let passed = after(|it| {
        let entry = step(it, SCREWS);
        entry["at"] = moment(2).into();
        entry["values"][0]["at"] = moment(2).into();
    });
    assert_eq!(passed, [("hold-passed", Some(SCREWS))]);
}

#[test]
fn what_a_record_says_of_its_own_limits_is_not_believed() {
    let lax = |field: &'static str, text: &'static str| {
        after(|it| step(it, SCREWS)["values"][0][field] = text.into())
    };
    for (field, text) in
        [("low", "1"), ("high", "99"), ("label", "Other screw"), ("field", "2"), ("limits_in", "lbf·in")]
    {
        assert_eq!(lax(field, text)[0], ("unknown-value", Some(SCREWS)), "{field}");
    }
    assert_eq!(lax("unit", "kgf·m")[0], ("unknown-value", Some(SCREWS)), "not one of the page's units");
}

#[test]
fn moments_are_of_the_calendar_and_of_the_job() {
    for wrong in
        ["2026-02-30T08:00:00Z", "2026-11-02T24:00:00Z", "2026-11-02 08:00:00", "", "2026-11-02T08:00:0éZ"]
    {
        assert_eq!(after(|it| step(it, 3)["at"] = wrong.into()), [("no-time", Some(3))], "{wrong}");
    }
    assert_eq!(after(|it| step(it, 3)["at"] = "2026-11-01T08:00:00Z".into()), [("out-of-order", Some(3))]);
    let late = after(|it| step(it, SEAT)["values"][0]["at"] = moment(2999).into());
    assert_eq!(late, [("out-of-order", Some(SEAT))]);
}

#[test]
fn one_method_of_a_choice_is_ticked() {
    let plan: Plan = plan_of(
        "parts\n    ring \"Ring\"\nchoose \"How is the ring warmed?\"\n    option \"Oil bath\": \
        do \"warm the ring in the bath\"\n    option \"Plate\": do \"warm the ring on the plate\"\n",
    );
    let record = good(&plan);
    assert_eq!(said(&record, &plan), [("no-choice", Some(1))]);
    let mut chosen = record;
    let at = chosen["steps"][0]["at"].clone();
    chosen["steps"][0]["outcomes"] = json!([{ "branch": 2, "attempt": 1, "when": "Plate", "at": at }]);
    assert_eq!(said(&sealed(chosen), &plan), []);
}

#[test]
fn every_message_says_what_to_do() {
    let plan = demo();
    let mut record = good(&plan);
    type_seat(&mut record, 1, "29");
    step(&mut record, HOLD)["holds"] = json!([]);
    record["job"]["serial"] = "".into();
    for problem in problems(&sealed(record), &plan) {
        assert!(!problem.message.is_empty() && !problem.help.is_empty(), "{problem:?}");
    }
}
