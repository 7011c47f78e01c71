//! Known edits of a clean procedure, and how each has to be told.
use crate::seeded::source::{Lines, without};
use cotter::compare::{How, Kind};

/// One way to edit a file: every place where it can be done.
pub struct Edit {
    pub name: &'static str,
    /// None: no meaning changes.
    pub told: Option<(Kind, How)>,
    pub to_sign: bool,
    /// Not even other words are told.
    pub silent: bool,
    pub make: fn(&Lines<'_>) -> Vec<String>,
}

const fn edit(name: &'static str, kind: Kind, how: How, make: fn(&Lines<'_>) -> Vec<String>) -> Edit {
    Edit { name, told: Some((kind, how)), to_sign: false, silent: false, make }
}

const fn signed(name: &'static str, kind: Kind, how: How, make: fn(&Lines<'_>) -> Vec<String>) -> Edit {
    Edit { name, told: Some((kind, how)), to_sign: true, silent: false, make }
}

const fn words(name: &'static str, make: fn(&Lines<'_>) -> Vec<String>) -> Edit {
    Edit { name, told: None, to_sign: false, silent: false, make }
}

const fn layout(name: &'static str, make: fn(&Lines<'_>) -> Vec<String>) -> Edit {
    Edit { name, told: None, to_sign: false, silent: true, make }
}

