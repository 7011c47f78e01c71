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
            let mut lowered = String::with_capacity(text.len());
            lowered.extend(first.to_lowercase());
            lowered.push_str(chars.as_str());
            lowered
        }
        _ => text.to_owned(),
    }
}

/// What stands before the last blank and after it.
fn last_word(text: &str) -> Option<(&str, &str)> {
    let at = memchr::memrchr(b' ', text.as_bytes())?;
    Some((text.get(..at)?, text.get(at + 1..)?))
}

/// Ends in one or two capitals, or a number of its own: "torque wrench S", "gauge 3". Not in a side of the
/// machine ("wheel LH") or a size ("bolt M8").
fn is_proper(singular: &str) -> bool {
    let Some((_, last)) = last_word(singular) else { return false };
    let letters = last.len() <= 2 && last.chars().all(|c| c.is_ascii_uppercase());
    let number = last.len() <= 3 && last.chars().all(|c| c.is_ascii_digit());
    !last.is_empty() && (letters || number) && !["LH", "RH", "AC", "DC"].contains(&last)
}

/// Words that lead on from a head noun.
const LINKS: [&str; 8] = [" of ", " for ", " with ", " in ", " to ", " on ", " from ", " and "];

/// English plural of the head noun: the word before " of ", " for ", " with ", " in " or " to ", else the last
/// word that is no designation.
fn pluralise(singular: &str) -> String {
    let links =
        |at: &usize| singular.get(*at..).is_some_and(|rest| LINKS.iter().any(|it| rest.starts_with(it)));
    let cut = memchr::memchr_iter(b' ', singular.as_bytes()).find(links);
    let (mut head, _) = singular.split_at(cut.unwrap_or(singular.len()));
    while let Some((before, last)) = last_word(head) {
        if !is_designation(last) {
            break;
        }
        head = before;
    }
    let tail = singular.get(head.len()..).unwrap_or("");
    let start = memchr::memrchr(b' ', head.as_bytes()).map_or(0, |at| at + 1);
    let (rest, word) = head.split_at(start);
    let (stem, ending) = plural_word(word);
    [rest, stem, ending, tail].concat()
}

/// "M8", "6306", "S": stays as it is when the noun before it becomes plural.
fn is_designation(word: &str) -> bool {
    word.chars().any(|c| c.is_ascii_digit())
        || (word.len() <= 2 && !word.is_empty() && word.chars().all(|c| c.is_ascii_uppercase()))
}

/// Words that have no other form, besides those that end in a plural's `s` already.
const UNCHANGED: [&str; 4] = ["series", "chassis", "means", "equipment"];

/// What stays of the word, and what its plural ends in.
fn plural_word(word: &str) -> (&str, &'static str) {
    const IRREGULAR: [(&str, &str, &str); 6] = [
        ("half", "f", "ves"),
        ("shelf", "f", "ves"),
        ("knife", "fe", "ves"),
        ("foot", "oot", "eet"),
        ("tooth", "ooth", "eeth"),
        ("axis", "is", "es"),
    ];
    let irregular = IRREGULAR.iter().filter(|(singular, ..)| word.ends_with(singular));
    let stem = |ending| word.strip_suffix(ending).unwrap_or(word);
    let ends = |suffixes: &[&str]| suffixes.iter().any(|suffix| ends_in(word, suffix));
    if word.is_empty() || UNCHANGED.iter().any(|it| it.eq_ignore_ascii_case(word)) {
        (word, "")
    } else if let Some((_, from, to)) = irregular.into_iter().next() {
        (stem(*from), *to)
    } else if ends(&["ss", "us", "lens", "gas", "x", "ch", "sh", "z"]) {
        (word, "es")
    } else if ends_in(word, "s") {
        (word, "")
    } else if ends_in(word, "y") && !ends(&["ay", "ey", "oy", "uy"]) {
        (word.strip_suffix(['y', 'Y']).unwrap_or(word), "ies")
    } else {
        (word, "s")
    }
}

/// Whether `word` ends in a suffix of small letters, in whatever case.
fn ends_in(word: &str, suffix: &str) -> bool {
    let start = word.len().checked_sub(suffix.len());
    start
        .and_then(|start| word.as_bytes().get(start..))
        .is_some_and(|end| end.eq_ignore_ascii_case(suffix.as_bytes()))
}
