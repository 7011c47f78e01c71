//! A reading is taken with a part of the machine.
use super::{Rule, Subject};
use crate::model::Name;
use crate::model::verb::Effect;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "measured-with-a-part",
    severity: Severity::Warning,
    waivable: true,
    summary: "A reading is taken with a part of the machine",
    explain: "\
What stands behind `with` is fetched before the work starts. A part reads nothing: the instrument is missing in \
the kit list, and each bench takes what lies about.

Name a tool. What is only held against the part that is measured stands behind `on` or `against`.",
    bad: "\
parts
    shaft   \"Shaft\"
    housing \"Housing\"

measure shaft \"play in its bore\" max 0.1 mm with housing as play
    if above: stop \"Renew the shaft.\"
clean housing
",
    good: "\
parts
    shaft   \"Shaft\"
    housing \"Housing\"

tools
    indicator \"Dial indicator\"

measure shaft \"play in its bore\" max 0.1 mm with indicator as play
    if above: stop \"Renew the shaft.\"
clean housing
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for work in subject.contents.works.iter().filter(|work| work.verb.does(Effect::Measures)) {
        let parts = work.tools.iter().filter(|object| matches!(object.name, Some(Name::Part(_))));
        findings.extend(parts.map(|object| {
            let (name, verb) = (&object.word.value, &work.verb.name);
            let message = format!("`{name}` is a part, and `{verb}` reads with a tool");
            let help = "Declare the instrument under `tools` and name it here";
            Finding::new(RULE.id, object.word.span, message).help(help)
        }));
    }
}