pub const EDITS: &[Edit] = &[
    signed("torque of a part changed", Kind::Torque, How::Changed, torque_changed),
    signed("torque of a part dropped", Kind::Torque, How::Gone, torque_dropped),
    signed("passes of a step changed", Kind::Torque, How::Changed, |it| {
        replaced(it, "in 50 % 100 %", "in 60 % 100 %")
    }),
    signed("limit changed", Kind::Limit, How::Changed, limit_changed),
    signed("limit dropped", Kind::Limit, How::Gone, limit_dropped),
    edit("waiting time changed", Kind::Amount, How::Changed, |it| {
        steps_with(it, "wait ", " h", |l| number(l, "wait "))
    }),
    edit("number of repeats changed", Kind::Outcome, How::Changed, |it| {
        replaced(it, "at most 2 times", "at most 3 times")
    }),
    edit("part added", Kind::Part, How::Added, |it| below(it, "parts", "    cork-plug \"Cork plug\"")),
    edit("part dropped", Kind::Part, How::Gone, part_dropped),
    edit("count of a part changed", Kind::Part, How::Changed, |it| {
        in_block(it, "parts", |l| swapped(l, " x4 ", " x3 "))
    }),
    edit("size of a part changed", Kind::Part, How::Changed, |it| {
        in_block(it, "parts", |l| swapped(l, "M6 x 20", "M6 x 25"))
    }),
    edit("mass of a part changed", Kind::Part, How::Changed, |it| {
        in_block(it, "parts", |l| number(l, "mass "))
    }),
    edit("part number changed", Kind::Part, How::Changed, |it| {
        in_block(it, "parts", |l| swapped(l, "number \"", "number \"9-"))
    }),
    edit("tool added", Kind::Tool, How::Added, |it| below(it, "tools", "    dolly \"Trolley\"")),
    edit("load of a tool changed", Kind::Tool, How::Changed, |it| {
        in_block(it, "tools", |l| number(l, "capacity "))
    }),
    signed("single-use dropped", Kind::SingleUse, How::Gone, |it| {
        in_block(it, "parts", |l| swapped(l, "single-use, ", ""))
    }),
    signed("`new` dropped", Kind::SingleUse, How::Gone, |it| {
        steps(it, |l| swapped(l, "install new ", "install "))
    }),
    signed("safety message dropped", Kind::Caution, How::Gone, message_dropped),
    edit("safety message added", Kind::Caution, How::Added, message_added),
    signed("signal word lowered", Kind::Caution, How::Weakened, signal_lowered),
    edit("signal word raised", Kind::Caution, How::Changed, signal_raised),
    signed("hazard class changed", Kind::Caution, How::Changed, class_changed),
    signed("protective equipment dropped", Kind::Caution, How::Weakened, wear_dropped),
    edit("protective equipment added", Kind::Caution, How::Changed, |it| {
        in_message(it, |l| swapped(l, "wear: ", "wear: hair net, "))
    }),
    signed("`avoid:` dropped", Kind::Caution, How::Weakened, |it| without_line(it, "    avoid:")),
    signed("number in a message changed", Kind::Caution, How::Weakened, |it| in_message(it, first_number)),
    signed("message narrowed to the next step", Kind::Caution, How::Weakened, scope_dropped),
    signed("message put before another step", Kind::Caution, How::Moved, message_moved),
    signed("hold dropped", Kind::Hold, How::Gone, |it| step_dropped(it, "hold ")),
    signed("signer of a hold changed", Kind::Hold, How::Changed, |it| {
        steps(it, |l| swapped(l, "hold instructor", "hold technician"))
    }),
    edit("hold added", Kind::Hold, How::Added, |it| step_added(it, "hold foreman \"All is ready.\"")),
    edit("outcome dropped", Kind::Outcome, How::Gone, |it| without_line(it, "    if ")),
    edit("outcome changed", Kind::Outcome, How::Changed, |it| {
        details(it, "    if ", |l| swapped(l, ": stop", ": report foreman"))
    }),
    edit("outcome added", Kind::Outcome, How::Added, outcome_added),
    edit("step added", Kind::Step, How::Added, |it| step_added(it, "do \"lay a clean cloth on the bench\"")),
    edit("step dropped", Kind::Step, How::Gone, |it| step_dropped(it, "")),
    edit("two steps exchanged", Kind::Step, How::Moved, steps_exchanged),
    edit("verb changed", Kind::Step, How::Changed, |it| {
        steps(it, |l| l.strip_prefix("inspect ").map(|r| format!("check {r}")))
    }),
    edit("tool of a step changed", Kind::Step, How::Changed, |it| {
        steps(it, |l| swapped(l, "with spanners", "with hex-keys"))
    }),
    edit("tool of a step dropped", Kind::Step, How::Gone, tool_dropped),
    edit("object of a step dropped", Kind::Step, How::Changed, |it| steps(it, object_dropped)),
    edit("side of a part changed", Kind::Step, How::Changed, |it| {
        steps(it, |l| swapped(l, "facing \"", "facing \"away from "))
    }),
    edit("place changed", Kind::Step, How::Changed, |it| steps(it, |l| swapped(l, " on \"", " beside \""))),
    edit("free instruction changed", Kind::Step, How::Changed, |it| {
        steps(it, |l| l.strip_prefix("do \"").map(|r| format!("do \"do not {r}")))
    }),
    edit("models of the header changed", Kind::Models, How::Changed, models_changed),
    edit("`only:` dropped", Kind::Models, How::Gone, |it| without_line(it, "    only:")),
    edit("`requires:` changed", Kind::Around, How::Changed, |it| header(it, "requires:", "FW-OTH-001")),
    edit("`afterwards:` changed", Kind::Around, How::Changed, |it| header(it, "afterwards:", "FW-OTH-001")),
    edit("people changed", Kind::Effort, How::Changed, |it| header(it, "people:", "4")),
    edit("time changed", Kind::Effort, How::Changed, |it| header(it, "time:", "9 h")),
    edit("time of a section changed", Kind::Effort, How::Changed, |it| {
        details(it, "    time: ", |l| number(l, "time: ")).into_iter().skip(1).collect()
    }),
    edit("record dropped", Kind::Record, How::Gone, |it| without_line(it, "    record:")),
    edit("later work dropped", Kind::Later, How::Gone, |it| without_line(it, "due ")),
    edit("source changed", Kind::Source, How::Changed, |it| header(it, "source:", "manual \"Another book\"")),
    edit("figure of a step dropped", Kind::Figure, How::Gone, |it| without_line(it, "    figure:")),
    edit("number in prose changed", Kind::Number, How::Changed, |it| prose(it, first_number)),
    words("prose reworded", |it| prose(it, |l| Some(format!("{l} Mind the paint.")))),
    words("procedure renamed", |it| {
        it.changed(|_, l| l.starts_with("procedure ").then(|| swapped(l, " \"", " \"Once more: "))?)
    }),
    words("section renamed", |it| {
        it.changed(|_, l| l.starts_with("section ").then(|| swapped(l, " \"", " \"Now "))?)
    }),
    words("revision raised", |it| header(it, "revision:", "Z, 2026-11-20")),
    words("label renamed everywhere", label_renamed),
    words("part renamed everywhere", part_renamed),
    words("message reworded", |it| {
        in_message(it, |l| swapped(l, "harm: ", "harm: Possibly ").filter(|_| l.contains("harm:")))
    }),
    layout("blank lines added", |it| {
        every(it, |l| if l.starts_with("    ") { l.to_owned() } else { format!("\n{l}") })
    }),
    layout("comment lines added", |it| {
        every(
            it,
            |l| if l.starts_with(' ') || l.is_empty() { l.to_owned() } else { format!("# A remark.\n{l}") },
        )
    }),
    layout("comments added behind steps", |it| {
        steps(it, |l| (!l.ends_with([',', ';'])).then(|| format!("{l}  # seen")))
    }),
    layout("attributes wrapped", |it| {
        in_block(it, "parts", |l| swapped(l, "single-use, ", "single-use,\n        "))
    }),
    layout("columns set anew", |it| in_block(it, "parts", |l| swapped(l, "  \"", "      \""))),
    layout("line ends of another system", |it| vec![it.0.join("\r\n") + "\r\n"]),
    layout("order of tools in a step changed", |it| {
        steps(it, |l| swapped(l, "with press, sleeve", "with sleeve, press"))
    }),
];

