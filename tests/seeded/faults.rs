//! Ways to break a clean procedure, each of which one rule must catch.
use super::hazards;
use super::source::{Lines, without};

/// One kind of fault: every place in a file where it can be made.
pub struct Fault {
    pub name: &'static str,
    /// The rule that must fire; any one of them where a slip of the pen can read two ways.
    pub rules: &'static [&'static str],
    pub seed: fn(&Lines<'_>) -> Vec<String>,
}

pub const FAULTS: &[Fault] = &[
    Fault { name: "message put under its step", rules: &["caution-after-step"], seed: message_after_step },
    Fault {
        name: "message at the end of the file",
        rules: &["caution-guards-nothing"],
        seed: message_at_end,
    },
    Fault { name: "stacked messages swapped", rules: &["caution-out-of-order"], seed: swapped_stack },
    Fault {
        name: "hazard, harm or avoid dropped",
        rules: &["incomplete-caution"],
        seed: message_line_dropped,
    },
    Fault { name: "safety message dropped", rules: &["missing-caution"], seed: hazards::message_dropped },
    Fault { name: "`wear:` dropped", rules: &["missing-protection"], seed: hazards::wear_dropped },
    Fault { name: "air for cleaning turned up", rules: &["air-above-limit"], seed: hazards::air_turned_up },
    Fault { name: "part made too heavy for one", rules: &["missing-caution"], seed: hazards::mass_raised },
    Fault { name: "message said at each step", rules: &["over-warned"], seed: hazards::message_repeated },
    Fault { name: "step written as a note", rules: &["action-inside-message"], seed: step_in_note },
    Fault { name: "name misspelt in a step", rules: &["undeclared-name"], seed: misspelt_name },
    Fault {
        name: "name misspelt in prose",
        rules: &["undeclared-name", "dangling-reference"],
        seed: misspelt_reference,
    },
    Fault { name: "part declared and never used", rules: &["unused-declaration"], seed: unused_part },
    Fault { name: "declaration repeated", rules: &["duplicate-name"], seed: repeated_declaration },
    Fault { name: "jump to a label that is not there", rules: &["dangling-reference"], seed: broken_jump },
    Fault { name: "callout given twice", rules: &["callout-clash"], seed: clashing_callout },
    Fault { name: "replace for install", rules: &["replace-is-ambiguous"], seed: replace },
    Fault { name: "verb misspelt", rules: &["unknown-verb"], seed: misspelt_verb },
    Fault { name: "attribute misspelt", rules: &["unknown-attribute"], seed: misspelt_attribute },
    Fault { name: "detail misspelt", rules: &["unknown-detail"], seed: misspelt_detail },
    Fault { name: "hazard class misspelt", rules: &["unknown-hazard"], seed: misspelt_hazard },
    Fault { name: "unit misspelt", rules: &["unknown-unit"], seed: misspelt_unit },
    Fault { name: "unit left out", rules: &["missing-unit"], seed: unit_dropped },
    Fault { name: "unit of another dimension", rules: &["wrong-dimension"], seed: other_dimension },
    Fault { name: "range upside down", rules: &["empty-range"], seed: swapped_range },
    Fault { name: "second unit that disagrees", rules: &["units-disagree"], seed: wrong_second_unit },
    Fault { name: "`new` dropped", rules: &["reused-single-use"], seed: new_dropped },
    Fault { name: "`facing` dropped", rules: &["side-not-stated"], seed: facing_dropped },
    Fault { name: "torque dropped", rules: &["torque-never-stated"], seed: torque_dropped },
    Fault { name: "torque wrench dropped", rules: &["tightened-without-wrench"], seed: wrench_dropped },
    Fault {
        name: "another torque wrench",
        rules: &["wrench-out-of-range", "wrench-too-large"],
        seed: wrench_exchanged,
    },
    Fault { name: "first and last pass exchanged", rules: &["pass-above-final"], seed: passes_exchanged },
    Fault { name: "two passes exchanged", rules: &["passes-not-rising"], seed: passes_fall },
    Fault { name: "last pass dropped", rules: &["passes-fall-short"], seed: last_pass_dropped },
    Fault { name: "way to align dropped", rules: &["align-direction-missing"], seed: way_dropped },
    Fault { name: "ceiling of aligning dropped", rules: &["align-past-maximum"], seed: ceiling_dropped },
    Fault { name: "layout dropped", rules: &["pattern-needs-layout"], seed: layout_dropped },
    Fault { name: "layout of another count", rules: &["layout-does-not-fit"], seed: other_layout },
    Fault { name: "model that is not in the header", rules: &["unknown-model"], seed: other_model },
    Fault { name: "sentence of more than 20 words", rules: &["long-instruction"], seed: long_sentence },
    Fault { name: "vague word", rules: &["vague-word"], seed: vague_word },
    Fault { name: "limit in a note", rules: &["limit-in-note"], seed: limit_in_note },
    Fault { name: "header line dropped", rules: &["missing-header-field"], seed: header_dropped },
    Fault { name: "procedure number misspelt", rules: &["unknown-procedure"], seed: other_procedure },
    Fault { name: "own number called", rules: &["follows-itself"], seed: own_procedure },
    Fault { name: "waiver without a reason", rules: &["waiver-without-reason"], seed: waiver_without_reason },
    Fault { name: "waiver that hides nothing", rules: &["waiver-not-needed"], seed: waiver_not_needed },
    Fault { name: "month that is none", rules: &["impossible-date"], seed: impossible_month },
    Fault { name: "one piece more than names", rules: &["pieces-miscounted"], seed: piece_more },
    Fault { name: "part taken for the gauge", rules: &["measured-with-a-part"], seed: gauge_exchanged },
    Fault { name: "hazard code that is none", rules: &["unknown-hazard-code"], seed: no_such_code },
    Fault { name: "quote left open", rules: &["unreadable-line"], seed: open_quote },
];

