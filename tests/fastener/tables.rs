//! Published torque tables: the formula makes one of them, and none of their values is called wrong.
use super::{LBF_FT, fastener};
use cotter::model::fastener::friction::Surface;
use cotter::model::fastener::preload::Verdict;
use cotter::model::quantity::{Form, Number, Quantity, Unit};
use cotter::source::Span;

/// A row of `torques.tsv`.
pub struct Published {
    /// `3/8-16 UNC`
    pub thread: &'static str,
    /// `grade 5`
    pub class: &'static str,
    pub state: &'static str,
    pub value: &'static str,
    pub unit: &'static str,
    pub source: &'static str,
}

pub fn published() -> Vec<Published> {
    let lines = include_str!("torques.tsv").lines().filter(|line| !line.starts_with("# ") && *line != "#");
    lines
        .map(|line| match line.split('\t').collect::<Vec<_>>()[..] {
            [thread, class, state, value, unit, source] => {
                Published { thread, class, state, value, unit, source }
            }
            _ => panic!("{line}"),
        })
        .collect()
}

impl Published {
    fn surface(&self) -> Surface {
        Surface::ALL.into_iter().find(|surface| surface.name() == self.state).unwrap()
    }
    /// In `unit`, whatever the table's.
    pub fn torque_in(&self, unit: &str) -> Quantity {
        let number = Number::parse(self.value).unwrap();
        Quantity::new(Form::Exact(number), Unit::find(unit).unwrap(), Span::default()).unwrap()
    }
    fn verdict(&self) -> Verdict {
        let bolt = fastener(self.thread, self.class, self.surface());
        bolt.judge(&self.torque_in(self.unit), false).unwrap().verdict
    }
}

/// TM 10-6640-238-13, table G-1, grade 5 and grade 8: K 0.20 at three quarters of the proof load. Grade 5 of 7/8 and
/// 1 in was made with the 78 ksi that older issues of J429 have there (from memory), not with 85.
#[test]
fn the_formula_makes_table_g_1() {
    println!("{:12} {:8} {:>10} {:>10} {:>7}", "thread", "class", "lbf·ft", "formula", "off");
    let mut seen = 0;
    for row in published().iter().filter(|row| row.source == "G") {
        if !matches!(row.class, "grade 5" | "grade 8") {
            continue;
        }
        let large = ["7/8-", "1-"].iter().any(|size| row.thread.starts_with(size));
        let older = if row.class == "grade 5" && large { 78.0 / 85.0 } else { 1.0 };
        let torque = older * fastener(row.thread, row.class, Surface::Dry).customary().unwrap() / LBF_FT;
        let printed: f64 = row.value.parse().unwrap();
        let off = torque / printed - 1.0;
        println!("{:12} {:8} {printed:10} {torque:10.1} {:6.1} %", row.thread, row.class, off * 100.0);
        assert!(off.abs() <= 0.07, "{} {}", row.thread, row.class);
        seen += 1;
    }
    assert_eq!(seen, 40);
}

#[test]
fn no_published_torque_is_called_wrong() {
    let rows = published();
    assert!(rows.len() >= 200, "{}", rows.len());
    let wrong: Vec<String> = rows
        .iter()
        .map(|row| (row, row.verdict()))
        .filter(|(_, verdict)| verdict.is_bad())
        .map(|(row, verdict)| format!("{} {} {} {}: {verdict:?}", row.thread, row.class, row.value, row.unit))
        .collect();
    assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), rows.len(), wrong.join("\n"));
}

/// Common practice, no source: #10 and M5 retaining screws with medium thread locker take 20 to 30 lbf·in.
#[test]
fn small_screws_with_thread_locker() {
    for (thread, class) in
        [("#10-24", "grade 2"), ("#10-24", "grade 5"), ("#10-32", "grade 5"), ("M5", "class 8.8")]
    {
        let screw = fastener(thread, class, Surface::Locker);
        let torque = |unit: &str| {
            let (low, high) = (Number::parse("20").unwrap(), Number::parse("30").unwrap());
            Quantity::new(Form::Between(low, high), Unit::find(unit).unwrap(), Span::default()).unwrap()
        };
        let verdict = |unit| screw.judge(&torque(unit), false).unwrap().verdict;
        assert_eq!(verdict("lbf.in"), Verdict::Holds, "{thread} {class}");
        let inch_pounds = Unit::find("lbf.in").unwrap();
        assert!(
            matches!(verdict("lbf.ft"), Verdict::OtherUnit(units) if units.contains(&inch_pounds)),
            "{thread}"
        );
    }
}