/// The line with the first `from` as `to`.
fn swapped(line: &str, from: &str, to: &str) -> Option<String> {
    line.contains(from).then(|| line.replacen(from, to, 1))
}

/// The line with the number behind `from` ten hundredths up.
fn number(line: &str, from: &str) -> Option<String> {
    let at = line.find(from)? + from.len();
    let digits = line[at..].find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(line.len() - at);
    let value: f64 = line[at..at + digits].parse().ok()?;
    let decimals = line[at..at + digits].split('.').nth(1).map_or(1, str::len);
    Some(format!("{}{:.decimals$}{}", &line[..at], value * 0.9, &line[at + digits..]))
}

/// The line with its first number doubled, where it has one.
fn first_number(line: &str) -> Option<String> {
    let at = line.find(|c: char| c.is_ascii_digit())?;
    let inside = line[..at].ends_with(|c: char| c.is_alphanumeric() || c == '-');
    (!inside).then(|| format!("{}7{}", &line[..at], &line[at..]))
}

fn steps(it: &Lines<'_>, change: impl Fn(&str) -> Option<String>) -> Vec<String> {
    it.changed(|at, line| it.is_step(at).then(|| change(line))?)
}

fn steps_with(
    it: &Lines<'_>,
    start: &str,
    unit: &str,
    change: impl Fn(&str) -> Option<String>,
) -> Vec<String> {
    steps(it, |line| (line.starts_with(start) && line.contains(unit)).then(|| change(line))?)
}

fn replaced(it: &Lines<'_>, from: &str, to: &str) -> Vec<String> {
    it.changed(|_, line| swapped(line, from, to))
}

fn in_block(it: &Lines<'_>, block: &str, change: impl Fn(&str) -> Option<String>) -> Vec<String> {
    it.changed(|at, line| (it.owner(at) == block && line.starts_with(' ')).then(|| change(line))?)
}

fn in_message(it: &Lines<'_>, change: impl Fn(&str) -> Option<String>) -> Vec<String> {
    let words = ["danger", "warning", "caution", "notice"];
    it.changed(|at, line| (words.contains(&it.owner(at)) && line.starts_with(' ')).then(|| change(line))?)
}

/// Lines of details of steps and sections that begin so.
fn details(it: &Lines<'_>, start: &str, change: impl Fn(&str) -> Option<String>) -> Vec<String> {
    it.changed(|at, line| (line.starts_with(start) && it.owner(at) != "procedure").then(|| change(line))?)
}

