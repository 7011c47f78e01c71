//! A first rough source from a plain list of steps: numbered lines, or a CommonMark list.
//!
//! No word of the list is lost: what is not understood stays in words. A step that could be read is written with its
//! verb and names, and keeps the list's own sentence.
mod blocks;
mod guess;
mod messages;
mod things;
mod torques;
mod write;

use crate::model::quantity::Unit;
use crate::model::resolve::{self, Resolved};
use crate::model::slip::Slip;
use crate::model::{Catalogues, Register, Settings, Surroundings};
use crate::source::{FileId, SourceFile};
use blocks::Block;
use std::collections::HashSet;
use write::Draft;

/// A source made from a list, and how far that went.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Imported {
    /// A whole file, with a remark at each place that was not understood.
    pub source: String,
    /// Lines of the list that could be steps.
    pub lines: usize,
    /// Those that became steps with a verb and names.
    pub typed: usize,
    /// Amounts that stand in words only.
    pub left_in_words: Vec<String>,
    /// Safety messages whose class nobody can tell from their words.
    pub without_class: usize,
    /// Sentences behind a warning that may be steps; each is marked in the source.
    pub steps_in_messages: usize,
    /// Paragraphs that became notes; some may be steps that the list does not number.
    pub notes: usize,
    /// Signal words that stand in words only: no message was made of them.
    pub signals_in_words: usize,
}

/// Why a text is no list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ImportError {
    Empty,
    NoSteps,
}

/// How often what does not resolve is put back into words, before the whole list is.
const TRIES: usize = 6;

/// Makes a source of a list.
///
/// # Errors
/// Where there is nothing in it that could be a step.
pub fn import(text: &str, number: &str) -> Result<Imported, ImportError> {
    let text = text.trim_start_matches('\u{feff}');
    if text.trim().is_empty() {
        return Err(ImportError::Empty);
    }
    let blocks = blocks::read(text);
    if !blocks.iter().any(|block| matches!(block, Block::Item { .. })) {
        return Err(ImportError::NoSteps);
    }
    let mut plain: HashSet<usize> = HashSet::new();
    let mut draft = Draft::of(&blocks, number, &plain);
    for _ in 0..TRIES {
        let refused = refused(&draft);
        if refused.is_empty() {
            break;
        }
        plain.extend(refused);
        draft = Draft::of(&blocks, number, &plain);
    }
    if !refused(&draft).is_empty() {
        draft = Draft::of(&blocks, number, &(0..blocks.len()).collect());
    }
    Ok(Imported {
        lines: draft.lines,
        typed: draft.typed,
        without_class: draft.without_class,
        notes: draft.notes,
        steps_in_messages: draft.steps_in_messages,
        signals_in_words: draft.in_words.iter().map(|words| messages::left_in(words).len()).sum(),
        left_in_words: draft.in_words.iter().flat_map(|words| amounts(words)).collect(),
        source: draft.text(),
    })
}

/// Blocks whose lines do not read as they were meant.
fn refused(draft: &Draft) -> HashSet<usize> {
    let source = SourceFile::new(FileId::default(), "list", draft.text());
    let (settings, register, catalogues) = (Settings::default(), Register::default(), Catalogues::default());
    let around = Surroundings { settings: &settings, register: &register, catalogues: &catalogues };
    let Resolved { document, unread } = resolve::resolve(&source, &around);
    // A class that is still to be named is refused on purpose.
    let meant =
        |slip: &&Slip| matches!(slip, Slip::UnknownHazard { word, .. } if word.value == write::UNTOLD);
    let slips = document.slips.iter().filter(|slip| !meant(slip)).map(|slip| slip.span().start);
    let places = slips.chain(unread.iter().map(|it| it.span.start));
    places.filter_map(|at| draft.block_at(source.line_column(at).0)).collect()
}

/// Every number with a unit that stands in the words.
fn amounts(words: &str) -> Vec<String> {
    let words = torques::readable(words);
    let tokens: Vec<&str> = words.split_whitespace().collect();
    let pairs = tokens.windows(2).filter_map(|pair| match pair {
        [number, unit] => {
            let number = number.trim_start_matches('(');
            if !number.starts_with(|c: char| c.is_ascii_digit()) {
                return None;
            }
            let unit = unit.trim_end_matches(['.', ',', ';', ')', ':']);
            Unit::find(unit).map(|_| format!("{number} {unit}"))
        }
        _ => None,
    });
    pairs.collect()
}
