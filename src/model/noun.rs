//! How a declared thing is called in a sentence.

/// "cover screw" and "cover screws", made from `"Cover screw, M6 x 20"`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Noun {
    pub singular: String,
    pub plural: String,
    /// Named like a person ("torque wrench S", "gauge 3"): takes no article.
    pub proper: bool,
}

impl Noun {
    /// The words up to the first comma, without the capital that only starts the label; `plural` overrides the
    /// rule for irregular words.
    pub fn from_text(text: &str, plural: Option<&str>) -> Noun {
        let head = text.split(',').next().unwrap_or("").trim();
        let singular = lower_first(head);
        let plural = plural.map_or_else(|| pluralise(&singular), str::to_owned);
        let last = singular.rsplit(' ').next().unwrap_or("");
        let proper = singular.contains(' ')
            && last.len() <= 3
            && last.chars().all(|c| c.is_ascii_uppercase() || c.is_ascii_digit())
            && !last.is_empty();
        Noun { singular, plural, proper }
    }
}

/// Lower-cases a first letter that is a capital only because it starts the text: not in "O-ring", "F40", "V-belt".
fn lower_first(text: &str) -> String {
    let mut chars = text.chars();
    match (chars.next(), chars.clone().next()) {
        (Some(first), Some(second)) if first.is_uppercase() && second.is_lowercase() => {
            first.to_lowercase().chain(chars).collect()
        }
        _ => text.to_owned(),
    }
}

/// English plural of the head noun: the word before " of ", " for ", " with ", " in " or " to ", else the last.
fn pluralise(singular: &str) -> String {
    let cut =
        [" of ", " for ", " with ", " in ", " to ", " on "].iter().filter_map(|p| singular.find(p)).min();
    let (head, tail) = singular.split_at(cut.unwrap_or(singular.len()));
    let (rest, word) = head.rsplit_once(' ').map_or(("", head), |(rest, word)| (rest, word));
    let joined = |word: String| if rest.is_empty() { word } else { format!("{rest} {word}") };
    joined(plural_word(word)) + tail
}

fn plural_word(word: &str) -> String {
    let lower = word.to_lowercase();
    let ends = |suffixes: &[&str]| suffixes.iter().any(|s| lower.ends_with(s));
    if ends(&["pliers", "scissors", "goggles", "gloves", "grease", "shims", "gauges"]) {
        word.to_owned()
    } else if ends(&["s", "x", "ch", "sh", "z"]) {
        format!("{word}es")
    } else if lower.ends_with('y') && !ends(&["ay", "ey", "oy", "uy"]) {
        format!("{}ies", word.strip_suffix(['y', 'Y']).unwrap_or(word))
    } else if let Some(stem) = word.strip_suffix("half") {
        format!("{stem}halves")
    } else {
        format!("{word}s")
    }
}