fn prose(it: &Lines<'_>, change: impl Fn(&str) -> Option<String>) -> Vec<String> {
    it.changed(|at, line| {
        let starts = line.starts_with("    ") && line[4..].starts_with(|c: char| c.is_ascii_uppercase());
        let margin = (0..=at).rev().find(|&i| !it.0[i].is_empty() && !it.0[i].starts_with([' ', '#']))?;
        let ends = it.0[at].ends_with('.');
        (starts && ends && it.is_step(margin)).then(|| change(line))?
    })
}

fn header(it: &Lines<'_>, key: &str, value: &str) -> Vec<String> {
    let start = format!("    {key}");
    let first = it.0.iter().position(|line| line.starts_with(&start));
    first.map(|at| it.with(at..at + 1, &[format!("{start} {value}")])).into_iter().collect()
}

fn below(it: &Lines<'_>, block: &str, added: &str) -> Vec<String> {
    let at = it.0.iter().position(|line| *line == block);
    at.map(|at| it.with(at + 1..at + 1, &[added.to_owned()])).into_iter().collect()
}

fn every(it: &Lines<'_>, change: impl Fn(&str) -> String) -> Vec<String> {
    let lines: Vec<String> = it.0.iter().map(|line| change(line)).collect();
    vec![lines.join("\n") + "\n"]
}

fn without_line(it: &Lines<'_>, start: &str) -> Vec<String> {
    let drops = |at: &usize| it.0[*at].starts_with(start) && !it.0[*at].ends_with([',', ';']);
    (0..it.0.len()).filter(drops).map(|at| it.with(at..at + 1, &[])).collect()
}

fn torque_changed(it: &Lines<'_>) -> Vec<String> {
    in_block(it, "parts", |line| number(line, "torque ").filter(|_| !line.contains('(')))
}

fn torque_dropped(it: &Lines<'_>) -> Vec<String> {
    in_block(it, "parts", |line| {
        let at = line.find(", torque ")?;
        let end = line[at + 1..].find(',').map_or(line.len(), |end| at + 1 + end);
        Some(format!("{}{}", &line[..at], &line[end..]))
    })
}

/// A measured range in one unit, and where its numbers begin and its unit ends.
fn range(line: &str) -> Option<(usize, usize)> {
    let behind = line.rfind('"').filter(|_| line.starts_with("measure "))? + 1;
    let to = behind + line[behind..].find(" to ")?;
    let from = line[..to].rfind(' ')?;
    let unit = to + 4 + line[to + 4..].find(' ')? + 1;
    let end = line[unit..].find([' ', ',']).map_or(line.len(), |end| unit + end);
    (!line.contains('(') && !line.contains("V AC")).then_some((from, end))
}

fn limit_changed(it: &Lines<'_>) -> Vec<String> {
    steps(it, |line| {
        let (from, _) = range(line)?;
        Some(format!("{}{}", &line[..from], number(&line[from..], " to ")?))
    })
}

fn limit_dropped(it: &Lines<'_>) -> Vec<String> {
    steps(it, |line| range(line).map(|(from, end)| format!("{}{}", &line[..from], &line[end..])))
}

/// A declaration on a line of its own that nothing else is declared by.
fn part_dropped(it: &Lines<'_>) -> Vec<String> {
    let alone = |at: &usize| {
        let line = it.0[*at];
        let name = line.split_whitespace().next().unwrap_or("");
        let others = it.0.iter().filter(|other| other.starts_with("    ") && **other != line);
        let goes_on = it.0.get(at + 1).is_some_and(|next| next.starts_with("        "));
        let named = others.filter(|other| other.contains(name)).count() > 0;
        it.owner(*at) == "parts"
            && line.starts_with("    ")
            && !line.starts_with("     ")
            && !line.contains('#')
            && !goes_on
            && !named
    };
    (0..it.0.len()).filter(alone).map(|at| it.with(at..at + 1, &[])).collect()
}

fn message_dropped(it: &Lines<'_>) -> Vec<String> {
    it.messages().map(|at| it.with(it.extent(at), &[])).collect()
}

fn message_added(it: &Lines<'_>) -> Vec<String> {
    let message = "warning crushing\n    hazard: The lid falls shut.\n    harm:   Crushed fingers.\n    \
                   avoid:  Prop the lid.";
    it.above_steps(message)
}