fn message_after_step(lines: &Lines<'_>) -> Vec<String> {
    let mut mutants = Vec::new();
    for at in lines.messages() {
        let extent = lines.extent(at);
        let step =
            (extent.end..lines.0.len()).find(|&i| !lines.0[i].is_empty() && !lines.0[i].starts_with('#'));
        // A scope or a label of the message would be lost with it.
        let plain = lines.0[at].split(' ').count() == 2 && !lines.0[at].starts_with("note");
        let Some(step) =
            step.filter(|&step| plain && lines.is_step(step) && !lines.0[step].ends_with([',', ';']))
        else {
            continue;
        };
        let mut moved: Vec<String> = lines.0[extent.end..=step].iter().map(|s| (*s).to_owned()).collect();
        moved.extend(lines.0[extent.clone()].iter().map(|line| format!("    {line}")));
        mutants.push(lines.with(extent.start..step + 1, &moved));
    }
    mutants
}

fn message_at_end(lines: &Lines<'_>) -> Vec<String> {
    let end = lines.0.len();
    let last = "warning crushing\n    hazard: The press closes.\n    harm: Crushed hand.\n    avoid: Keep your hands away.";
    vec![lines.with(end..end, &[last.to_owned()])]
}

fn swapped_stack(lines: &Lines<'_>) -> Vec<String> {
    let severity = |at: usize| {
        ["note", "notice", "caution", "warning", "danger"]
            .iter()
            .position(|w| lines.0[at].starts_with(&format!("{w} ")))
    };
    let mut mutants = Vec::new();
    for at in lines.messages() {
        let (first, next) = (lines.extent(at), lines.extent(at).end);
        if next < lines.0.len() && lines.is_message(next) && severity(at) > severity(next) {
            let second = lines.extent(next);
            let swapped: Vec<String> = lines.0[second.clone()]
                .iter()
                .chain(&lines.0[first.clone()])
                .map(|s| (*s).to_owned())
                .collect();
            mutants.push(lines.with(first.start..second.end, &swapped));
        }
    }
    mutants
}

fn message_line_dropped(lines: &Lines<'_>) -> Vec<String> {
    let keys = ["hazard:", "harm:", "avoid:"];
    let mut mutants = Vec::new();
    for at in lines.messages() {
        for line in lines.extent(at).skip(1) {
            let depth = |i: usize| lines.0[i].len() - lines.0[i].trim_start().len();
            if keys.iter().any(|key| lines.0[line].trim_start().starts_with(key)) {
                let more = (line + 1..lines.0.len()).take_while(|&i| depth(i) > depth(line)).count();
                mutants.push(lines.with(line..line + 1 + more, &[]));
            }
        }
    }
    mutants
}

