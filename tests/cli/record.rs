//! `cotter record`.
use crate::support::workspace::Workspace;
use cotter::checks;
use serde_json::{Value, json};

const STEPS: &str = "parts\n    shaft \"Pump shaft\"\n\nmeasure shaft \"seat diameter\" 30.002 to 30.015 mm as seat\n\
    \u{20}   if below: stop \"Send the shaft for repair.\"\nhold instructor \"The seat is clean.\"\n";

/// What the page of that procedure in the workspace would save.
fn record(workspace: &Workspace, typed: &str, unit: &str) -> Value {
    let run = workspace.run(&["build", "--output", "out"]);
    assert_eq!(run.code, 0, "{}{}", run.stdout, run.stderr);
    let page = workspace.read("out/EX-001/bench.html");
    let (_, data) = page.split_once("id=\"record-data\">").unwrap();
    let plan: Value = serde_json::from_str(data.split_once("</script>").unwrap().0).unwrap();
    let field = &plan["steps"][0]["fields"][0];
    let at = |minute: u32| format!("2026-11-02T09:{minute:02}:00Z");
    let mut record = json!({
        "format": "cotter-record", "version": 1,
        "procedure": { "number": plan["number"], "title": plan["title"], "revision": plan["revision"],
            "source": plan["source"] },
        "job": { "number": "=4711", "serial": "300123", "technician": "Ada Fenn", "model": plan["models"][0] },
        "started": at(0), "saved": at(30),
        "steps": [
            { "step": 1, "round": "", "state": "done", "at": at(1), "attempts": 1, "outcomes": [], "holds": [], "values": [
                { "field": "1", "attempt": 1, "label": field["label"], "typed": typed, "unit": unit,
                    "low": "30.002", "high": "30.015", "limits_in": "mm", "at": at(1) } ] },
            { "step": 2, "round": "", "state": "done", "at": at(2), "attempts": 1, "outcomes": [], "values": [],
                "holds": [{ "hold": 1, "role": "instructor", "name": "Ben Moor", "at": at(2) }] },
        ],
    });
    record["seal"] = cotter::record::seal(&record).into();
    record
}

fn workspace() -> Workspace {
    Workspace::new().file("one.cotter", checks::example(STEPS))
}

fn check(workspace: &Workspace, extra: &[&str]) -> crate::support::workspace::Run {
    workspace.run(&[["record", "check", "job.json", "--against", "one.cotter"].as_slice(), extra].concat())
}

#[test]
fn a_good_record_passes_and_a_wrong_value_does_not() {
    let workspace = workspace();
    workspace.write("job.json", record(&workspace, "30,010", "mm").to_string());
    let run = check(&workspace, &[]);
    assert_eq!((run.code, run.stderr.as_str()), (0, ""), "{}", run.stdout);
    assert!(run.stdout.contains("the record is whole and within limits"), "{}", run.stdout);
    workspace.write("job.json", record(&workspace, "29.998", "mm").to_string());
    let run = check(&workspace, &[]);
    assert_eq!(run.code, 1);
    assert!(
        run.stdout.contains("step 1: seat diameter reads 29.998 mm, below 30.002–30.015 mm"),
        "{}",
        run.stdout
    );
    assert!(run.stdout.contains("help: ") && run.stdout.ends_with("1 problem\n"), "{}", run.stdout);
}

#[test]
fn a_program_gets_the_same_as_json() {
    let workspace = workspace();
    workspace.write("job.json", record(&workspace, "30.016", "mm").to_string());
    let run = check(&workspace, &["--format", "json"]);
    assert_eq!(run.code, 1);
    let answer: Value = serde_json::from_str(&run.stdout).unwrap();
    assert_eq!((&answer["version"], &answer["good"]), (&json!(1), &json!(false)));
    assert_eq!(
        (&answer["problems"][0]["kind"], &answer["problems"][0]["step"]),
        (&json!("out-of-limits"), &json!(1))
    );
}

#[test]
fn a_changed_procedure_is_another_text() {
    let workspace = workspace();
    workspace.write("job.json", record(&workspace, "30.010", "mm").to_string());
    workspace.write("one.cotter", checks::example(&STEPS.replace("30.002", "30.000")));
    let run = check(&workspace, &[]);
    assert_eq!(run.code, 1);
    assert!(run.stdout.contains("[other-source]"), "{}", run.stdout);
}

#[test]
fn what_cannot_be_read_ends_with_2() {
    let workspace = workspace();
    let cases: [(&[u8], &str); 4] = [
        (b"{\"format\": ", "cut off"),
        (b"{\"a\": 1, \"a\": 2}", "the key `a` twice"),
        (b"\xff", "not UTF-8"),
        (b"[1]", "is no record"),
    ];
    for (bytes, words) in cases {
        workspace.write("job.json", bytes);
        let run = check(&workspace, &[]);
        assert_eq!((run.code, run.stdout.as_str()), (2, ""), "{words}");
        assert!(run.stderr.contains(words) && run.stderr.contains("help: "), "{}", run.stderr);
    }
    workspace.write("job.json", vec![b' '; 5 * 1024 * 1024 + 1]);
    assert!(check(&workspace, &[]).stderr.contains("larger than 5 MiB"));
    assert_eq!(workspace.run(&["record", "check", "none.json", "--against", "one.cotter"]).code, 2);
    workspace.write("job.json", record(&workspace, "30.010", "mm").to_string());
    workspace.write("one.cotter", checks::example("clean nothing-declared\n"));
    let run = check(&workspace, &[]);
    assert!(run.code == 2 && run.stderr.contains("has errors"), "{}", run.stderr);
}

#[test]
fn the_table_has_a_line_a_value_in_the_unit_of_its_limits() {
    let workspace = workspace();
    workspace.write("a.json", record(&workspace, "30,010", "mm").to_string());
    workspace.write("b.json", record(&workspace, "1.1811", "in").to_string());
    let run = workspace.run(&["record", "table", "a.json", "b.json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let mut lines = csv::Reader::from_reader(run.stdout.as_bytes());
    assert_eq!(
        lines.headers().unwrap().iter().collect::<Vec<_>>().join(" "),
        "record procedure job serial model date step round attempt what value unit low high ok"
    );
    let rows: Vec<Vec<String>> =
        lines.records().map(|it| it.unwrap().iter().map(str::to_owned).collect()).collect();
    assert_eq!(rows.len(), 2);
    assert_eq!(rows[0][2], "'=4711", "no spreadsheet takes it for a formula");
    assert_eq!(rows[0][9..], ["seat diameter", "30.010", "mm", "30.002", "30.015", "yes"]);
    // 1.1811 in = 29.99994 mm: 25.4 mm an inch, NIST Special Publication 811.
    assert_eq!(rows[1][9..], ["seat diameter", "29.99994", "mm", "30.002", "30.015", "no"]);
}

#[test]
fn a_table_of_a_changed_record_is_refused() {
    let workspace = workspace();
    let mut record = record(&workspace, "30.010", "mm");
    record["steps"][0]["values"][0]["typed"] = "30.011".into();
    workspace.write("a.json", record.to_string());
    let run = workspace.run(&["record", "table", "a.json"]);
    assert_eq!((run.code, run.stdout.as_str()), (2, ""));
    assert!(run.stderr.contains("seal"), "{}", run.stderr);
}