fn signal(it: &Lines<'_>, pairs: &[(&str, &str)]) -> Vec<String> {
    it.changed(|at, line| {
        let to = |(from, to): &(&str, &str)| line.strip_prefix(from).map(|rest| format!("{to}{rest}"));
        it.is_message(at).then(|| pairs.iter().find_map(to))?
    })
}

fn signal_lowered(it: &Lines<'_>) -> Vec<String> {
    signal(it, &[("danger ", "warning "), ("warning ", "caution "), ("caution ", "notice ")])
}

fn signal_raised(it: &Lines<'_>) -> Vec<String> {
    signal(it, &[("warning ", "danger "), ("caution ", "warning ")])
}

/// Of messages that say their words themselves.
fn class_changed(it: &Lines<'_>) -> Vec<String> {
    it.changed(|at, line| {
        let own = it.0.get(at + 1).is_some_and(|next| next.starts_with("    hazard:"));
        let (signal, rest) = line.split_once(' ').filter(|_| it.is_message(at) && own)?;
        let (class, rest) = rest.split_once(' ').unwrap_or((rest, ""));
        let other = if class == "slip" { "burn" } else { "slip" };
        Some(format!("{signal} {other} {rest}").trim_end().to_owned())
    })
}

fn wear_dropped(it: &Lines<'_>) -> Vec<String> {
    in_message(it, |line| {
        let (kept, _) = line.rsplit_once(", ").filter(|_| line.starts_with("    wear:"))?;
        Some(kept.to_owned())
    })
}

/// Of messages that hold for more than the next step.
fn scope_dropped(it: &Lines<'_>) -> Vec<String> {
    let last = |at: usize| {
        let behind = &it.0[it.extent(at).end..];
        behind
            .iter()
            .take_while(|line| !line.starts_with("section "))
            .filter(|line| line.starts_with(|c: char| c.is_ascii_lowercase()))
            .count()
            < 4
    };
    it.changed(|at, line| {
        let scope = [" for section", " until "].into_iter().find(|scope| line.contains(scope))?;
        let cut = line.find(scope).filter(|_| it.is_message(at) && !last(at))?;
        let next = it.0[it.extent(at).end..].iter().find(|line| !line.is_empty())?;
        // It would end at the step it now stands for.
        let ends_here =
            line.split(" until ").nth(1).is_some_and(|label| next.ends_with(&format!("as {label}")));
        (!ends_here).then(|| line[..cut].to_owned())
    })
}

/// A lone message that guards one step put before the next step of the section.
fn message_moved(it: &Lines<'_>) -> Vec<String> {
    let place = |at: usize| {
        let (lone, own) = (it.0[at].split(' ').count() == 2, it.extent(at));
        let step = own.end;
        if !lone || step >= it.0.len() || !it.is_step(step) || it.preceded_by_message(at) {
            return None;
        }
        let next = it.extent(step).end;
        let steps = next < it.0.len() && it.is_step(next);
        let new: Vec<String> =
            it.0[step..next].iter().chain(&it.0[own.clone()]).map(|l| (*l).to_owned()).collect();
        steps.then(|| it.with(own.start..next, &new))
    };
    it.messages().filter_map(place).collect()
}

/// Lone steps without a name that others jump to.
fn step_dropped(it: &Lines<'_>, start: &str) -> Vec<String> {
    let drops = |at: &usize| {
        let line = it.0[*at];
        let is_hold = line.contains("hold ");
        let steps_below = it.steps().any(|other| other > *at);
        line.starts_with(start)
            && is_hold != start.is_empty()
            && !line.contains(" as ")
            && !it.preceded_by_message(*at)
            && steps_below
            && !line.starts_with("calculate ")
            && !line.ends_with(',')
    };
    it.steps().filter(drops).map(|at| it.with(it.extent(at), &[])).collect()
}

/// Whether a message above holds for the step and for so many before it: another step among them pushes one out.
fn in_reach(it: &Lines<'_>, at: usize) -> bool {
    it.messages().filter(|message| *message < at).any(|message| {
        let reach =
            it.0[message].split(" for next ").nth(1).and_then(|rest| rest.split(' ').next()?.parse().ok());
        let between = it.steps().filter(|step| (message..at).contains(step)).count();
        reach.is_some_and(|reach: usize| between > 0 && between < reach)
    })
}

