//! Ways to break the order of the work: something is left out, exchanged, or done for the wrong model.
use super::actions::{self, Act, declaration, named, replaced};
use super::faults::Fault;
use super::source::Lines;

pub const FAULTS: &[Fault] = &[
    Fault { name: "refit dropped", rules: &["left-off", "worked-on-while-off"], seed: refit_dropped },
    Fault {
        name: "reconnection dropped",
        rules: &["left-disconnected", "worked-on-while-off"],
        seed: reconnection_dropped,
    },
    Fault {
        name: "last tightening dropped",
        rules: &["never-tightened", "left-loose", "lock-before-torque"],
        seed: tightening_dropped,
    },
    Fault { name: "discard dropped", rules: &["not-discarded"], seed: discard_dropped },
    Fault { name: "mark dropped", rules: &["unmarked-removal"], seed: mark_dropped },
    Fault { name: "align dropped", rules: &["unaligned-fit", "mark-never-used"], seed: align_dropped },
    Fault { name: "identify dropped", rules: &["unidentified-look-alike"], seed: identify_dropped },
    Fault { name: "cleaning before locker dropped", rules: &["surface-not-clean"], seed: cleaning_dropped },
    Fault { name: "drying before locker dropped", rules: &["surface-not-dry"], seed: drying_dropped },
    Fault { name: "curing time dropped", rules: &["cure-not-waited"], seed: cure_dropped },
    Fault { name: "temporary tool left in", rules: &["left-in", "in-the-way"], seed: tool_left },
    Fault { name: "filling dropped", rules: &["left-drained"], seed: filling_dropped },
    Fault { name: "lowering dropped", rules: &["left-raised"], seed: lowering_dropped },
    Fault {
        name: "weight not taken before the stands come out",
        rules: &["support-under-load"],
        seed: weight_not_taken,
    },
    Fault { name: "closing dropped", rules: &["left-open"], seed: closing_dropped },
    Fault {
        name: "unlocking dropped",
        rules: &["left-isolated", "lockout-out-of-order"],
        seed: unlocking_dropped,
    },
    Fault { name: "locking out dropped", rules: &["lockout-out-of-order"], seed: locking_dropped },
    Fault { name: "return to service dropped", rules: &["required-never-restored"], seed: restoring_dropped },
    Fault { name: "holder fitted before what it holds", rules: &["fitted-over"], seed: fitted_first },
    Fault { name: "held part removed before its holder", rules: &["still-held"], seed: removed_first },
    Fault { name: "lock fitted before the torque", rules: &["lock-before-torque"], seed: locked_first },
    Fault { name: "`only:` of a model's part dropped", rules: &["wrong-model-part"], seed: only_dropped },
    Fault { name: "one of a set renewed", rules: &["renewed-without-its-set"], seed: set_broken },
    Fault { name: "closing test dropped", rules: &["not-tested"], seed: test_dropped },
    Fault { name: "locked before it is off", rules: &["lockout-out-of-order"], seed: locked_live },
    Fault { name: "check before reuse dropped", rules: &["reused-unchecked"], seed: reuse_check_dropped },
    Fault { name: "removed a second time", rules: &["removed-twice"], seed: removed_again },
    Fault { name: "fitted a second time", rules: &["fitted-while-fitted"], seed: fitted_again },
    Fault {
        name: "outcome of a limit dropped",
        rules: &["limit-without-action"],
        seed: limit_outcome_dropped,
    },
    Fault { name: "outcomes of a look dropped", rules: &["finding-without-outcome"], seed: outcomes_dropped },
    Fault { name: "end of a repeat dropped", rules: &["loop-without-limit"], seed: loop_end_dropped },
    Fault { name: "repeat from a later step", rules: &["repeat-out-of-order"], seed: repeat_forward },
    Fault { name: "doer signs", rules: &["same-signer"], seed: doer_signs },
    Fault { name: "helper dropped from the header", rules: &["people-not-announced"], seed: helper_dropped },
    Fault { name: "helper dropped from the step", rules: &["people-never-needed"], seed: people_dropped },
];

const REMOVES: [&str; 5] = ["remove", "pull", "press", "withdraw", "detach"];
const FITS: [&str; 4] = ["install", "insert", "press", "refit"];

pub fn takes_off(act: &Act) -> bool {
    let leaves = act.text.contains(" off ") || act.text.contains(" out of ") || act.text.contains(" from ");
    REMOVES.contains(&act.verb()) && (act.verb() != "press" || leaves)
}

pub fn fits(act: &Act) -> bool {
    FITS.contains(&act.verb()) && !takes_off(act)
}

