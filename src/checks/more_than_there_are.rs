//! A step takes more pieces of a part than there are.
use super::{Rule, Subject};
use crate::model::Name;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "more-than-there-are",
    severity: Severity::Error,
    waivable: false,
    summary: "A step takes more pieces of a part than there are",
    explain: "\
Eight of six screws: whoever reads the line looks for two screws that the machine does not have, or trusts the list of \
parts and wonders what else in it is wrong. Either the count in the line or the one in the declaration is a slip.

Behind `of` stands how many pieces the step works on, at most as many as the part is declared with: `x6`. Without a \
count the line is about all of them.",
    bad: "\
parts
    screws \"Cap screw\"  x6

clean 8 of screws
",
    good: "\
parts
    screws \"Cap screw\"  x6

clean 4 of screws
clean screws
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let declarations = &subject.document.declarations;
    for object in subject.contents.works.iter().flat_map(|work| &work.objects) {
        let (Some(count), Some(Name::Part(id))) = (object.count, object.name) else { continue };
        let Some(part) = declarations.part(id).filter(|part| part.count < count) else { continue };
        let name = part.thing.name.as_str();
        let message = format!("This is about {count} of `{name}`, and there are {}", there_are(part.count));
        let mut finding = Finding::new(RULE.id, object.word.span, message);
        if subject.owns(part.thing.span) {
            finding = finding.label(part.thing.span, "declared here");
        }
        let help = format!("Write how many the step works on, or declare `{name}` with `x{count}`");
        findings.push(finding.help(help));
    }
}

fn there_are(count: u32) -> String {
    if count == 1 { "no more than one".to_owned() } else { format!("{count}") }
}
