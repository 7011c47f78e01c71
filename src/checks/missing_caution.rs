//! Work brings a hazard and no message in force warns of it.
use super::{Rule, Subject};
use crate::ledger::hazards::demand::Fact;
use crate::ledger::hazards::{self, Behind, Demand};
use crate::model::document::Standing;
use crate::model::message::{Scope, Signal};
use crate::model::{Message, Step};
use crate::report::{Edit, Finding, Severity};
use crate::source::Span;
use std::collections::HashSet;

pub static RULE: Rule = Rule {
    id: "missing-caution",
    severity: Severity::Error,
    waivable: true,
    summary: "A step brings a hazard that no safety message warns of",
    explain:
        "A spring that leaves its groove, oil that leaves a joint as a jet, a solvent that takes fire: whoever \
does the step for the first time cannot know, and the sheet is the only one to tell.

Which step brings what follows from its verb, its tools, the hazard codes of its supplies and the facts of its \
parts: `spring-loaded`, `pressurised`, `hot`, `live`, `mass` and the others. The rule follows what the steps \
make of them: what is proved dead, let off, cold, slung or shared among `people:` needs no message any more. Any \
message in force of a fitting class guards the step. Where the hazard follows from the verb alone (`grind`, \
`heat`), the finding is a warning.

Put the message before the step, or call a standing one. The mend calls the standing message of that class where \
there is one, and otherwise writes the first lines and leaves what only you know to you; among several the choice \
is yours. A message that stands behind the step is moved to before it. A house may draw its own \
lines under `[limits]` in `cotter.toml`.",
    bad: "\
parts
    ring \"Retaining ring\"  spring-loaded, stays off

remove ring from \"the shaft\"
",
    good: "\
parts
    ring \"Retaining ring\"  spring-loaded, stays off

warning ejection
    hazard: The ring is under tension and can leave its groove at speed.
    harm:   Eye injury.
    avoid:  Hold a hand over the ring while it comes out.
    wear:   eye protection
remove ring from \"the shaft\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for Unguarded { demand, behind, wear } in unguarded(subject) {
        findings.push(match behind {
            Some(behind) => stands_behind(demand, behind, subject),
            None => finding(demand, wear, subject),
        });
    }
}

/// The messages that are told of here: they stand behind the step that they would guard.
pub(super) fn told_of(subject: &Subject<'_>) -> HashSet<*const Message> {
    unguarded(subject).iter().filter_map(|it| it.behind).map(|it| std::ptr::from_ref(it.message)).collect()
}

/// What no message guards against.
struct Unguarded<'s> {
    demand: &'s Demand<'s>,
    /// The message that stands behind the step instead.
    behind: Option<Behind<'s>>,
    /// The equipment to ask for.
    wear: Vec<&'static str>,
}

/// One of each class and step.
fn unguarded<'s>(subject: &'s Subject<'_>) -> Vec<Unguarded<'s>> {
    let mut unguarded = Vec::new();
    let demands = subject.demands();
    // A line that could not be read may be the message.
    let Some(procedure) = subject.procedure().filter(|_| subject.unread.is_empty()) else { return unguarded };
    if demands.iter().all(|demand| demand.guarded_by.is_some()) {
        return unguarded;
    }
    let silent = subject.is_silent_on_start();
    let mut behind = hazards::behind(demands, procedure).into_iter();
    for of_step in demands.chunk_by(|a, b| std::ptr::eq(a.step, b.step)) {
        for (at, demand) in of_step.iter().enumerate() {
            let behind = behind.next().flatten();
            let same = |other: &&Demand<'_>| std::ptr::eq(other.row.class(), demand.row.class());
            // Of several that one message would guard, the first speaks.
            let told = of_step.iter().take(at).filter(|it| it.guarded_by.is_none()).any(|it| same(&it));
            let unknown = silent && lasts(demand.row.fact);
            if demand.guarded_by.is_none() && !told && !unknown && demand.step.late_messages.is_empty() {
                let wear = of_step.iter().filter(same).flat_map(Demand::lacks).map(|wear| wear.name.as_str());
                unguarded.push(Unguarded { demand, behind, wear: wear.collect() });
            }
        }
    }
    unguarded
}

/// Whether what was done before the procedure may have ended it.
fn lasts(fact: Option<Fact>) -> bool {
    matches!(fact, Some(Fact::Live | Fact::Pressurised | Fact::Hot))
}

