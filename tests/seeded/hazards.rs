//! Ways to take away what keeps people whole: messages, equipment, limits.
use super::source::Lines;

/// Messages that no declared fact asks for: an instructor gives them from knowledge of the machine. Each as its
/// line starts, how the step behind it starts, and why.
const FROM_KNOWLEDGE: &[(&str, &str, &str)] = &[
    ("caution oil-floor", "put drip-tray", "nothing is declared about the floor"),
    ("caution oil-floor", "fill housing", "nothing is declared about the floor"),
    ("warning noise", "open drain-cock", "nothing is declared about loudness"),
    ("caution dust", "clean holder", "nothing is declared about dust"),
    ("warning arc", "disconnect earth-clamp", "a battery of 12 V shocks nobody; the spanner melts"),
    ("warning trapped-pressure", "do ", "what the author's own words let out is not known"),
    ("warning trapped-pressure", "put drip-tray", "the cylinder was read at zero two steps before"),
    ("caution heavy-lift", "attach sling", "it hangs on a hoist"),
    ("caution heavy-lift", "pull rod", "two carry 9 kg; that it is long is not declared"),
    ("caution heavy-lift", "insert rod", "two carry 9 kg; that it is long is not declared"),
    ("caution heavy-lift", "remove wheel-nuts", "22 kg, just below the limit"),
    ("caution heavy-lift", "remove hub", "two carry 24 kg"),
    ("caution heavy-lift", "install hub", "two carry 24 kg"),
    ("caution heavy-lift", "raise mower", "two tip 46 kg"),
    ("caution heavy-lift", "remove rest", "two let down 46 kg"),
    (
        "caution hot-surface",
        "shut down engine",
        "nobody is asked to touch the engine before it was measured cold",
    ),
    ("caution hot-surface", "check", "nobody is asked to touch the engine once it runs"),
    ("warning unexpected-start", "disconnect spark-lead", "that a blade starts its engine is not declared"),
    ("warning ejection", "start engine", "that a blade throws stones is not declared"),
    ("warning ejection", "inspect outer-cone", "the blows are in the author's own words"),
    ("warning spring-loose", "align impeller", "the spring is behind the impeller that is fitted"),
    ("warning start-up", "report operator", "a danger of the same step speaks of the power"),
    ("warning start-up", "check", "a danger of the same section speaks of the power"),
];

/// Every message that can hurt, one at a time.
pub fn message_dropped(lines: &Lines<'_>) -> Vec<String> {
    let owed = lines.messages().filter(|&at| hurts(lines.0[at]) && knowledge(lines, at).is_none());
    owed.map(|at| lines.with(lines.extent(at), &[])).collect()
}

/// The messages that are left out above, one at a time, each with its place in that list.
pub fn unowed_dropped(lines: &Lines<'_>) -> Vec<(usize, String)> {
    let messages = lines.messages().filter(|&at| hurts(lines.0[at]));
    messages.filter_map(|at| Some((knowledge(lines, at)?, lines.with(lines.extent(at), &[])))).collect()
}

/// What the list above says why.
pub fn reasons() -> impl Iterator<Item = String> {
    FROM_KNOWLEDGE.iter().map(|(message, step, why)| format!("`{message}` before `{step}`: {why}"))
}

fn hurts(line: &str) -> bool {
    !line.starts_with("note ") && !line.starts_with("notice ")
}

fn knowledge(lines: &Lines<'_>, at: usize) -> Option<usize> {
    let step = lines.steps().find(|step| *step > at).map_or("", |step| lines.0[step]);
    FROM_KNOWLEDGE
        .iter()
        .position(|(message, start, _)| lines.0[at].starts_with(message) && step.starts_with(start))
}

/// The equipment of a message that a procedure writes out, where what flies, splashes, cuts or falls needs some.
pub fn wear_dropped(lines: &Lines<'_>) -> Vec<String> {
    let mut mutants = Vec::new();
    for at in lines.messages() {
        let class = lines.0[at].split(' ').nth(1).unwrap_or("");
        let wear = lines.extent(at).find(|&line| lines.0[line].starts_with("    wear:"));
        // The falling mower has a second message that asks for the same shoes.
        let alone = !lines.is_message(lines.extent(at).end);
        let needs =
            alone && ["ejection", "high-pressure", "falling-load", "burn", "eye-injury"].contains(&class);
        mutants.extend(
            wear.filter(|_| needs && knowledge(lines, at).is_none())
                .map(|wear| lines.with(wear..wear + 1, &[])),
        );
    }
    mutants
}

/// 6 bar is the pressure of a shop's line.
pub fn air_turned_up(lines: &Lines<'_>) -> Vec<String> {
    lines.changed(|at, line| {
        let blows = lines.is_step(at) && line.starts_with("blow out ");
        line.find("1.5 bar").filter(|_| blows).map(|_| line.replacen("1.5 bar", "6 bar", 1))
    })
}

/// Parts that one person carries somewhere without a message.
pub fn mass_raised(lines: &Lines<'_>) -> Vec<String> {
    // Guarded wherever it is carried: by two, and with a message.
    let guarded = ["rod"];
    lines.changed(|at, line| {
        let from = line.find("mass ").filter(|_| lines.owner(at) == "parts")? + "mass ".len();
        let (number, rest) = line[from..].split_once(" kg")?;
        let name = line.split_whitespace().next()?;
        let light = number.parse::<f64>().ok()? < 23.0 && !guarded.contains(&name);
        light.then(|| format!("{}180 kg{rest}", &line[..from]))
    })
}

/// A standing message that guards a range of plain steps, said at each of them instead.
pub fn message_repeated(lines: &Lines<'_>) -> Vec<String> {
    let mut mutants = Vec::new();
    for at in lines.messages() {
        let (Some(call), 1) = (lines.0[at].strip_suffix(" for next 2 steps"), lines.extent(at).len()) else {
            continue;
        };
        let mut steps = lines.steps().filter(|step| *step > at);
        if let (Some(first), Some(second)) = (steps.next(), steps.next())
            && first == at + 1
            && !lines.0[first..second].iter().any(|line| line.starts_with("section"))
        {
            let mut new = vec![call.to_owned()];
            new.extend(lines.0[first..second].iter().map(|line| (*line).to_owned()));
            new.push(call.to_owned());
            mutants.push(lines.with(at..second, &new));
        }
    }
    mutants
}
