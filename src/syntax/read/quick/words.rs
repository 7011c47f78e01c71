//! Words that cannot be names where they stand.

/// Words that start a quantity.
pub(super) fn bounds(word: &str) -> bool {
    matches!(word, "max" | "min" | "new" | "at" | "up")
}

/// Words that may be the first of `finger tight` and `hand tight`, which lead a phrase too.
pub(super) fn may_lead(word: &str) -> bool {
    matches!(word, "finger" | "hand")
}

/// Words that lead a phrase and so can name nothing: `lead` of the grammar, but for those of two words.
pub(super) fn leads(word: &str) -> bool {
    matches!(
        word,
        "against"
            | "align"
            | "and"
            | "as"
            | "at"
            | "away"
            | "back"
            | "behind"
            | "beside"
            | "between"
            | "by"
            | "clockwise"
            | "crosswise"
            | "down"
            | "dry"
            | "each"
            | "except"
            | "facing"
            | "for"
            | "from"
            | "in"
            | "into"
            | "max"
            | "min"
            | "must"
            | "never"
            | "new"
            | "none"
            | "not"
            | "of"
            | "off"
            | "oiled"
            | "on"
            | "once"
            | "onto"
            | "order"
            | "out"
            | "over"
            | "plated"
            | "plus"
            | "reused"
            | "snug"
            | "the"
            | "then"
            | "through"
            | "to"
            | "twice"
            | "under"
            | "until"
            | "up"
            | "using"
            | "while"
            | "with"
    )
}