fn step_in_note(lines: &Lines<'_>) -> Vec<String> {
    let parts = lines.0.iter().skip_while(|line| **line != "parts").skip(1);
    let part = parts.map(|line| line.trim_start()).find(|line| !line.starts_with('#'));
    let Some(name) = part.and_then(|part| part.split_whitespace().next()) else { return Vec::new() };
    lines.above_steps(&format!("note \"Remove [{name}] before you go on.\""))
}

/// The first object of each step whose verb stands directly before it.
fn misspelt_name(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|at, line| {
        let (verb, rest) = line.split_once(' ').filter(|_| lines.is_step(at))?;
        let known = [
            "remove", "install", "tighten", "clean", "inspect", "loosen", "press", "discard", "measure",
            "dry",
        ];
        let word = rest.split([' ', ',', ';']).next()?;
        let plain =
            !["new", "each", "the"].contains(&word) && word.starts_with(|c: char| c.is_ascii_lowercase());
        (known.contains(&verb) && plain).then(|| format!("{verb} {word}qx{}", &rest[word.len()..]))
    })
}

fn misspelt_reference(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|_, line| {
        let open = line.find('[')?;
        let inside = line[open..].find(']')?;
        line.starts_with(' ').then(|| format!("{}qx{}", &line[..open + inside], &line[open + inside..]))
    })
}

fn unused_part(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|_, line| (line == "parts").then(|| format!("{line}\n    spare-qx  \"Spare dowel\"")))
}

fn is_declaration(lines: &Lines<'_>, at: usize) -> bool {
    let line = lines.0[at];
    let indent = line.len() - line.trim_start().len();
    let block = ["parts", "tools", "supplies", "figures"].contains(&lines.owner(at));
    block && indent == 4 && !line.trim_start().starts_with('#') && line.contains('"')
}

fn repeated_declaration(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|at, line| {
        let name = line.split_whitespace().next().filter(|_| is_declaration(lines, at))?;
        Some(format!("    {name}  \"Another thing\"\n{line}"))
    })
}

fn broken_jump(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|_, line| {
        let from = ["repeat from ", "skip to "].iter().find_map(|key| Some(line.find(key)? + key.len()))?;
        let end = line[from..].find([' ', ',', ';']).map_or(line.len(), |end| from + end);
        Some(format!("{}qx{}", &line[..end], &line[end..]))
    })
}

fn clashing_callout(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|_, line| {
        let at = line.find("callout ")? + "callout ".len();
        let end = at + line[at..].find(' ')?;
        let number: u32 = line[at..end].parse().ok()?;
        let other = if number == 1 { 2 } else { number - 1 };
        Some(format!("{}{other}{}", &line[..at], &line[end..]))
    })
}

fn replace(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|at, line| {
        let rest = line.strip_prefix("install ").filter(|_| lines.is_step(at))?;
        Some(format!("replace {rest}"))
    })
}

fn misspelt_verb(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|at, line| {
        let (verb, rest) = line.split_once(' ').filter(|_| lines.is_step(at))?;
        let known = ["remove", "install", "tighten", "clean", "inspect", "loosen", "measure"];
        known.contains(&verb).then(|| format!("{verb}x {rest}"))
    })
}

fn misspelt_attribute(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|at, line| {
        let known = ["single-use", "spring-loaded", "pressed", "sided"];
        let word = known.iter().find(|word| line.contains(**word)).filter(|_| is_declaration(lines, at))?;
        Some(line.replacen(word, &format!("{word}x"), 1))
    })
}

fn misspelt_detail(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|at, line| {
        let known = ["because", "teach", "record"];
        let key = known.iter().find(|key| line.starts_with(&format!("    {key}:")))?;
        (!lines.0[at - 1].starts_with(' ') || lines.0[at - 1].contains(':'))
            .then(|| line.replacen(key, &format!("{key}x"), 1))
    })
}