pub fn is_part(lines: &Lines<'_>, name: &str) -> bool {
    !declaration(lines, name).is_empty()
}

/// The mutants without one object of an action, for each object and action that `wanted` picks.
fn object_dropped(lines: &Lines<'_>, wanted: impl Fn(&[Act], usize, &str) -> bool) -> Vec<String> {
    let acts = actions::of(lines);
    let mut mutants = Vec::new();
    for (index, act) in acts.iter().enumerate() {
        for object in act.objects() {
            if wanted(&acts, index, &object) {
                mutants.push(replaced(lines, &[(act, act.without(&object))]));
            }
        }
    }
    mutants
}

fn action_dropped(lines: &Lines<'_>, wanted: impl Fn(&[Act], usize) -> bool) -> Vec<String> {
    let acts = actions::of(lines);
    let picked = (0..acts.len()).filter(|&index| wanted(&acts, index));
    picked.map(|index| replaced(lines, &[(&acts[index], acts[index].idle())])).collect()
}

/// No later action of these verbs names it.
fn is_last(acts: &[Act], index: usize, object: &str, verbs: &[&str]) -> bool {
    let mut later = acts[index + 1..].iter().filter(|act| verbs.contains(&act.verb()));
    !later.any(|act| act.objects().iter().any(|it| it == object))
}

pub fn names(act: &Act, object: &str) -> bool {
    act.objects().iter().any(|it| it == object)
}

/// Taken off and not put anywhere since: a gland that went onto its rod is not, and goes into the tube with it.
pub fn is_on_the_bench(acts: &[Act], object: &str) -> bool {
    let off = acts.iter().rposition(|act| takes_off(act) && names(act, object));
    off.is_some_and(|off| !acts[off..].iter().any(|act| fits(act) && names(act, object)))
}

fn refit_dropped(lines: &Lines<'_>) -> Vec<String> {
    object_dropped(lines, |acts, index, object| {
        let off = is_on_the_bench(&acts[..index], object);
        let on_again = acts[index + 1..].iter().any(|act| fits(act) && names(act, object));
        fits(&acts[index]) && is_part(lines, object) && off && !on_again
    })
}

fn reconnection_dropped(lines: &Lines<'_>) -> Vec<String> {
    object_dropped(lines, |acts, index, object| {
        let off = acts[..index].iter().any(|act| act.verb() == "disconnect" && names(act, object));
        acts[index].verb() == "connect" && off && is_part(lines, object)
    })
}

fn tightening_dropped(lines: &Lines<'_>) -> Vec<String> {
    object_dropped(lines, |acts, index, object| {
        let act = &acts[index];
        let plain = act.verb() == "tighten" && !act.text.contains(" must ");
        let later = acts[index + 1..]
            .iter()
            .any(|act| act.verb() == "tighten" && !act.text.contains(" must ") && names(act, object));
        plain && !later
    })
}

fn discard_dropped(lines: &Lines<'_>) -> Vec<String> {
    object_dropped(lines, |acts, index, object| {
        let new = acts[index..].iter().any(|act| act.text.contains(&format!("new {object}")));
        acts[index].verb() == "discard" && declaration(lines, object).contains("single-use") && new
    })
}

fn mark_dropped(lines: &Lines<'_>) -> Vec<String> {
    action_dropped(lines, |acts, index| {
        let matched = |name: &String| declaration(lines, name).contains(" matched ");
        acts[index].verb() == "mark" && acts[index].objects().iter().any(matched)
    })
}

fn align_dropped(lines: &Lines<'_>) -> Vec<String> {
    action_dropped(lines, |acts, index| acts[index].verb() == "align")
}

fn identify_dropped(lines: &Lines<'_>) -> Vec<String> {
    action_dropped(lines, |acts, index| acts[index].verb() == "identify")
}

fn locked_later(acts: &[Act], index: usize, object: &str) -> bool {
    let onto = |act: &Act| {
        let rest = act.text.strip_prefix("apply locker to ")?;
        rest.split('"').next().map(|names| names.split([' ', ',']).any(|word| word == object))
    };
    acts[index..].iter().any(|act| onto(act) == Some(true))
}

fn cleaning_dropped(lines: &Lines<'_>) -> Vec<String> {
    object_dropped(lines, |acts, i, object| acts[i].verb() == "clean" && locked_later(acts, i, object))
}

fn drying_dropped(lines: &Lines<'_>) -> Vec<String> {
    object_dropped(lines, |acts, i, object| acts[i].verb() == "dry" && locked_later(acts, i, object))
}