/// The finding without its mend.
fn unsaid(demand: &Demand<'_>, subject: &Subject<'_>) -> Finding {
    let class = demand.row.class();
    let models = match demand.only.as_slice() {
        [] => String::new(),
        models => format!(" on {}", models.join(", ")),
    };
    let text = format!("No `{}` message guards this step{models}: {}", class.name, demand.why());
    let mut finding = Finding::new(RULE.id, demand.span, text);
    if let Some(span) = demand.fact.filter(|span| subject.owns(*span)) {
        finding = finding.label(span, "it follows from this");
    }
    if !demand.row.sure {
        finding.severity = Severity::Warning;
    }
    finding
}

/// The message is there, and read when the work is done. What the next step needs too is made to reach it.
fn stands_behind(demand: &Demand<'_>, behind: Behind<'_>, subject: &Subject<'_>) -> Finding {
    let Behind { message, is_needed } = behind;
    let word = message.signal.value.word();
    let finding = unsaid(demand, subject).label(message.span, "this is read when the step is done");
    let lines = subject.source.whole_lines(message.extent);
    let (head, rest) =
        subject.source.slice(lines).split_at_checked(message.span.range().len()).unwrap_or_default();
    let reach = match (is_needed, &message.scope) {
        (false, _) | (true, Scope::Section | Scope::Until { .. }) => String::new(),
        (true, Scope::NextStep) => " for next 2 steps".to_owned(),
        // How far it reaches is for the author to say anew.
        (true, Scope::NextSteps(steps)) => {
            let steps = steps.saturating_add(1);
            return finding.help(format!(
                "Move the {word} that stands behind the step to before it, `for next {steps} steps`"
            ));
        }
    };
    let wide = if reach.is_empty() { String::new() } else { format!(", `{}`", reach.trim()) };
    let mut finding = finding.help(format!("Move the {word} that stands behind the step to before it{wide}"));
    let end = if rest.ends_with('\n') { "" } else { "\n" };
    let text = format!("{head}{reach}{rest}{end}");
    let place = place(demand.step, message.signal.value);
    finding.edits = vec![Edit { span: place, text }, Edit { span: lines, text: String::new() }];
    finding
}

fn finding(demand: &Demand<'_>, mut wear: Vec<&str>, subject: &Subject<'_>) -> Finding {
    wear.sort_unstable();
    wear.dedup();
    let class = demand.row.class();
    let signal = signal(&class.name);
    let mut finding = unsaid(demand, subject);
    let (word, name, source) = (signal.word(), &class.name, &demand.row.source);
    let call = |it: &Standing| format!("{} {}", it.signal.word(), it.name.as_str());
    let mut standing: Vec<&Standing> = Vec::new();
    for it in subject.document.standing.iter().filter(|it| std::ptr::eq(it.hazard, class)) {
        // The house's own catalogue may be named with `use` as well.
        if !standing.iter().any(|known| call(known) == call(it)) {
            standing.push(it);
        }
    }
    let (text, signal, help) = match standing.as_slice() {
        [] => {
            let worn =
                if wear.is_empty() { String::new() } else { format!("    wear:   {}\n", wear.join(", ")) };
            let help = format!("Put `{word} {name}`, or a standing message, before the step ({source})");
            (format!("{word} {name}\n{worn}"), signal, help)
        }
        [one] => {
            let help = format!("Call the standing message `{}` before the step ({source})", call(one));
            (format!("{}\n", call(one)), one.signal, help)
        }
        several => {
            let calls: Vec<String> = several.iter().map(|it| format!("`{}`", call(it))).collect();
            let help = format!(
                "Put `{word} {name}` before the step, or call the standing message that fits: {} ({source})",
                calls.join(", ")
            );
            return finding.help(help);
        }
    };
    finding = finding.help(help);
    finding.edits.push(Edit { span: place(demand.step, signal), text });
    finding
}

/// Before the step, behind the messages that are as severe.
fn place(step: &Step, signal: Signal) -> Span {
    let milder = step.messages.iter().find(|message| message.signal.value < signal);
    let start = milder.map_or(step.span, |message| message.span);
    Span { end: start.start, ..start }
}

/// What follows if nobody heeds it, as a rule; the author may know better.
fn signal(class: &str) -> Signal {
    match class {
        "electric-shock" | "falling-load" => Signal::Danger,
        "lifting" | "cutting" | "burn" | "chemical" => Signal::Caution,
        _ => Signal::Warning,
    }
}