fn misspelt_hazard(lines: &Lines<'_>) -> Vec<String> {
    let mut mutants = Vec::new();
    for at in lines.messages() {
        let inline = lines.extent(at).len() > 1 && !lines.0[at].starts_with("note");
        let mut words = lines.0[at].splitn(3, ' ');
        if let (true, Some(signal), Some(class)) = (inline, words.next(), words.next()) {
            let rest = words.next().map_or(String::new(), |rest| format!(" {rest}"));
            mutants.push(lines.with(at..at + 1, &[format!("{signal} {class}x{rest}")]));
        }
    }
    mutants
}

/// Lines that hold this unit once, where nothing else is read on the line in brackets.
fn unit_lines(lines: &Lines<'_>, unit: &str, with: &str) -> Vec<String> {
    let unit = format!(" {unit}");
    lines.changed(|at, line| {
        let place = line.find(&unit)?;
        let digit = line[..place].ends_with(|c: char| c.is_ascii_digit());
        let ends =
            line[place + unit.len()..].starts_with([',', ' ', ';']) || line.len() == place + unit.len();
        let quoted = line[..place].matches('"').count() % 2 == 1;
        let typed = is_declaration(lines, at) || line.starts_with("tighten ");
        (digit && ends && !quoted && typed && !line.contains('(') && line.matches(&unit).count() == 1)
            .then(|| line.replacen(&unit, with, 1))
    })
}

fn misspelt_unit(lines: &Lines<'_>) -> Vec<String> {
    ["N.m", "mm", "kg", "min"].iter().flat_map(|unit| unit_lines(lines, unit, &format!(" {unit}x"))).collect()
}

fn unit_dropped(lines: &Lines<'_>) -> Vec<String> {
    ["N.m", "mm", "kg"].iter().flat_map(|unit| unit_lines(lines, unit, "")).collect()
}

fn other_dimension(lines: &Lines<'_>) -> Vec<String> {
    [("N.m", " kg"), ("kg", " mm")].iter().flat_map(|(unit, with)| unit_lines(lines, unit, with)).collect()
}

/// A line with `LOW to HIGH UNIT` outside quotes: where LOW starts, both numbers, and where HIGH ends.
fn range_in<'a>(lines: &Lines<'_>, at: usize, line: &'a str) -> Option<(usize, &'a str, &'a str, usize)> {
    if !(is_declaration(lines, at) || lines.is_step(at)) || line.contains('(') {
        return None;
    }
    let is_number = |c: char| c.is_ascii_digit() || c == '.';
    line.match_indices(" to ").find_map(|(to, _)| {
        let low = line[..to].rsplit(|c: char| !is_number(c)).next().filter(|low| !low.is_empty())?;
        let rest = &line[to + 4..];
        let high = &rest[..rest.find(|c: char| !is_number(c)).unwrap_or(rest.len())];
        let quoted = line[..to].matches('"').count() % 2 == 1;
        (!high.is_empty() && !quoted && low != high).then(|| (to - low.len(), low, high, to + 4 + high.len()))
    })
}

fn swapped_range(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|at, line| {
        let (start, low, high, end) = range_in(lines, at, line)?;
        Some(format!("{}{high} to {low}{}", &line[..start], &line[end..]))
    })
}

fn wrong_second_unit(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|at, line| {
        let (_, _, _, end) = range_in(lines, at, line)?;
        let unit_end = end + " N.m".len();
        line[end..]
            .starts_with(" N.m")
            .then(|| format!("{} (1 to 2 lb-in){}", &line[..unit_end], &line[unit_end..]))
    })
}

fn new_dropped(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|at, line| {
        let place = line.find(" new ").filter(|_| lines.is_step(at))?;
        let word = line[place + 5..].split([' ', ',', ';']).next()?;
        let declared = lines
            .0
            .iter()
            .any(|l| l.trim_start().starts_with(&format!("{word} ")) && l.contains("single-use"));
        let fits = line[..place].ends_with("install") || line[..place].ends_with("press");
        (declared && fits).then(|| line.replacen(" new ", " ", 1))
    })
}

