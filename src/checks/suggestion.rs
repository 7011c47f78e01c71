//! "Did you mean": the nearest words, and the sentence that offers them.

/// The words of `among` nearest to `word`, best first, at most three; none that are far off.
pub fn nearest<'a>(word: &str, among: impl Iterator<Item = &'a str>) -> Vec<&'a str> {
    const LONGEST: usize = 48;
    if word.len() > LONGEST {
        return Vec::new();
    }
    let mut close: Vec<(usize, &str)> = among
        .filter(|other| other.len() <= LONGEST)
        .map(|other| (strsim::damerau_levenshtein(word, other), other))
        .filter(|(distance, other)| *distance <= word.len().max(other.len()) / 3)
        .collect();
    close.sort_unstable();
    close.truncate(3);
    close.into_iter().map(|(_, other)| other).collect()
}

/// "Did you mean `cover` or `cover-s`?"; none where nothing is near.
pub fn did_you_mean(near: &[impl AsRef<str>]) -> Option<String> {
    one_of(near).map(|words| format!("Did you mean {words}?"))
}

/// "`a`, `b` or `c`"; none of no words.
pub fn one_of(words: &[impl AsRef<str>]) -> Option<String> {
    let quoted: Vec<String> = words.iter().map(|word| format!("`{}`", word.as_ref())).collect();
    match quoted.split_last()? {
        (only, []) => Some(only.clone()),
        (last, rest) => Some(format!("{} or {last}", rest.join(", "))),
    }
}
