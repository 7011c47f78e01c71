//! Writes the blocks as a source: head, declarations, steps, with a remark where something was not understood.
use super::blocks::Block;
use super::guess;
use super::messages::{self, Piece};
use super::things::{Sort, Thing, Things};
use crate::source::quotes;
use std::collections::HashSet;

/// A source on its way, with the block that each line is from.
#[derive(Debug, Default)]
pub struct Draft {
    /// A thing that is declared is from the block that first speaks of it.
    head: Vec<(String, Option<usize>)>,
    body: Vec<(String, usize)>,
    pub lines: usize,
    pub typed: usize,
    pub without_class: usize,
    /// Sentences of messages that may be steps.
    pub steps_in_messages: usize,
    /// Paragraphs that became notes.
    pub notes: usize,
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

/// A longer line is no title but says something.
const LONGEST_TITLE: usize = 72;

/// Stands for a class that the words do not tell, and is none: the file is refused until somebody names it.
pub const UNTOLD: &str = "class-not-told";

impl Draft {
    /// Blocks in `plain` are kept in words.
    pub fn of(blocks: &[Block], number: &str, plain: &HashSet<usize>) -> Draft {
        let mut draft = Draft::default();
        let mut things = Things::default();
        let title = title(blocks);
        let skipped = usize::from(title.is_some());
        let title = title.unwrap_or("Imported list");
        let mut rest = blocks.iter().enumerate().skip(skipped).peekable();
        while let Some((at, block)) = rest.next() {
            things.read_on(at);
            // A signal word as a heading is of the words below it.
            if let Block::Heading(word) = block
                && messages::is_signal(word)
                && let Some((_, Block::Paragraph(words))) =
                    rest.next_if(|next| matches!(next.1, Block::Paragraph(_)))
            {
                draft.said(at, &format!("{word}: {words}"), plain.contains(&at));
                continue;
            }
            draft.block(at, block, plain.contains(&at), &mut things);
        }
        let of_none = |line: &str| (line.to_owned(), None);
        draft.head.push(of_none(&format!("procedure {number} {}", quoted(title))));
        draft.head.extend(BLANKS.lines().map(of_none));
        for (sort, kind) in [(Sort::Part, "parts"), (Sort::Tool, "tools"), (Sort::Supply, "supplies")] {
            let mut mine = things.iter().filter(|thing| thing.sort == sort).peekable();
            if mine.peek().is_some() {
                draft.head.extend([of_none(""), of_none(kind)]);
                draft.head.extend(mine.map(|thing| (declared(thing), Some(thing.block))));
            }
        }
        draft
    }

    /// The whole file.
    pub fn text(&self) -> String {
        let body = self.body.iter().map(|(line, _)| line.as_str());
        let head = self.head.iter().map(|(line, _)| line.as_str());
        let lines = head.chain([""]).chain(body);
        lines.collect::<Vec<_>>().join("\n") + "\n"
    }

    /// The block that line `number` (from 1) of the file is from.
    pub fn block_at(&self, number: usize) -> Option<usize> {
        match self.head.get(number.checked_sub(1)?) {
            Some((_, block)) => *block,
            None => self.body.get(number.checked_sub(self.head.len() + 2)?).map(|it| it.1),
        }
    }

    fn push(&mut self, at: usize, line: impl Into<String>) {
        self.body.push((line.into(), at));
    }

    fn block(&mut self, at: usize, block: &Block, plain: bool, things: &mut Things) {
        match block {
            Block::Heading(title) if !plain && has_warning(title) => self.said(at, title, false),
            Block::Heading(title) => {
                self.push(at, "");
                self.push(at, format!("section {}", quoted(title)));
                self.push(at, "");
                self.in_words.push(title.clone());
            }
            Block::Paragraph(words) => self.said(at, words, plain),
            Block::Item { text, more } => self.item(at, text, more, plain, things),
        }
    }

    /// What warns is a message, other words are a note before the next step.
    fn said(&mut self, at: usize, words: &str, plain: bool) {
        if plain {
            return self.note(at, words);
        }
        for piece in messages::cut(words) {
            match piece {
                Piece::Warning(words) if self.message(at, words) => {}
                Piece::Work(words) | Piece::Warning(words) => self.note(at, words),
            }
        }
    }

    fn note(&mut self, at: usize, words: &str) {
        self.push(at, "note");
        self.prose(at, words);
        self.notes += 1;
        self.in_words.push(words.to_owned());
    }