fn facing_dropped(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|at, line| {
        let place = line.find(" facing ").filter(|_| lines.is_step(at))?;
        let quoted = line[..place].matches('"').count() % 2 == 1;
        without(line, " facing ").filter(|_| !quoted)
    })
}

fn torque_dropped(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|at, line| {
        let from = line.find("torque ").filter(|_| is_declaration(lines, at))?;
        let end = line[from..].find(',').map_or(line.len(), |end| from + end + 1);
        let head = line[..from].trim_end();
        let tail = line[end..].trim_start();
        let name = line.split_whitespace().next()?;
        let own = lines.steps().any(|step| tightens_by_itself(lines, step, name));
        let alone = !own && !line.contains(" range ") && !tail.contains("not above") && !line.ends_with(',');
        alone.then(|| {
            if tail.is_empty() { head.trim_end_matches(',').to_owned() } else { format!("{head} {tail}") }
        })
    })
}

/// The step says itself how tight `name` becomes.
fn tightens_by_itself(lines: &Lines<'_>, step: usize, name: &str) -> bool {
    let line = lines.0[step];
    let names = line.split([' ', ',', ';']).any(|word| word == name);
    let stages = lines.extent(step).any(|at| lines.0[at].trim_start().starts_with("stage:"));
    let says = line
        .split("tighten ")
        .nth(1)
        .is_some_and(|rest| rest.contains(" by ") || rest.contains(|c: char| c.is_ascii_digit()));
    names && (stages || says)
}

fn wrench_dropped(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|at, line| {
        let tightens = lines.is_step(at) && line.starts_with("tighten ") && !line.contains("; ");
        ["with wrench-s", "with wrench-m", "with wrench-l"].iter().find_map(|with| {
            let place = line.find(with).filter(|_| tightens)?;
            let rest = &line[place + with.len()..];
            (!rest.starts_with([',', 'x'])).then(|| format!("{}{rest}", line[..place].trim_end()))
        })
    })
}

fn wrench_exchanged(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|at, line| {
        let tightens = lines.is_step(at) && line.contains("tighten ");
        [("with wrench-s", "xl"), ("with wrench-m", "xl"), ("with wrench-l", "s")].iter().find_map(
            |(with, other)| {
                let place = line.find(with).filter(|_| tightens)?;
                let rest = &line[place + with.len()..];
                (!rest.starts_with('x')).then(|| format!("{}with wrench-{other}{rest}", &line[..place]))
            },
        )
    })
}

fn passes_exchanged(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|_, line| {
        line.contains("in 50 % 100 %").then(|| line.replace("in 50 % 100 %", "in 100 % 50 %"))
    })
}

fn passes_fall(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|_, line| line.contains("50 % 75 %").then(|| line.replace("50 % 75 %", "75 % 50 %")))
}

fn last_pass_dropped(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|_, line| line.contains(" % 100 %").then(|| line.replace(" % 100 %", " %")))
}

fn way_dropped(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|_, line| {
        let way = ["align slot by tightening", "align slot by loosening"]
            .into_iter()
            .find(|way| line.contains(way))?;
        Some(line.replace(way, "align slot"))
    })
}

fn ceiling_dropped(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|_, line| {
        let from = line.find(", not above ")?;
        let end = line[from..].find(" with").map_or(line.len(), |end| from + end);
        Some(format!("{}{}", &line[..from], &line[end..]))
    })
}

fn layout_dropped(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|_, line| line.contains(" layout 2 rows,").then(|| line.replace(" layout 2 rows,", "")))
}

fn other_layout(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|_, line| {
        line.contains("layout 2 rows").then(|| line.replace("layout 2 rows", "layout rectangle 4 by 4"))
    })
}

fn other_model(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|at, line| {
        let models: Vec<&str> = lines
            .0
            .iter()
            .find_map(|l| l.trim_start().strip_prefix("models:"))?
            .split(',')
            .map(str::trim)
            .collect();
        let model = line.trim_start().strip_prefix("only:")?.trim();
        (models.contains(&model) && !lines.owner(at).is_empty()).then(|| format!("    only: {model}Q"))
    })
}