fn step_added(it: &Lines<'_>, added: &str) -> Vec<String> {
    let lone = |at: &usize| !it.preceded_by_message(*at) && !in_reach(it, *at);
    it.steps().filter(lone).map(|at| it.with(at..at, &[added.to_owned()])).collect()
}

fn outcome_added(it: &Lines<'_>) -> Vec<String> {
    let has = |at: &usize| it.extent(*at).any(|line| it.0[line].starts_with("    if "));
    let added = |at: usize| {
        let end = it.extent(at).end;
        it.with(end..end, &["    if purple: stop \"Ask the foreman.\"".to_owned()])
    };
    it.steps().filter(has).map(added).collect()
}

/// Neighbours that no message stands before, so that only their order is another.
fn steps_exchanged(it: &Lines<'_>) -> Vec<String> {
    let exchange = |at: usize| {
        let first = it.extent(at);
        let second = (first.end < it.0.len() && it.is_step(first.end)).then(|| it.extent(first.end))?;
        let lines =
            |range: std::ops::Range<usize>| it.0[range].iter().map(|l| (*l).to_owned()).collect::<Vec<_>>();
        let text = lines(first.clone()).concat() + &lines(second.clone()).concat();
        let holds =
            text.contains("hold ") || text.contains(" as ") || it.0[first.start] == it.0[second.start];
        let new: Vec<String> = lines(second.clone()).into_iter().chain(lines(first.clone())).collect();
        (!holds && !it.preceded_by_message(at) && !in_reach(it, at))
            .then(|| it.with(first.start..second.end, &new))
    };
    it.steps().filter_map(exchange).collect()
}

/// Where it is the line's only one.
fn tool_dropped(it: &Lines<'_>) -> Vec<String> {
    steps(it, |line| {
        let one = line.matches(" with ").count() == 1 && !line.contains(';') && !line.contains('"');
        let rest = line.split(" with ").nth(1).filter(|rest| one && !rest.contains(','));
        rest.and_then(|_| without(line, " with "))
    })
}

/// The first of two.
fn object_dropped(line: &str) -> Option<String> {
    let (first, rest) = line.strip_prefix("remove ")?.split_once(", ")?;
    (!first.contains(' ')).then(|| format!("remove {rest}"))
}

fn models_changed(it: &Lines<'_>) -> Vec<String> {
    it.changed(|_, line| line.starts_with("    models: ").then(|| format!("{line}, X99")))
}

/// Every label of a step, where the word stands for nothing else.
fn label_renamed(it: &Lines<'_>) -> Vec<String> {
    let labels = it.steps().filter_map(|at| it.0[at].rsplit_once(" as ").map(|(_, label)| label));
    // It is no word of a text or a record.
    let said = |label: &str| {
        let lines = it.0.iter().filter(|line| line.contains(label));
        lines
            .map(|line| {
                line.split('"').skip(1).step_by(2).collect::<String>()
                    + line.split("record:").nth(1).unwrap_or("")
            })
            .any(|text| text.contains(label))
    };
    let plain = labels.filter(|label| !label.contains(' ') && label.contains('-') && !said(label));
    plain.map(|label| it.0.join("\n").replace(label, "renamed-label") + "\n").collect()
}

fn part_renamed(it: &Lines<'_>) -> Vec<String> {
    let lines = (0..it.0.len()).filter(|&at| it.owner(at) == "parts" && it.0[at].starts_with("    "));
    let names = lines.filter_map(|at| it.0[at].strip_prefix("    ")?.split(' ').next());
    let text = it.0.join("\n") + "\n";
    let mut out = Vec::new();
    // Names that are part of no other word.
    for name in names.filter(|name| name.contains('-')) {
        let inside = |at: usize| {
            let letter = |c: char| c.is_alphanumeric() || c == '-';
            text[..at].ends_with(letter) || text[at + name.len()..].starts_with(letter)
        };
        let said = text.split('"').skip(1).step_by(2).any(|words| words.contains(name));
        if !said && text.match_indices(name).all(|(at, _)| !inside(at)) {
            out.push(text.replace(name, "renamed-part"));
        }
    }
    out
}