fn cure_dropped(lines: &Lines<'_>) -> Vec<String> {
    action_dropped(lines, |acts, index| acts[index].text == "wait 24 h")
}

fn tool_left(lines: &Lines<'_>) -> Vec<String> {
    const VERBS: [&str; 4] = ["remove", "detach", "disconnect", "withdraw"];
    object_dropped(lines, |acts, index, object| {
        let shared = ["drip-tray", "sling", "stands", "chocks"].contains(&object);
        let own = |line: &&str| line.starts_with(&format!("    {object} ")) && line.contains("temporary");
        let temporary = shared || lines.0.iter().any(own);
        VERBS.contains(&acts[index].verb()) && temporary && is_last(acts, index, object, &VERBS)
    })
}

fn filling_dropped(lines: &Lines<'_>) -> Vec<String> {
    object_dropped(lines, |acts, index, object| {
        acts[index].verb() == "fill"
            && acts[..index].iter().any(|act| act.verb() == "drain" && names(act, object))
    })
}

fn weight_not_taken(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|_, line| {
        let (raises, removes) = line.split_once("; ")?;
        let is_pair =
            raises.starts_with("raise ") && removes.starts_with("remove ") && removes.contains("stands");
        is_pair.then(|| removes.to_owned())
    })
}

fn lowering_dropped(lines: &Lines<'_>) -> Vec<String> {
    object_dropped(lines, |acts, index, object| {
        let raised = acts[..index].iter().any(|act| act.verb() == "raise" && names(act, object));
        acts[index].verb() == "lower" && raised && is_last(acts, index, object, &["lower"])
    })
}

fn closing_dropped(lines: &Lines<'_>) -> Vec<String> {
    object_dropped(lines, |acts, index, object| {
        let opened = acts[..index].iter().any(|act| act.verb() == "open" && names(act, object));
        let moves = |act: &&Act| ["open", "close"].contains(&act.verb()) && names(act, object);
        let found_closed = acts.iter().find(moves).is_some_and(|act| act.verb() == "open");
        let last = is_last(acts, index, object, &["close", "open"]);
        acts[index].verb() == "close" && opened && found_closed && last
    })
}

fn unlocking_dropped(lines: &Lines<'_>) -> Vec<String> {
    object_dropped(lines, |acts, index, object| {
        acts[index].verb() == "unlock"
            && acts[..index].iter().any(|act| act.verb() == "lock out" && names(act, object))
    })
}

fn locking_dropped(lines: &Lines<'_>) -> Vec<String> {
    object_dropped(lines, |acts, index, object| {
        acts[index].verb() == "lock out"
            && acts[index..].iter().any(|act| act.verb() == "unlock" && names(act, object))
    })
}

/// In the header, or where it is worked in between.
fn restoring_dropped(lines: &Lines<'_>) -> Vec<String> {
    let off = lines.0.iter().any(|line| line.starts_with("    requires:") && !line.contains("none"));
    let header = lines.changed(|_, line| {
        let back = off && line.starts_with("    afterwards:") && !line.contains("none");
        back.then(|| "    afterwards: none".to_owned())
    });
    let within = action_dropped(lines, |acts, index| {
        acts[index].text.starts_with("follow ") && acts[index].text.contains("back in service")
    });
    header.into_iter().chain(within).collect()
}

/// Two actions exchanged, where one names a part and the other what `word` of its declaration names.
fn exchanged(lines: &Lines<'_>, word: &str, picked: fn(&Act) -> bool, held_first: bool) -> Vec<String> {
    let acts = actions::of(lines);
    let mut mutants = Vec::new();
    for (index, first) in acts.iter().enumerate().filter(|(_, act)| picked(act)) {
        for second in acts[index + 1..].iter().filter(|act| picked(act)) {
            let (held, holder) = if held_first { (first, second) } else { (second, first) };
            // What is put on the held part itself makes one piece with it.
            let onto = |it: &String| holder.text.split([' ', ',']).any(|word| word == it);
            let holds = |name: &String| {
                let all = named(&declaration(lines, name), word);
                all.iter().any(|it| names(held, it) && !onto(it) && !names(held, name))
            };
            let alone = held.objects().len() == 1 && holder.objects().len() == 1;
            let same_step = first.at == second.at;
            if alone
                && !same_step
                && holder.objects().iter().any(holds)
                && !labelled(first)
                && !labelled(second)
            {
                mutants.push(replaced(lines, &[(first, second.text.clone()), (second, first.text.clone())]));
            }
        }
    }
    mutants
}

