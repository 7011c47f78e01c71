//! Seeded slips of the unit: every published torque in every unit of the trade, in whole procedures.
use super::tables::{Published, published};
use crate::support::shop::Shop;
use cotter::checks;
use cotter::model::quantity::{Unit, as_float};
use cotter::report::Severity;
use cotter::source::{FileId, SourceFile};
use std::collections::BTreeMap;

const UNITS: [&str; 4] = ["N.m", "lbf.ft", "lbf.in", "kgf.m"];
const RULES: [&str; 3] = ["unit-slip", "torque-would-yield", "torque-too-low-to-hold"];

/// One part and one step for each row, its torque in that unit.
fn procedure(rows: &[Published], unit: impl Fn(&Published) -> &'static str) -> SourceFile {
    let mut parts = String::from("parts\n");
    let mut steps = String::new();
    for (at, row) in rows.iter().enumerate() {
        let (thread, class, state, value, unit) = (row.thread, row.class, row.state, row.value, unit(row));
        parts.push_str(&format!(
            "    p-{at} \"Bolt\" thread {thread}, {class}, {state}, torque {value} {unit}\n"
        ));
        steps.push_str(&format!("clean p-{at}\ntighten p-{at} with wrench\n"));
    }
    let tools = "\ntools\n    wrench \"Torque wrench\" range 0.1 to 200000 N.m\n\n";
    SourceFile::new(FileId(0), "slips.cotter", checks::example(&format!("{parts}{tools}{steps}")))
}

/// What the rules of this subject say of each row: rule and severity.
fn found(
    rows: &[Published],
    unit: impl Fn(&Published) -> &'static str,
) -> BTreeMap<usize, (&'static str, Severity)> {
    let source = procedure(rows, unit);
    let findings = Shop::default().compile(&source).findings;
    let first = source.text.lines().position(|line| line == "parts").unwrap() + 2;
    let ours = findings.iter().filter(|finding| RULES.contains(&finding.rule));
    let mut found = BTreeMap::new();
    for finding in ours {
        let row = source.line_column(finding.span.start).0 - first;
        assert!(found.insert(row, (finding.rule, finding.severity)).is_none(), "one slip, one finding");
    }
    found
}

#[test]
fn true_torques_raise_no_false_alarm() {
    let rows = published();
    let alarms = found(&rows, |row| row.unit);
    let errors = alarms.values().filter(|(_, severity)| *severity == Severity::Error).count();
    println!("{} true torques: {errors} errors, {} advice", rows.len(), alarms.len() - errors);
    assert!(alarms.is_empty(), "{alarms:?}");
}

#[test]
fn slips_of_the_unit_are_caught() {
    let rows = published();
    let factor = |unit: &str| as_float(Unit::find(unit).unwrap().factor);
    let mut table: BTreeMap<(&str, &str), BTreeMap<&str, usize>> = BTreeMap::new();
    let (mut caught, mut large) = (0, 0);
    for unit in UNITS {
        let found = found(&rows, |_| unit);
        for (at, row) in rows.iter().enumerate().filter(|(_, row)| row.unit != unit) {
            let rule = found.get(&at).map_or("missed", |(rule, _)| *rule);
            *table.entry((row.unit, unit)).or_default().entry(rule).or_default() += 1;
            let times = factor(unit) / factor(row.unit);
            if times.max(1.0 / times) >= 7.0 {
                large += 1;
                caught += usize::from(rule != "missed");
            }
        }
    }
    println!("{:8} {:8} {:>8}  by rule", "printed", "written", "times");
    for ((printed, written), rules) in &table {
        println!("{printed:8} {written:8} {:8.3}  {rules:?}", factor(written) / factor(printed));
    }
    println!("by a factor of 7 and more: {caught} of {large} caught");
    assert!(caught * 100 >= large * 95, "{caught} of {large}");
}
