//! Torques as people type them, `22Nm` and `45 ft lb`, in the form that the language reads.
use crate::model::quantity::{Dimension, Quantity, Unit};

/// The words with a blank before each unit of torque, and units of two words as one. Only for reading: what is written
/// is the list's own sentence.
pub fn readable(sentence: &str) -> String {
    let mut words: Vec<String> = Vec::new();
    for word in sentence.split_whitespace() {
        if let Some((number, unit)) = attached(word) {
            words.extend([number.to_owned(), unit.to_owned()]);
            continue;
        }
        match words.as_mut_slice() {
            [.., number, first] if is_number(number) && is_torque(&format!("{first}-{}", bare(word))) => {
                *first = format!("{first}-{word}");
            }
            _ => words.push(word.to_owned()),
        }
    }
    words.join(" ")
}

/// `22Nm`, `(7-9Nm`: the number and its unit.
fn attached(word: &str) -> Option<(&str, &str)> {
    let (number, unit) = word.split_at(word.find(char::is_alphabetic)?);
    (is_number(number) && is_torque(bare(unit))).then_some((number, unit))
}

fn is_number(word: &str) -> bool {
    word.trim_start_matches('(').split(['-', '–']).all(|it| it.parse::<f64>().is_ok())
}

/// Without the signs behind it.
fn bare(word: &str) -> &str {
    word.trim_end_matches(['.', ',', ';', ')', ':'])
}

fn is_torque(unit: &str) -> bool {
    let read = |unit: &Unit| Quantity::read(&format!("1 {}", unit.source));
    Unit::find(unit).and_then(read).is_some_and(|it| it.dimension() == Dimension::Torque)
}
