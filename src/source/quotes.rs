//! Texts in quotes where a line is looked at without being read: what cannot be read may still name things.

/// What stands outside of quotes, with a blank for each text, and the texts.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Parted {
    pub outside: String,
    pub texts: Vec<String>,
}

/// Parts a line as the grammar does: `"` ends at the next `"` and “ at the next ”, a backslash takes one letter along.
/// A quote that is left open reaches to the end.
pub fn parted(line: &str) -> Parted {
    let mut parted = Parted::default();
    let mut open: Option<(char, String)> = None;
    let mut chars = line.chars();
    while let Some(c) = chars.next() {
        match (&mut open, c) {
            (Some((_, text)), '\\') => text.extend(chars.next()),
            (Some((end, _)), c) if c == *end => parted.texts.extend(open.take().map(|it| it.1)),
            (Some((_, text)), c) => text.push(c),
            (None, '"' | '“') => {
                parted.outside.push(' ');
                open = Some((if c == '"' { '"' } else { '”' }, String::new()));
            }
            (None, c) => parted.outside.push(c),
        }
    }
    parted.texts.extend(open.map(|it| it.1));
    parted
}

/// The words as a text of the language.
#[must_use]
pub fn quoted(words: &str) -> String {
    format!("\"{}\"", words.replace('\\', "\\\\").replace('"', "\\\""))
}
