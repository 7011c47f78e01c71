//! A thread that no table has.
use super::suggestion::did_you_mean;
use super::{Rule, Subject};
use crate::model::declarations::{Part, Thread};
use crate::model::fastener::thread::{NoThread, Why, thread};
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "unknown-thread",
    severity: Severity::Warning,
    waivable: true,
    summary: "A thread is in no table of metric or unified threads",
    explain: "The wrong pitch goes in two turns and then eats the thread; a size that nobody makes cannot be bought.

Metric threads are those of ISO 261, M1.6 to M64, coarse where no pitch is given (`M10`, `M10x1.25`); inch threads \
those of ASME B1.1, #0 to 1 1/2 in (`3/8-16 UNC`, `3/8-24 UNF`, `#10-24`). The series may be left out; where it is \
given it has to fit the threads an inch.

Write the thread as it is measured. A special thread that is in no table is kept with a written reason; its torque \
is then not looked at.",
    bad: "\
parts
    screws \"Cover screw\"  x4  thread M10x1.4, class 8.8, dry, torque 40 to 48 N.m

tools
    wrench \"Torque wrench M\"  range 10 to 50 N.m

clean screws
tighten screws with wrench
",
    good: "\
parts
    screws \"Cover screw\"  x4  thread M10x1.25, class 8.8, dry, torque 40 to 48 N.m

tools
    wrench \"Torque wrench M\"  range 10 to 50 N.m

clean screws
tighten screws with wrench
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let own = subject.document.declarations.parts.iter().filter(|part| subject.owns(part.thing.span));
    findings.extend(own.filter_map(of_part));
}

fn of_part(part: &Part) -> Option<Finding> {
    let written = part.thread.as_ref()?;
    let series = written.series.as_ref().map(|series| series.as_str());
    thread(written.designation.as_str(), series).err().map(|none| finding(written, &none))
}

fn finding(written: &Thread, none: &NoThread) -> Finding {
    let Thread { designation, series } = written;
    let name = &designation.value;
    let (text, span) = match (none.why, series) {
        (Why::Size, _) => (format!("There is no thread of the size `{name}`"), designation.span),
        (Why::Series, Some(series)) => {
            (format!("`{name}` is no {} thread", series.value), designation.span.to(series.span))
        }
        (Why::Pitch, _) | (Why::Series, None) => {
            (format!("There is no thread `{name}`: this size is cut with another pitch"), designation.span)
        }
    };
    let help =
        did_you_mean(&none.near).unwrap_or("Write it as it is measured: `M10x1.25`, `3/8-16 UNC`".to_owned());
    Finding::new(RULE.id, span, text).help(help)
}
