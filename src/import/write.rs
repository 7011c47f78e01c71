//! Writes the blocks as a source: head, declarations, steps, with a remark where something was not understood.
use super::blocks::Block;
use super::guess;
use super::messages;
use super::things::{Sort, Thing, Things};
use std::collections::HashSet;

/// A source on its way, with the block that each line of its body is from.
#[derive(Debug, Default)]
pub struct Draft {
    head: Vec<String>,
    body: Vec<(String, usize)>,
    pub lines: usize,
    pub typed: usize,
    pub without_class: usize,
    /// Texts that stand in words only.
    pub in_words: Vec<String>,
}

/// Fields of the head that a list does not tell.
const BLANKS: &str = "\
    # Fill in, and take the sign away:
    # revision:   A, and the date
    # equipment:  the machine
    # models:     its models
    # source:     manual \"the manual that was followed\"
    # time:       how long it takes
    # people:     how many, and who helps where
    # requires:   none, or the procedure that comes before
    # afterwards: none, or the procedure that follows
    # leaves:     none, or what is left as it is";

/// Lines are cut before they get too long to be read.
const LONGEST: usize = 2_000;

impl Draft {
    /// Blocks in `plain` are kept in words.
    pub fn of(blocks: &[Block], number: &str, plain: &HashSet<usize>) -> Draft {
        let mut draft = Draft::default();
        let mut things = Things::default();
        let first = blocks.first();
        let title = match first {
            Some(Block::Heading(title)) => title.as_str(),
            _ => "Imported list",
        };
        let skipped = usize::from(matches!(first, Some(Block::Heading(_))));
        for (at, block) in blocks.iter().enumerate().skip(skipped) {
            draft.block(at, block, plain.contains(&at), &mut things);
        }
        draft.head.push(format!("procedure {number} {}", quoted(title)));
        draft.head.extend(BLANKS.lines().map(str::to_owned));
        for (sort, kind) in [(Sort::Part, "parts"), (Sort::Tool, "tools"), (Sort::Supply, "supplies")] {
            let mut mine = things.iter().filter(|thing| thing.sort == sort).peekable();
            if mine.peek().is_some() {
                draft.head.extend([String::new(), kind.to_owned()]);
                draft.head.extend(mine.map(declared));
            }
        }
        draft
    }

    /// The whole file.
    pub fn text(&self) -> String {
        let body = self.body.iter().map(|(line, _)| line.as_str());
        let lines = self.head.iter().map(String::as_str).chain([""]).chain(body);
        lines.collect::<Vec<_>>().join("\n") + "\n"
    }

    /// The block that line `number` (from 1) of the file is from.
    pub fn block_at(&self, number: usize) -> Option<usize> {
        self.body.get(number.checked_sub(self.head.len() + 2)?).map(|it| it.1)
    }

    fn push(&mut self, at: usize, line: impl Into<String>) {
        self.body.push((line.into(), at));
    }

    fn block(&mut self, at: usize, block: &Block, plain: bool, things: &mut Things) {
        match block {
            Block::Heading(title) => {
                self.push(at, "");
                self.push(at, format!("section {}", quoted(title)));
                self.push(at, "");
            }
            Block::Paragraph(words) => self.said(at, words, plain),
            Block::Item { text, more } => self.item(at, text, more, plain, things),
        }
    }

    /// What warns is a message, other words are a note before the next step.
    fn said(&mut self, at: usize, words: &str, plain: bool) {
        if !plain && self.message(at, words) {
            return;
        }
        self.push(at, "note");
        self.prose(at, words);
        self.in_words.push(words.to_owned());
    }