fn long_sentence(lines: &Lines<'_>) -> Vec<String> {
    lines.under_steps("Turn it slowly by hand through two full turns while you watch the edge and listen for any rubbing sound from behind the cover plate.")
}

fn vague_word(lines: &Lines<'_>) -> Vec<String> {
    lines.under_steps("Hold it securely.")
}

fn limit_in_note(lines: &Lines<'_>) -> Vec<String> {
    lines.above_steps("note \"The gap is 0.5 mm.\"")
}

fn header_dropped(lines: &Lines<'_>) -> Vec<String> {
    ["revision", "equipment", "models", "source", "time", "people", "requires", "afterwards"]
        .iter()
        .filter_map(|field| {
            let is_field = |line: &&str| line.starts_with(&format!("    {field}:"));
            let header = lines.extent(lines.0.iter().position(|line| line.starts_with("procedure "))?);
            let at = header.start + lines.0[header.clone()].iter().position(is_field)?;
            let once = lines.0[header].iter().filter(|line| is_field(line)).count() == 1;
            // Without its models a procedure also has steps for models that are not there.
            let plain = *field != "models"
                || !lines.0.iter().any(|line| line.contains("only:") || line.contains(" models "));
            let whole = !lines.0.get(at + 1).is_some_and(|next| next.starts_with("     "));
            (once && plain && whole).then(|| lines.with(at..at + 1, &[]))
        })
        .collect()
}

fn other_procedure(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|_, line| {
        let key = ["requires:", "afterwards:"].iter().find(|key| line.trim_start().starts_with(**key))?;
        let number = line.split_once(key)?.1.split_whitespace().next().filter(|number| *number != "none")?;
        Some(line.replacen(number, &format!("{number}9"), 1))
    })
}

fn own_procedure(lines: &Lines<'_>) -> Vec<String> {
    let own =
        lines.0.iter().find_map(|line| line.strip_prefix("procedure ")?.split(' ').next()).unwrap_or("");
    lines.changed(|_, line| {
        let key = ["requires:", "afterwards:", "follow "]
            .iter()
            .find(|key| line.trim_start().starts_with(**key))?;
        let number = line.split_once(key)?.1.split_whitespace().next().filter(|number| *number != "none")?;
        (!number.starts_with('"')).then(|| line.replacen(number, own, 1))
    })
}

fn waiver_without_reason(lines: &Lines<'_>) -> Vec<String> {
    lines.under_steps("waive: long-instruction")
}

fn waiver_not_needed(lines: &Lines<'_>) -> Vec<String> {
    lines.under_steps("waive: long-instruction \"Practised learners only.\"")
}

fn open_quote(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|at, line| {
        let plain = lines.is_step(at) && !line.contains('"') && !line.ends_with([',', ';']);
        plain.then(|| format!("{line} \"until it rests"))
    })
}

fn impossible_month(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|_, line| {
        let month = line
            .find("-1")
            .filter(|_| line.starts_with("    revision:") || line.starts_with("    approved:"))?;
        Some(format!("{}-3{}", &line[..month], &line[month + 2..]))
    })
}

fn piece_more(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|at, line| {
        let named = line.find(" x2 as ").filter(|_| lines.owner(at) == "parts")?;
        Some(format!("{} x3 as {}", &line[..named], &line[named + " x2 as ".len()..]))
    })
}

fn gauge_exchanged(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|at, line| {
        let reading = line.strip_prefix("measure ").filter(|_| lines.is_step(at))?;
        let part = reading.strip_prefix("each ").unwrap_or(reading).split(' ').next()?;
        let said = line.rfind('"').unwrap_or(0);
        let with = said + line[said..].find(" with ")? + " with ".len();
        let end = with + line[with..].find([' ', ','])?;
        Some(format!("{}{part}{}", &line[..with], &line[end..]))
    })
}

/// The procedures take their supplies from the shop, which is not seeded: one more is declared and used.
fn no_such_code(lines: &Lines<'_>) -> Vec<String> {
    let mutants = lines.changed(|_, line| {
        (line == "supplies none").then(|| "supplies\n    spray  \"Spray\"  hazards H413, H999".to_owned())
    });
    mutants.into_iter().map(|mutant| mutant + "do \"mark the place\" using spray\n").collect()
}
