//! What the author's own English words look like, so that generated words fit round them.

/// Whether the words end so that a noun after them needs no article.
pub(super) fn ends_in_determiner(words: &str) -> bool {
    const DETERMINERS: [&str; 20] = [
        "the", "a", "an", "each", "every", "this", "that", "these", "those", "both", "any", "no", "new",
        "old", "other", "another", "its", "their", "same", "one",
    ];
    let last = words.rsplit(|c: char| !c.is_alphanumeric()).find(|word| !word.is_empty()).unwrap_or("");
    words.ends_with(' ') && DETERMINERS.contains(&last.to_lowercase().as_str())
}

/// What must hold before going on: words after "until". One word alone is a state of the objects.
pub(super) fn until(words: &str, many: bool) -> String {
    if words.contains(' ') {
        words.to_owned()
    } else if many {
        format!("they are {words}")
    } else {
        format!("it is {words}")
    }
}

/// Whether a text that an action is to make sure of is an order as it stands.
pub(super) fn is_order(words: &str) -> bool {
    const ORDERS: [&str; 8] =
        ["make sure", "check ", "verify ", "see that", "see to it", "ensure ", "confirm ", "look "];
    let lower = words.to_lowercase();
    ORDERS.iter().any(|order| lower.starts_with(order))
}

/// A mark's own words without the "with" that led them.
pub(super) fn without_with(words: &str) -> &str {
    words.strip_prefix("with ").unwrap_or(words)
}

const PREPOSITIONS: [&str; 27] = [
    "on", "in", "at", "under", "over", "for", "with", "without", "by", "between", "beside", "behind", "from",
    "to", "into", "onto", "above", "below", "along", "around", "round", "through", "against", "across",
    "near", "after", "before",
];

/// Whether words go on from their object without a colon: "on a live socket".
pub(super) fn leads_on(words: &str) -> bool {
    words.split(' ').next().is_some_and(|first| PREPOSITIONS.contains(&first))
}

/// How what is read joins the thing it is read off.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Reading<'a> {
    /// "the run-out" *of the shaft* "beside the seal".
    Of { head: &'a str, tail: &'a str },
    /// "the length of the carbon" *on each brush*.
    On(&'a str),
}

/// Cuts "surface temperature beside the valve" where the object belongs.
pub(super) fn reading(what: &str) -> Reading<'_> {
    let mut at = 0;
    for word in what.split(' ') {
        if word == "of" {
            return Reading::On(what);
        }
        if at > 0 && PREPOSITIONS.contains(&word) {
            return Reading::Of {
                head: what.get(..at - 1).unwrap_or(what),
                tail: what.get(at..).unwrap_or(""),
            };
        }
        at += word.len();
        if word.ends_with(',') {
            let head = what.get(..at - 1).unwrap_or(what);
            return Reading::Of { head, tail: what.get(at - 1..).unwrap_or("") };
        }
        at += 1;
    }
    Reading::Of { head: what, tail: "" }
}

/// "the " where a text has no article of its own.
pub(super) fn article_for(words: &str) -> &'static str {
    const HAS_ONE: [&str; 11] =
        ["the", "a", "an", "each", "every", "its", "their", "all", "both", "whether", "how"];
    let first = words.split(' ').next().unwrap_or("").to_lowercase();
    if HAS_ONE.contains(&first.as_str()) { "" } else { "the " }
}

/// Whether the phrase after such a tail needs a comma before it.
pub(super) fn tail_wants_comma(tail: &str) -> bool {
    tail.contains(',') || tail.split(' ').any(|word| word == "with")
}

/// A name of the source as words.
pub(super) fn words_of(name: &str) -> String {
    name.replace('-', " ")
}

/// A place or side that a repeat goes to: "the rear left", "cylinder 2".
pub(super) fn instance(name: &str) -> String {
    let words = words_of(name);
    let article = if words.ends_with(|c: char| c.is_ascii_digit()) { "" } else { article_for(&words) };
    format!("{article}{words}")
}

/// The gerund of "while turning hub" goes on with an object; anything else is a clause as it stands.
pub(super) fn is_gerund(word: &str) -> bool {
    word.ends_with("ing") && word.len() > 4
}
