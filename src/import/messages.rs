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

/// What a word signals, in any letters: the words of the language, and others that lists have in their place. How grave
/// those are they do not say; a message whose class is not told either is refused until somebody decides.
fn signal(word: &str) -> Option<Signal> {
    match word.to_lowercase().as_str() {
        "attention" => Some(Signal::Caution),
        "important" => Some(Signal::Notice),
        "nb" => Some(Signal::Note),
        word => Signal::from_word(word),
    }
}

/// The message in a line that begins with a signal word in capitals, or with one and a sign behind it.
pub fn read(line: &str) -> Option<Warned<'_>> {
    let end = line.find(|c: char| !c.is_ascii_alphabetic()).unwrap_or(line.len());
    let (word, rest) = line.split_at(end);
    let signal = signal(word)?;
    let parts = word.starts_with(|c: char| c.is_ascii_uppercase())
        && (rest.starts_with('.') || rest.trim_start().starts_with(['-', '–', '—']));
    let marked = word.chars().all(|c| c.is_ascii_uppercase()) || rest.starts_with([':', '!']) || parts;
    let words = rest.trim_start_matches([':', '!', '.', '-', '–', '—', ' ']);
    // A word that another takes the place of is one of the words.
    let told = if word.eq_ignore_ascii_case(signal.word()) { words } else { line };
    (marked && !words.is_empty()).then_some(Warned { signal, word, words: told })
}

/// Whether the line is nothing but a signal word.
pub fn is_signal(line: &str) -> bool {
    signal(line.trim_end_matches([':', '!', '.'])).is_some()
}

/// A piece of a line: what is done, or what warns.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Piece<'a> {
    Work(&'a str),
    Warning(&'a str),
}

/// Cuts a line before each signal word that begins a message in its middle: `Remove the blade. CAUTION: Sharp.`
///
/// Where a message ends no line tells: it reaches to the next one, or to the end.
pub fn cut(line: &str) -> Vec<Piece<'_>> {
    let mut starts: Vec<usize> = words(line).filter(|(at, _)| begins(line, *at)).map(|it| it.0).collect();
    starts.push(line.len());
    let mut pieces = Vec::new();
    let (mut from, mut bracket) = (0, false);
    for end in starts {
        let piece = line.get(from..end).unwrap_or_default().trim();
        let open = piece.ends_with('(');
        let piece = piece.trim_end_matches(['(', ' ', '-', '–', '—']);
        let piece = if bracket { piece.strip_suffix(')').unwrap_or(piece) } else { piece };
        if !piece.is_empty() {
            pieces.push(if read(piece).is_some() { Piece::Warning(piece) } else { Piece::Work(piece) });
        }
        (from, bracket) = (end, open);
    }
    pieces
}

/// Words of letters, and where they begin.
fn words(line: &str) -> impl Iterator<Item = (usize, &str)> {
    let starts = line.char_indices().filter(|(at, c)| {
        let before = line.get(..*at).and_then(|it| it.chars().next_back());
        c.is_alphabetic() && !before.is_some_and(char::is_alphanumeric)
    });
    starts.filter_map(|(at, _)| {
        let rest = line.get(at..)?;
        let end = rest.find(|c: char| !c.is_alphabetic()).unwrap_or(rest.len());
        Some((at, rest.get(..end)?))
    })
}

/// Whether a message begins at the word there: marked as one, or alone at the start of a sentence.
fn begins(line: &str, at: usize) -> bool {
    let (before, here) = line.split_at(at);
    let is_message = read(here).is_some_and(|it| it.word.starts_with(|c: char| c.is_ascii_uppercase()));
    let is_sentence =
        before.trim_end().ends_with(['.', '!', '?', ';', '(']) || !before.contains(char::is_alphanumeric);
    let rest = here.trim_start_matches(|c: char| c.is_ascii_alphabetic());
    at > 0 && is_message && (is_sentence || rest.starts_with([':', '!']))
}

/// Signal words in capitals, before a colon, or first, that stand in the words of a step or a note.
pub fn left_in(line: &str) -> Vec<&str> {
    let warns = |word: &str| signal(word).is_some_and(|it| it != Signal::Note);
    let marked = |at: usize, word: &str| {
        let colon = line.get(at + word.len()..).is_some_and(|it| it.starts_with([':', '!']));
        // "Notice the wear" warns of nothing.
        let first = at == 0 && !word.eq_ignore_ascii_case("notice");
        colon || first || word.chars().all(|c| c.is_ascii_uppercase())
    };
    words(line).filter(|(at, word)| warns(word) && marked(*at, word)).map(|it| it.1).collect()
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
const ORDERS: &[&str] = &[
    "do", "don't", "never", "always", "keep", "stay", "stand", "mind", "wear", "avoid", "beware", "take",
    "use",
];

/// Sentences behind the first that begin with work: where a message ends and a step begins no line tells.
pub fn steps_in(words: &str) -> impl Iterator<Item = &str> {
    let sentences = words.split_inclusive(['.', '!']).map(str::trim).skip(1);
    sentences.filter(|sentence| {
        let first =
            sentence.split(|c: char| !c.is_alphabetic() && c != '\'').next().unwrap_or("").to_lowercase();
        !ORDERS.contains(&first.as_str()) && Verb::find(&first).is_some()
    })
}

/// Whether the words say what to do rather than what is so.
pub fn is_order(words: &str) -> bool {
    let first = words.split(|c: char| !c.is_alphabetic() && c != '\'').next().unwrap_or("").to_lowercase();
    ORDERS.contains(&first.as_str()) || Verb::find(&first).is_some()
}
