//! Lines that begin with a signal word, and the hazard that their words speak of.
use crate::model::message::Signal;
use crate::model::verb::Verb;

/// A line that warns.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Warned<'a> {
    pub signal: Signal,
    /// As the list has it.
    pub word: &'a str,
    pub words: &'a str,
}

/// The message in a line that begins with a signal word in capitals, or with one and a colon.
pub fn read(line: &str) -> Option<Warned<'_>> {
    let end = line.find(|c: char| !c.is_ascii_alphabetic()).unwrap_or(line.len());
    let (word, rest) = line.split_at(end);
    let signal = Signal::from_word(&word.to_lowercase())?;
    let marked = word.chars().all(|c| c.is_ascii_uppercase()) || rest.starts_with([':', '!']);
    let words = rest.trim_start_matches([':', '!', '.', '-', '–', '—', ' ']);
    (marked && !words.is_empty()).then_some(Warned { signal, word, words })
}

/// Words by which a hazard is known, most telling first. Common practice, no source.
const TELLING: &[(&str, &[&str])] = &[
    (
        "electric-shock",
        &["shock", "voltage", "live wire", "are live", "is live", "can be live", "electrocut"],
    ),
    ("unexpected-start", &["start unexpectedly", "starts unexpectedly", "start by itself", "can start"]),
    ("high-pressure", &["pressure", "pressurised", "pressurized", "jet"]),
    ("falling-load", &["falls", "suspended", "under the load", "can fall", "jack"]),
    ("fire", &["fire", "flame", "flammable", "spark", "ignite"]),
    ("burn", &["hot", "burn", "scald"]),
    ("ejection", &["spring", "fly off", "flies off", "thrown"]),
    ("entanglement", &["rotating", "turning shaft", "belt runs", "fan"]),
    ("crushing", &["crush", "pinch", "trap"]),
    ("cutting", &["sharp", "cut", "blade"]),
    ("chemical", &["solvent", "acid", "skin", "fumes", "vapour", "vapor"]),
    ("lifting", &["heavy", "lift"]),
    ("eye-injury", &["eye", "goggles"]),
    ("dust", &["dust"]),
    ("noise", &["noise", "loud"]),
    ("slip", &["slip"]),
    ("contamination", &["dirt", "contaminat", "clean cap"]),
    ("damage", &["damage", "scratch", "bend"]),
];

/// The class of the hazard that the words speak of. Of a `notice` only what harms things, of others only what hurts.
pub fn class(signal: Signal, words: &str) -> Option<&'static str> {
    let words = words.to_lowercase();
    let things = ["contamination", "damage"];
    let fits = |class: &str| things.contains(&class) == (signal == Signal::Notice);
    let told = |(class, telling): &&(&'static str, &[&str])| {
        fits(class) && telling.iter().any(|it| words.contains(it))
    };
    TELLING.iter().find(told).map(|(class, _)| *class)
}

/// How a sentence begins that says what to do, besides the verbs of the language. Common practice, no source.
const ORDERS: &[&str] =
    &["do", "don't", "never", "always", "keep", "stay", "stand", "wear", "avoid", "beware", "take", "use"];

/// Whether the words say what to do rather than what is so.
pub fn is_order(words: &str) -> bool {
    let first = words.split(|c: char| !c.is_alphabetic() && c != '\'').next().unwrap_or("").to_lowercase();
    ORDERS.contains(&first.as_str()) || Verb::find(&first).is_some()
}
