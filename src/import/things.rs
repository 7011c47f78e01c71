//! Parts, tools and supplies that the list speaks of, each declared once under a name made from its words.
use crate::model::quantity::Unit;
use std::collections::HashMap;

/// What a thing is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Sort {
    Part,
    Tool,
    Supply,
}

/// One thing to declare.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Thing {
    pub sort: Sort,
    pub name: String,
    pub text: String,
    pub count: Option<u32>,
    /// The block that first speaks of it.
    pub block: usize,
}

/// Things in the order they are first spoken of.
#[derive(Debug, Default)]
pub struct Things {
    all: Vec<Thing>,
    by_name: HashMap<String, usize>,
    /// The block that is being read.
    block: usize,
}

/// Words that are no part of a name.
const DETERMINERS: [&str; 12] =
    ["the", "a", "an", "all", "both", "each", "every", "new", "old", "its", "any", "this"];

/// Counts in words.
const COUNTS: [&str; 11] =
    ["two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];

/// The longest name, in words: longer ones are sentences.
const LONGEST: usize = 4;

impl Things {
    pub fn iter(&self) -> impl Iterator<Item = &Thing> {
        self.all.iter()
    }

    /// Reads on in that block.
    pub fn read_on(&mut self, block: usize) {
        self.block = block;
    }

    /// How many there are, to go back to.
    pub fn count(&self) -> usize {
        self.all.len()
    }

    /// Forgets the things that came after there were so many.
    pub fn go_back(&mut self, count: usize) {
        for thing in self.all.drain(count.min(self.all.len())..) {
            self.by_name.remove(single(&thing.name));
        }
    }

    /// The name by which the thing of these words goes; none where they are no plain name.
    pub fn name(&mut self, sort: Sort, words: &str) -> Option<String> {
        if has_amount(words) {
            return None;
        }
        let (count, words) = counted(words);
        let plain = |word: &&str| word.chars().all(|c| c.is_ascii_alphanumeric() || c == '-');
        let fits = !words.is_empty() && words.len() <= LONGEST && words.iter().all(plain);
        let starts = words.first()?.starts_with(|c: char| c.is_ascii_alphabetic());
        if !fits || !starts {
            return None;
        }
        let name = words.join("-").to_lowercase();
        if let Some(&known) = self.by_name.get(single(&name)) {
            let known = self.all.get(known)?;
            // Two of four is another set than the four.
            let is_same = known.sort == sort && (count.is_none() || count == known.count);
            return is_same.then(|| known.name.clone());
        }
        self.by_name.insert(single(&name).to_owned(), self.all.len());
        let mut text = words.join(" ");
        if let Some(first) = text.get_mut(..1) {
            first.make_ascii_uppercase();
        }
        self.all.push(Thing { sort, name: name.clone(), text, count, block: self.block });
        Some(name)
    }
}

/// Whether a number with its unit stands in the words: `10 mm socket`, `nut 2 turns`.
fn has_amount(words: &str) -> bool {
    let words: Vec<&str> = words.split_whitespace().collect();
    let is_number = |word: &str| word.starts_with(|c: char| c.is_ascii_digit());
    words
        .windows(2)
        .any(|pair| matches!(pair, [number, unit] if is_number(number) && Unit::find(unit).is_some()))
}

/// The same for one and for several.
fn single(name: &str) -> &str {
    name.trim_end_matches('s')
}

/// How many there are, and the words of the name.
fn counted(words: &str) -> (Option<u32>, Vec<&str>) {
    let mut count = None;
    let mut name: Vec<&str> = Vec::new();
    for word in words.split_whitespace() {
        let lower = word.to_lowercase();
        let spelled = (2..).zip(COUNTS).find(|(_, it)| *it == lower).map(|it| it.0);
        let number = spelled.or_else(|| lower.parse().ok().filter(|it| (2..100).contains(it)));
        match number {
            Some(number) if name.is_empty() => count = Some(number),
            _ if name.is_empty() && DETERMINERS.contains(&lower.as_str()) => {}
            _ => name.push(word),
        }
    }
    (count, name)
}
