//! Ways to break what must hold at a step: the energy is off, the alignment stands, the right part is at hand, the
//! worn place can be reached, and a way that an outcome opens comes to an end.
use super::actions::{self, Act, declaration, named, replaced};
use super::faults::Fault;
use super::ledger::{fits, is_on_the_bench, is_part, names, takes_off};
use super::source::Lines;

pub const FAULTS: &[Fault] = &[
    Fault {
        name: "another part fitted in its place",
        rules: &["forbidden-substitute"],
        seed: substitute_fitted,
    },
    Fault { name: "energy left on", rules: &["energy-not-isolated"], seed: energy_left_on },
    Fault {
        name: "turned after it was aligned",
        rules: &["unverified-before-commit"],
        seed: turned_after_aligning,
    },
    Fault {
        name: "outcome that leaves something open",
        // Where later steps hang on the outcome, it is still open at the end.
        rules: &["branch-ends-open", "left-loose"],
        seed: branch_left_open,
    },
    Fault {
        name: "part discarded that goes back",
        rules: &["discarded-not-ordered"],
        seed: discarded_goes_back,
    },
    Fault {
        name: "wear measured before it can be reached",
        rules: &["measured-while-fitted"],
        seed: measured_too_soon,
    },
];

/// Whether the action names it anywhere, as a whole word outside quotes.
fn mentions(act: &Act, name: &str) -> bool {
    let outside = act.text.split('"').step_by(2);
    outside.flat_map(|text| text.split([' ', ',', ';'])).any(|word| word == name)
}

/// The text with a name exchanged outside quotes; a new one is no longer asked for.
fn exchanged(text: &str, name: &str, other: &str) -> String {
    let word = |word: &str| if word == name { other.to_owned() } else { word.to_owned() };
    let outside = |text: &str| {
        let text = text.replace(&format!("new {name}"), name);
        let words = text.split(' ').map(|it| match it.strip_suffix(',') {
            Some(it) => word(it) + ",",
            None => word(it),
        });
        words.collect::<Vec<_>>().join(" ")
    };
    let pieces = text.split('"').enumerate();
    let pieces = pieces.map(|(at, text)| if at % 2 == 0 { outside(text) } else { text.to_owned() });
    pieces.collect::<Vec<_>>().join("\"")
}

/// What the declaration forbids already goes on; or a part that is declared beside each that goes back, and
/// forbidden there.
fn substitute_fitted(lines: &Lines<'_>) -> Vec<String> {
    let acts = actions::of(lines);
    let mut mutants = Vec::new();
    for (index, act) in acts.iter().enumerate().filter(|(_, act)| fits(act)) {
        for object in act.objects().iter().filter(|object| is_part(lines, object)) {
            if !is_on_the_bench(&acts[..index], object) {
                continue;
            }
            for other in named(&declaration(lines, object), "never") {
                let all = acts[index..].iter().filter(|act| mentions(act, object));
                let new = all.map(|act| (act, exchanged(&act.text, object, &other)));
                mutants.push(replaced(lines, &new.collect::<Vec<_>>()));
            }
            // Nothing else is done to it once it is on.
            if !acts[index + 1..].iter().any(|act| mentions(act, object)) {
                let other = format!("spare-{object}");
                let text = replaced(lines, &[(act, exchanged(&act.text, object, &other))]);
                mutants.push(forbidding(&text, object, &other));
            }
        }
    }
    mutants
}

/// The file with a second part declared above the first, which says that it may not take its place.
fn forbidding(text: &str, name: &str, other: &str) -> String {
    let lines = Lines::of(text);
    let own = |at: &usize| lines.0[*at].starts_with(&format!("    {name} ")) && lines.owner(*at) == "parts";
    let at = (0..lines.0.len()).find(own).expect("a part is declared");
    let line = lines.0[at];
    let behind = line.rsplit('"').next().unwrap_or("").trim();
    let bare = line.matches('"').count() == 2 && (behind.is_empty() || behind.starts_with('x'));
    let bare = bare && !behind.contains(' ') && !behind.ends_with(',');
    let declared = match line.strip_suffix(',') {
        Some(line) => format!("{line}, never {other},"),
        None if bare => format!("{line}  never {other}"),
        None => format!("{line}, never {other}"),
    };
    lines.with(at..at + 1, &[format!("    {other}  \"Other part\"  starts off"), declared])
}

/// The procedure that took the energy off is not required, or the steps that do it are missing.
fn energy_left_on(lines: &Lines<'_>) -> Vec<String> {
    let acts = actions::of(lines);
    let has = |name: &String, fact: &str| declaration(lines, name).contains(fact);
    let opened = |fact: &'static str, act: &Act| {
        let holds = |name: &String| named(&declaration(lines, name), "holds").iter().any(|it| has(it, fact));
        let works = takes_off(act) || ["loosen", "disconnect"].contains(&act.verb());
        works && act.objects().iter().any(|name| has(name, fact) || holds(name))
    };
    let mut mutants = Vec::new();
    for fact in [" pressurised ", " live "] {
        let Some(first) = acts.iter().position(|act| opened(fact, act)) else { continue };
        mutants.extend(lines.changed(|_, line| {
            let named = line.starts_with("    requires:") && !line.ends_with("none");
            named.then(|| "    requires:   none".to_owned())
        }));
        let ends = |act: &&Act| {
            let verbs: &[&str] = match fact {
                " live " => &["turn off", "isolate", "lock out", "tag"],
                _ => &["measure", "vent", "bleed", "drain", "open"],
            };
            verbs.contains(&act.verb()) && act.objects().iter().any(|name| has(name, fact))
        };
        let mut steps: Vec<usize> = acts[..first].iter().filter(ends).map(|act| act.at).collect();
        steps.dedup();
        if steps.is_empty() {
            continue;
        }
        let dropped = |at: &usize| steps.iter().any(|step| lines.extent(*step).contains(at));
        let kept = (0..lines.0.len()).filter(|at| !dropped(at)).map(|at| lines.0[at]);
        mutants.push(kept.collect::<Vec<_>>().join("\n") + "\n");
    }
    mutants
}