fn labelled(act: &Act) -> bool {
    act.text.contains(" as ")
}

fn fitted_first(lines: &Lines<'_>) -> Vec<String> {
    exchanged(lines, "holds", fits, true)
}

fn removed_first(lines: &Lines<'_>) -> Vec<String> {
    exchanged(lines, "holds", takes_off, false)
}

/// The pin goes in first, the torque comes after.
fn locked_first(lines: &Lines<'_>) -> Vec<String> {
    let acts = actions::of(lines);
    let mut mutants = Vec::new();
    for (index, lock) in acts.iter().enumerate().filter(|(_, act)| fits(act)) {
        let locked: Vec<String> =
            lock.objects().iter().flat_map(|name| named(&declaration(lines, name), "locks")).collect();
        let tightens = |act: &&Act| act.verb() == "tighten" && locked.iter().any(|name| names(act, name));
        if let Some(tighten) = acts[..index].iter().rev().find(tightens) {
            let both = format!("{}; {}", lock.text, tighten.text);
            mutants.push(replaced(lines, &[(tighten, both), (lock, lock_idle(lock, tighten))]));
        }
    }
    mutants
}

fn lock_idle(lock: &Act, tighten: &Act) -> String {
    // The only action of its step has to be something.
    if lock.at == tighten.at { String::new() } else { "do \"go on with the work\"".to_owned() }
}

fn only_dropped(lines: &Lines<'_>) -> Vec<String> {
    let acts = actions::of(lines);
    let of_model = |at: usize| {
        let mut mine = acts.iter().filter(|act| act.at == at);
        mine.any(|act| act.objects().iter().any(|name| declaration(lines, name).contains(" models ")))
    };
    let mut mutants = Vec::new();
    for at in lines.steps().filter(|at| of_model(*at)) {
        let models = lines.0.iter().find_map(|line| line.trim_start().strip_prefix("models:")).unwrap_or("");
        let only = lines.extent(at).find(|&i| {
            let model = lines.0[i].trim_start().strip_prefix("only:").map(str::trim);
            model.is_some_and(|model| models.split(',').any(|it| it.trim() == model))
        });
        mutants.extend(only.map(|only| lines.with(only..only + 1, &[])));
    }
    mutants
}

fn set_broken(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|_, line| {
        let from = line.find("renew ").filter(|_| line.trim_start().starts_with("if "))? + 6;
        let end = line[from..].find([';', '"']).map_or(line.len(), |end| from + end);
        let (first, _) = line[from..end].split_once(", ")?;
        let set = declaration(lines, first).contains(" set-with ");
        set.then(|| format!("{}{first}{}", &line[..from], &line[end..]))
    })
}

/// Everything that looks or tries after the last fitting of a part that holds pressure, oil or voltage.
fn test_dropped(lines: &Lines<'_>) -> Vec<String> {
    let acts = actions::of(lines);
    let goes_on = lines.0.iter().any(|line| line.starts_with("    afterwards:") && !line.contains("none"));
    let matters = |name: &String| {
        let text = declaration(lines, name);
        [" pressurised ", " contains ", " live "].iter().any(|fact| text.contains(fact))
    };
    let last = acts
        .iter()
        .rposition(|act| (fits(act) || act.verb() == "connect") && act.objects().iter().any(matters));
    let Some(last) = last.filter(|_| !goes_on) else { return Vec::new() };
    let tests = ["test", "measure", "inspect", "check", "start", "turn", "hold", "run"];
    let tests: Vec<&Act> = acts[last..].iter().filter(|act| tests.contains(&act.verb())).collect();
    if tests.is_empty() {
        Vec::new()
    } else {
        vec![replaced(lines, &tests.iter().map(|act| (*act, act.idle())).collect::<Vec<_>>())]
    }
}

fn locked_live(lines: &Lines<'_>) -> Vec<String> {
    let acts = actions::of(lines);
    let mut mutants = Vec::new();
    for (index, off) in acts.iter().enumerate().filter(|(_, act)| act.verb() == "turn off") {
        let lock =
            acts[index + 1..].iter().find(|act| act.verb() == "lock out" && act.objects() == off.objects());
        if let Some(lock) = lock {
            mutants.push(replaced(lines, &[(off, lock.text.clone()), (lock, off.text.clone())]));
        }
    }
    mutants
}

fn reuse_check_dropped(lines: &Lines<'_>) -> Vec<String> {
    object_dropped(lines, |acts, index, object| {
        let looks = ["measure", "inspect", "test", "check"];
        let alone = !acts
            .iter()
            .enumerate()
            .any(|(i, act)| i != index && looks.contains(&act.verb()) && names(act, object));
        looks.contains(&acts[index].verb()) && declaration(lines, object).contains(" reuse-if ") && alone
    })
}