    fn item(&mut self, at: usize, text: &str, more: &[String], plain: bool, things: &mut Things) {
        if messages::read(text).is_some() {
            self.said(at, text, plain);
            more.iter().for_each(|words| self.said(at, words, plain));
            return;
        }
        self.lines += 1;
        // Warnings below an item stand before its step.
        let (warned, rest): (Vec<&String>, Vec<&String>) =
            more.iter().partition(|words| !plain && messages::read(words).is_some());
        warned.iter().for_each(|words| self.said(at, words, false));
        let typed = if plain || text.len() > LONGEST { None } else { guess::line(text, things) };
        match typed {
            Some(line) => {
                self.typed += 1;
                // A torque that was understood is the only amount that a line takes over.
                if !line.split('"').next().is_some_and(|it| it.contains(" to ")) {
                    self.in_words.push(text.to_owned());
                }
                self.push(at, line);
            }
            None => {
                for piece in pieces(text) {
                    self.push(at, format!("do {}", quoted(&piece)));
                }
                self.in_words.push(text.to_owned());
            }
        }
        for words in rest {
            self.in_words.push(words.clone());
            if plain {
                self.lines += 1;
                for piece in pieces(words) {
                    self.push(at, format!("do {}", quoted(&piece)));
                }
            } else {
                for piece in pieces(words) {
                    self.push(at, format!("    - {}", calm(&piece)));
                }
            }
        }
    }

    /// Writes a message where the words are one. Without a class it is a note that says so.
    fn message(&mut self, at: usize, words: &str) -> bool {
        let Some(warned) = messages::read(words) else { return false };
        let word = warned.signal.word();
        if word == "note" {
            self.push(at, "note");
            self.prose(at, words);
            return true;
        }
        let Some(class) = messages::class(warned.signal, warned.words) else {
            self.without_class += 1;
            self.push(
                at,
                format!(
                    "# Not understood: a {word} whose hazard the words do not tell. Write `{word} CLASS`."
                ),
            );
            self.push(at, "note");
            self.prose(at, words);
            return true;
        };
        self.push(at, format!("# Guessed: the class of this {word}. Look at it, and add what is missing of harm, avoid and wear."));
        self.push(at, format!("{word} {class}"));
        let (hazard, avoid) = match warned.words.split_once(". ") {
            Some((first, rest)) if warned.words.len() <= LONGEST => {
                let first = format!("{first}.");
                let turned = messages::is_order(&first) && !messages::is_order(rest);
                if turned { (rest.to_owned(), first) } else { (first, rest.to_owned()) }
            }
            _ => (warned.words.to_owned(), String::new()),
        };
        let mut pieces = pieces(&hazard).into_iter();
        self.push(at, format!("    hazard: {}", calm(&pieces.next().unwrap_or_default())));
        if !avoid.is_empty() {
            self.push(at, format!("    avoid:  {}", calm(&avoid)));
        }
        for piece in pieces {
            self.push(at, format!("    - {}", calm(&piece)));
        }
        true
    }

    fn prose(&mut self, at: usize, words: &str) {
        for piece in pieces(words) {
            self.push(at, format!("    - {}", calm(&piece)));
        }
    }
}

fn declared(thing: &Thing) -> String {
    let count =
        thing.count.filter(|_| thing.sort == Sort::Part).map(|it| format!("  x{it}")).unwrap_or_default();
    format!("    {} {}{count}", thing.name, quoted(&thing.text))
}

/// The words as a text in quotes.
pub fn quoted(words: &str) -> String {
    // A backslash takes its next letter out of what is read, and at the end that is the quote.
    let calm = calm(words).replace(['"', '“', '”', '„'], "'").replace('\\', "\\\\");
    // Dots alone stand for words that are still to be written.
    if calm.chars().any(char::is_alphanumeric) { format!("\"{calm}\"") } else { format!("\"({calm})\"") }
}

/// The words without what would be read as a reference or a comment, and without what steers a terminal.
fn calm(words: &str) -> String {
    let each = words.chars().map(|c| match c {
        '[' => '(',
        ']' => ')',
        '#' => '№',
        '<' => '‹',
        '>' => '›',
        c if c.is_control() => ' ',
        c => c,
    });
    each.collect::<String>().split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The words in pieces that are no longer than a line may be, cut between words where there is a place.
fn pieces(words: &str) -> Vec<String> {
    let mut out = vec![String::new()];
    let chunks = words.split(' ').flat_map(|word| {
        let chars: Vec<char> = word.chars().collect();
        chars.chunks(LONGEST / 4).map(|it| it.iter().collect::<String>()).collect::<Vec<_>>()
    });
    for word in chunks {
        let full = out.last().is_some_and(|it| it.len() + word.len() > LONGEST);
        if full {
            out.push(String::new());
        }
        if let Some(last) = out.last_mut() {
            last.push_str(if last.is_empty() { "" } else { " " });
            last.push_str(&word);
        }
    }
    out
}