/// Between lining up and clamping, what it was lined up with is moved.
fn turned_after_aligning(lines: &Lines<'_>) -> Vec<String> {
    let acts = actions::of(lines);
    let mut mutants = Vec::new();
    for (index, act) in acts.iter().enumerate().filter(|(_, act)| act.verb() == "tighten") {
        let held = act.objects().into_iter().flat_map(|name| named(&declaration(lines, &name), "holds"));
        for held in held {
            let last = |wanted: &dyn Fn(&Act) -> bool| acts[..index].iter().rposition(wanted);
            let aligned = last(&|act| act.verb() == "align" && names(act, &held));
            let off = last(&|act| takes_off(act) && names(act, &held));
            if let Some(aligned) = aligned.filter(|aligned| Some(*aligned) > off)
                && let Some(against) = acts[aligned].objects().into_iter().find(|name| *name != held)
            {
                mutants.push(replaced(lines, &[(act, format!("turn {against} by 1/8 turn; {}", act.text))]));
            }
        }
    }
    mutants
}

/// The outcome loosens a fastener that nothing tightens again, and the work goes on; or what it took off is no longer
/// put back by a repeat.
fn branch_left_open(lines: &Lines<'_>) -> Vec<String> {
    let acts = actions::of(lines);
    let fasteners = |at: usize| {
        let acts = &acts;
        let tight = acts.iter().filter(move |act| act.at < at && act.verb() == "tighten");
        let objects = tight.flat_map(Act::objects);
        objects.filter(move |name| {
            let text = declaration(lines, name);
            let everywhere = ![" models ", " serial ", " if fitted"].iter().any(|word| text.contains(word));
            let last = acts.iter().rposition(|act| act.at < at && mentions(act, name));
            let tight = last.is_some_and(|last| acts[last].verb() == "tighten");
            everywhere && tight && !acts.iter().any(|act| act.at > at && mentions(act, name))
        })
    };
    let mut mutants = lines.changed(|at, line| {
        let (found, _) = line.split_once(": ").filter(|(found, _)| {
            line.starts_with("    ") && ["if ", "otherwise"].iter().any(|it| found.trim().starts_with(it))
        })?;
        let whole = !line.ends_with([',', ';']);
        let step = lines.steps().take_while(|step| *step < at).last()?;
        let fastener = fasteners(step).next().filter(|_| whole)?;
        Some(format!("{found}: loosen {fastener} by 1/2 turn"))
    });
    for at in 1..lines.0.len() {
        let opens = lines.0[at - 1].trim_start().starts_with("if ") && lines.0[at - 1].contains(": remove ");
        if opens && lines.0[at].trim_start().starts_with("repeat from ") {
            let line = lines.0[at - 1].trim_end_matches(';').to_owned();
            mutants.push(lines.with(at - 1..at + 1, &[line]));
        }
    }
    mutants
}

/// What may be used again is thrown away, and still goes back.
fn discarded_goes_back(lines: &Lines<'_>) -> Vec<String> {
    let acts = actions::of(lines);
    let mut mutants = Vec::new();
    for (index, act) in acts.iter().enumerate().filter(|(_, act)| takes_off(act)) {
        for object in act.objects() {
            let used_again = is_part(lines, &object) && !declaration(lines, &object).contains("single-use");
            let back = acts[index + 1..].iter().find(|act| fits(act) && names(act, &object));
            if used_again && back.is_some_and(|act| !act.text.contains(&format!("new {object}"))) {
                mutants.push(replaced(lines, &[(act, format!("{}; discard {object}", act.text))]));
            }
        }
    }
    mutants
}

/// A reading of wear, once more before each step that takes off what covers the part.
fn measured_too_soon(lines: &Lines<'_>) -> Vec<String> {
    let acts = actions::of(lines);
    let mut mutants = Vec::new();
    for (index, reading) in acts.iter().enumerate().filter(|(_, act)| act.verb() == "measure") {
        if !reading.text.contains(" new ") || !reading.text.contains(", worn ") {
            continue;
        }
        let part = reading.split().1.trim_start_matches("each ").split(' ').next().unwrap_or("");
        let covers = |name: &String| named(&declaration(lines, name), "holds").iter().any(|it| it == part);
        let opens = |act: &&Act| takes_off(act) && act.objects().iter().any(covers);
        let text = reading.text.split(" as ").next().unwrap_or("");
        for cover in acts[..index].iter().filter(opens) {
            let margin = |at: &usize| !lines.0[*at].starts_with([' ', '#']) && !lines.0[*at].is_empty();
            let mut above = (0..cover.at).rev().filter(margin).take_while(|at| lines.is_message(*at));
            let at = above.by_ref().last().unwrap_or(cover.at);
            let new = [text.to_owned(), "    if below: stop \"Order a new one.\"".to_owned()];
            mutants.push(lines.with(at..at, &new));
        }
    }
    mutants
}