fn again(lines: &Lines<'_>, picked: fn(&Act) -> bool) -> Vec<String> {
    let acts = actions::of(lines);
    let plain = |act: &&Act| picked(act) && !labelled(act) && act.objects().len() == 1;
    let known = |act: &&Act| act.objects().iter().all(|name| is_part(lines, name));
    let twice = |act: &Act| replaced(lines, &[(act, format!("{}; {}", act.text, act.text))]);
    acts.iter().filter(plain).filter(known).map(twice).collect()
}

fn removed_again(lines: &Lines<'_>) -> Vec<String> {
    again(lines, takes_off)
}

fn fitted_again(lines: &Lines<'_>) -> Vec<String> {
    again(lines, |act| act.verb() == "install")
}

fn limit_outcome_dropped(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|_, line| {
        let known = ["    if below:", "    if above:", "    if outside:"];
        known.iter().any(|start| line.starts_with(start)).then(|| "    # dropped".to_owned())
    })
}

fn outcomes_dropped(lines: &Lines<'_>) -> Vec<String> {
    let mut mutants = Vec::new();
    for at in lines.steps() {
        let looks = ["inspect ", "check ", "test "].iter().any(|verb| lines.0[at].starts_with(verb));
        let limit = [" max ", " min "].iter().any(|word| lines.0[at].contains(word));
        let label = lines.0[at].split(" as ").nth(1).unwrap_or("-").to_owned();
        let asked = lines.0.iter().any(|line| line.trim_start().starts_with(&format!("only: {label}")));
        let end = lines.0[at..]
            .iter()
            .position(|line| line.starts_with("section"))
            .map_or(lines.0.len(), |n| at + n);
        let signed = lines.0[at..end].iter().any(|line| line.starts_with("hold "));
        if !looks || limit || asked || signed || lines.0[at].ends_with([',', ';']) {
            continue;
        }
        let extent = lines.extent(at);
        let kept: Vec<String> = lines.0[extent.clone()]
            .iter()
            .filter(|line| !line.starts_with("    if ") && !line.starts_with("    otherwise"))
            .map(|line| (*line).to_owned())
            .collect();
        mutants.push(lines.with(extent, &kept));
    }
    mutants
}

fn loop_end_dropped(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|_, line| {
        let repeat = line.find("repeat from ").filter(|_| line.trim_start().starts_with("if "))?;
        let end = repeat + line[repeat..].find(", ")?;
        Some(line[..end].to_owned())
    })
}

fn repeat_forward(lines: &Lines<'_>) -> Vec<String> {
    let label = |line: &str| line.split(" as ").nth(1)?.split([' ', ',', ';']).next().map(str::to_owned);
    let mut mutants = Vec::new();
    for at in 0..lines.0.len() {
        let Some(from) = lines.0[at].find("repeat from ").map(|from| from + 12) else { continue };
        let later = lines.steps().filter(|step| *step > at).find_map(|step| label(lines.0[step]));
        let end = lines.0[at][from..].find([',', ';']).map_or(lines.0[at].len(), |end| from + end);
        if let Some(later) = later {
            let line = format!("{}{later}{}", &lines.0[at][..from], &lines.0[at][end..]);
            mutants.push(lines.with(at..at + 1, &[line]));
        }
    }
    mutants
}

fn doer_signs(lines: &Lines<'_>) -> Vec<String> {
    let mut mutants = Vec::new();
    for at in lines.steps().filter(|at| lines.0[*at].starts_with("hold ")) {
        let above =
            lines.0[..at].iter().rev().take_while(|l| !l.starts_with("section") && !l.starts_with("hold "));
        let role = above.filter_map(|line| line.trim_start().strip_prefix("role:")).next();
        let rest = lines.0[at].split_once(' ').and_then(|(_, rest)| rest.split_once(' '));
        if let (Some(role), Some((_, rest))) = (role, rest) {
            mutants.push(lines.with(at..at + 1, &[format!("hold {} {rest}", role.trim())]));
        }
    }
    mutants
}

fn helper_dropped(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|_, line| {
        line.strip_prefix("    people:")
            .filter(|rest| rest.contains('['))
            .map(|_| "    people:     1".to_owned())
    })
}

fn people_dropped(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|at, line| (line.trim() == "people: 2" && at > 12).then(|| "    # dropped".to_owned()))
}
