//! How a declared thing is called in a sentence.

/// "cover screw" and "cover screws", made from `"Cover screw, M6 x 20"`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Noun {
    pub singular: String,
    pub plural: String,
    /// Named like a person ("torque wrench S", "gauge 3"): takes no article.
    pub proper: bool,
    /// Plural in form also where there is one ("ring pliers"): "they", not "it".
    pub always_plural: bool,
    /// The author gave the plural, so the thing can be counted even where it is a supply.
    pub counted: bool,
}

impl Noun {
    /// The words up to the first comma, without the capital that only starts the label; `plural` overrides the
    /// rule for irregular words.
    pub fn from_text(text: &str, plural: Option<&str>) -> Noun {
        let head = text.split(',').next().unwrap_or("").trim();
        let singular = lower_first(head);
        let regular = pluralise(&singular);
        Noun {
            proper: is_proper(&singular),
            always_plural: plural.is_none() && regular == singular && !singular.is_empty(),
            counted: plural.is_some(),
            plural: plural.map_or(regular, str::to_owned),
            singular,
        }
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

/// Ends in one or two capitals, or a number of its own: "torque wrench S", "gauge 3". Not in a side of the
/// machine ("wheel LH") or a size ("bolt M8").
fn is_proper(singular: &str) -> bool {
    let Some((_, last)) = singular.rsplit_once(' ') else { return false };
    let letters = last.len() <= 2 && last.chars().all(|c| c.is_ascii_uppercase());
    let number = last.len() <= 3 && last.chars().all(|c| c.is_ascii_digit());
    !last.is_empty() && (letters || number) && !["LH", "RH", "AC", "DC"].contains(&last)
}

/// English plural of the head noun: the word before " of ", " for ", " with ", " in " or " to ", else the last
/// word that is no designation.
fn pluralise(singular: &str) -> String {
    let cut = [" of ", " for ", " with ", " in ", " to ", " on ", " from ", " and "]
        .iter()
        .filter_map(|p| singular.find(p))
        .min();
    let (mut head, _) = singular.split_at(cut.unwrap_or(singular.len()));
    while let Some((before, last)) = head.rsplit_once(' ') {
        if !is_designation(last) {
            break;
        }
        head = before;
    }
    let tail = singular.get(head.len()..).unwrap_or("");
    let start = head.rfind(' ').map_or(0, |at| at + 1);
    let (rest, word) = head.split_at(start);
    format!("{rest}{}{tail}", plural_word(word))
}

/// "M8", "6306", "S": stays as it is when the noun before it becomes plural.
fn is_designation(word: &str) -> bool {
    word.chars().any(|c| c.is_ascii_digit())
        || (word.len() <= 2 && !word.is_empty() && word.chars().all(|c| c.is_ascii_uppercase()))
}

/// Words that have no other form, besides those that end in a plural's `s` already.
const UNCHANGED: [&str; 4] = ["series", "chassis", "means", "equipment"];

fn plural_word(word: &str) -> String {
    let lower = word.to_lowercase();
    let ends = |suffixes: &[&str]| suffixes.iter().any(|s| lower.ends_with(s));
    if word.is_empty() || UNCHANGED.contains(&lower.as_str()) {
        word.to_owned()
    } else if let Some(stem) = word.strip_suffix("half").or_else(|| word.strip_suffix("shelf")) {
        let ending = word.get(stem.len()..word.len() - 1).unwrap_or("");
        format!("{stem}{ending}ves")
    } else if let Some(stem) = word.strip_suffix("knife") {
        format!("{stem}knives")
    } else if let Some(stem) = word.strip_suffix("foot") {
        format!("{stem}feet")
    } else if let Some(stem) = word.strip_suffix("tooth") {
        format!("{stem}teeth")
    } else if let Some(stem) = word.strip_suffix("axis") {
        format!("{stem}axes")
    } else if ends(&["ss", "us", "lens", "gas", "x", "ch", "sh", "z"]) {
        format!("{word}es")
    } else if lower.ends_with('s') {
        word.to_owned()
    } else if lower.ends_with('y') && !ends(&["ay", "ey", "oy", "uy"]) {
        format!("{}ies", word.strip_suffix(['y', 'Y']).unwrap_or(word))
    } else {
        format!("{word}s")
    }
}
