//! Procedures after manuals that nobody here wrote: the rules have nothing to say about them, and find what is broken
//! in them on purpose. What each manual leaves unsaid stands on top of its file.
use crate::support::shop::{Shop, package, sources};
use cotter::source::{FileId, SourceFile};

/// A fault: where, what is written there, what is put in its place, and the rule that has to say so.
type Fault = (&'static str, &'static str, &'static str, &'static str);

const FAULTS: &[Fault] = &[
    // The order in which TM 10-4320-344-24, paragraph 2.23.2.4 b, lists them.
    (
        "hub-bearings",
        "install inner-cone in hub; install new seal in hub facing \"the lip toward the cone\"",
        "install new seal in hub facing \"the lip toward the cone\"; install inner-cone in hub",
        "fitted-over",
    ),
    (
        "hub-bearings",
        "remove split-pin, castle-nut, washer from",
        "remove castle-nut, washer from",
        "still-held",
    ),
    ("hub-bearings", "; discard split-pin", "", "not-discarded"),
    ("hub-bearings", "install new split-pin", "install split-pin", "reused-single-use"),
    ("hub-bearings", "install new seal in", "install seal in", "reused-single-use"),
    ("hub-bearings", " facing \"the valve stem away from the trailer\"", "", "side-not-stated"),
    (
        "hub-bearings",
        "    if pitted, scratched, worn: renew outer-cone, outer-cup\n",
        "    if pitted, scratched, worn: renew outer-cone\n",
        "renewed-without-its-set",
    ),
    ("hub-bearings", "stage: 20 ft-lb (27 N.m)", "stage: 20 ft-lb (2.7 N.m)", "units-disagree"),
    ("hub-bearings", "        stage: 60 ft-lb\n", "        stage: 16 ft-lb\n", "passes-not-rising"),
    ("hub-bearings", "tighten stud-nuts with wrench\n", "tighten stud-nuts\n", "tightened-without-wrench"),
    ("hub-bearings", "install clamps, stud-nuts on", "install clamps on", "worked-on-while-off"),
    ("hub-bearings", "remove braces from trailer; lower", "lower", "left-in"),
    ("hub-bearings", "; lower trailer with jack as lowered", "; wait 1 min as lowered", "left-raised"),
    (
        "hub-bearings",
        "    wear:   goggles, chemical gloves\n",
        "    wear:   chemical gloves\n",
        "missing-protection",
    ),
    // The order in which TM 10-4320-311-14, page 5-6, lists them.
    (
        "pump-seal",
        "install new plate-ring, wear-plate, plate-bolts on casing\n",
        "install wear-plate, plate-bolts on casing; install new plate-ring on casing\n",
        "fitted-over",
    ),
    (
        "pump-seal",
        "install new plate-ring, wear-plate",
        "install plate-ring, wear-plate",
        "reused-single-use",
    ),
    ("pump-seal", "; discard seal", "", "not-discarded"),
    (
        "pump-seal",
        "install new seal on adapter facing \"the polished surface of the seat toward the impeller\"",
        "install new seal on adapter",
        "side-not-stated",
    ),
    (
        "pump-seal",
        "install shims, impeller on adapter",
        "install impeller on adapter; install shims on adapter",
        "fitted-over",
    ),
    (
        "pump-seal",
        "remove lock-bolt, lock-washer, impeller from",
        "remove lock-bolt, impeller from",
        "still-held",
    ),
    ("pump-seal", "min 0.010 in (0.254 mm)", "min 0.010 in (2.54 mm)", "units-disagree"),
    ("pump-seal", "    if outside: repeat from gap, at most 2 times\n", "", "limit-without-action"),
    ("pump-seal", "tighten plate-bolts with hand-tools\n", "", "never-tightened"),
];

#[test]
fn the_rules_have_nothing_to_say() {
    let files = sources(&package("tests/manuals"));
    assert!(!files.is_empty());
    let told: Vec<String> =
        files.iter().flat_map(|path| told(&std::fs::read_to_string(path).unwrap())).collect();
    assert!(told.is_empty(), "{}", told.join("\n"));
}

#[test]
fn each_manual_is_named_where_its_facts_are() {
    for path in sources(&package("tests/manuals")) {
        let text = std::fs::read_to_string(&path).unwrap();
        let cited = text.lines().filter(|line| line.starts_with("    from:")).count();
        assert!(text.contains("    source:     TM ") && cited >= 10, "{}: {cited}", path.display());
    }
}

#[test]
fn what_is_broken_on_purpose_is_found() {
    let mut wrong = Vec::new();
    for (file, from, to, rule) in FAULTS {
        let text = std::fs::read_to_string(package(&format!("tests/manuals/{file}.cotter"))).unwrap();
        assert_eq!(text.matches(from).count(), 1, "{file}: {from}");
        let found = told(&text.replace(from, to));
        if !found.iter().any(|told| told.contains(&format!("[{rule}]"))) {
            wrong.push(format!("{file}: {from} → {to}: no {rule}\n    {}", found.join("\n    ")));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// `line: severity[rule]: message` of each finding.
fn told(text: &str) -> Vec<String> {
    let source = SourceFile::new(FileId(0), "manual.cotter", text);
    let findings = Shop::default().compile(&source).findings;
    let tell = |finding: &cotter::report::Finding| {
        let line = source.line_column(finding.span.start).0;
        format!("{line}: {}[{}]: {}", finding.severity.name(), finding.rule, finding.message)
    };
    findings.iter().map(tell).collect()
}