    fn item(&mut self, at: usize, text: &str, more: &[String], plain: bool, things: &mut Things) {
        if messages::read(text).is_some() {
            self.said(at, text, plain);
            more.iter().for_each(|words| self.said(at, words, plain));
            return;
        }
        self.lines += 1;
        // Warnings in an item and below it stand before its step.
        let mut work = |words: &str| {
            let pieces = if plain { vec![Piece::Work(words)] } else { messages::cut(words) };
            let mut rest = Vec::new();
            for piece in pieces {
                match piece {
                    Piece::Warning(words) => self.said(at, words, false),
                    Piece::Work(words) => rest.push(words),
                }
            }
            rest.join(" ")
        };
        let text = work(text);
        let rest: Vec<String> = more.iter().map(|it| work(it)).filter(|it| !it.is_empty()).collect();
        // A bracket or a sign that is left of a warning is no step.
        let is_step = text.chars().any(char::is_alphanumeric) || text.contains(['.', '…']);
        if !is_step && rest.is_empty() {
            self.lines -= 1;
            return;
        }
        let typed = if plain || text.len() > LONGEST { None } else { guess::line(&text, things) };
        match typed {
            Some(line) => {
                self.typed += 1;
                // A torque that was understood is the only amount that a line takes over.
                if !line.split('"').next().is_some_and(|it| it.contains(" to ")) {
                    self.in_words.push(text.clone());
                }
                self.push(at, line);
            }
            None => {
                for piece in pieces(&text) {
                    self.push(at, format!("do {}", quoted(&piece)));
                }
                self.in_words.push(text);
            }
        }
        for words in rest {
            if plain {
                self.lines += 1;
                for piece in pieces(&words) {
                    self.push(at, format!("do {}", quoted(&piece)));
                }
            } else {
                self.prose(at, &words);
            }
            self.in_words.push(words);
        }
    }

    /// Writes a message where the words are one. Without a class it gets a name that is refused until it has one.
    fn message(&mut self, at: usize, words: &str) -> bool {
        let Some(warned) = messages::read(words) else { return false };
        let word = warned.signal.word();
        if word == "note" {
            self.push(at, "note");
            self.prose(at, words);
            return true;
        }
        let class = messages::class(warned.signal, warned.words);
        self.push(at, match class {
            Some(_) => format!("# Guessed: the class of this {word}. Look at it, and add what is missing of harm, avoid and wear."),
            None => format!("# Not understood: what harms here. Write the class of this {word}, and what is missing of harm, avoid and wear."),
        });
        self.without_class += usize::from(class.is_none());
        for step in messages::steps_in(warned.words) {
            self.steps_in_messages += 1;
            self.push(at, format!("# Perhaps a step: {}", calm(step)));
        }
        self.push(at, format!("{word} {}", class.unwrap_or(UNTOLD)));
        let (hazard, avoid) = match warned.words.split_once(". ") {
            Some((first, rest)) if warned.words.len() <= LONGEST => {
                let first = format!("{first}.");
                let turned = messages::is_order(&first) && !messages::is_order(rest);
                if turned { (rest.to_owned(), first) } else { (first, rest.to_owned()) }
            }
            _ => (warned.words.to_owned(), String::new()),
        };
        let mut pieces = pieces(&hazard).into_iter();
        let only_order = avoid.is_empty() && messages::is_order(&hazard);
        let key = if only_order { "avoid: " } else { "hazard:" };
        self.push(at, format!("    {key} {}", calm(&pieces.next().unwrap_or_default())));
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

/// What the list is called: a heading before all, or one line before the first step.
fn title(blocks: &[Block]) -> Option<&str> {
    match blocks {
        [Block::Heading(title), ..] if !has_warning(title) && !messages::is_signal(title) => Some(title),
        [Block::Paragraph(line), Block::Item { .. }, ..] => {
            let is_sentence = line.ends_with(['.', '!', '?', ':']) || line.len() > LONGEST_TITLE;
            (!is_sentence && !has_warning(line)).then_some(line)
        }
        _ => None,
    }
}

fn has_warning(line: &str) -> bool {
    messages::cut(line).iter().any(|piece| matches!(piece, Piece::Warning(_)))
}

fn declared(thing: &Thing) -> String {
    let count =
        thing.count.filter(|_| thing.sort == Sort::Part).map(|it| format!("  x{it}")).unwrap_or_default();
    format!("    {} {}{count}", thing.name, quoted(&thing.text))
}

/// The words as a text in quotes.
pub fn quoted(words: &str) -> String {
    quotes::quoted(&calm(words))
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
