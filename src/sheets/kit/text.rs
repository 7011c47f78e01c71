//! The list for a terminal.
use super::{Line, List, heading};
use crate::sheets::language::Words;

/// Each list under its name; a line has its pieces, its words, its number, and what it is for.
pub fn text(list: &List, words: &Words) -> String {
    let mut out = heading(list, words);
    out.push('\n');
    for procedure in &list.procedures {
        out.push_str(&format!("  {} {}\n", procedure.number, procedure.title));
    }
    let lists: [(&str, &[Line]); 5] = [
        ("parts-to-order", &list.order),
        ("parts-to-have", &list.have),
        ("tools", &list.tools),
        ("supplies", &list.supplies),
        ("protective-equipment", &list.wear),
    ];
    for (key, lines) in lists.into_iter().filter(|(_, lines)| !lines.is_empty()) {
        out.push('\n');
        out.push_str(words.label(key));
        out.push('\n');
        let width = |of: fn(&Line) -> usize| lines.iter().map(of).max().unwrap_or(0);
        let texts = width(|line| line.text.chars().count());
        let numbers = width(|line| line.number.chars().count());
        for line in lines {
            out.push_str(of_line(line, texts, numbers, list.procedures.len() > 1).trim_end());
            out.push('\n');
        }
    }
    out
}

fn of_line(line: &Line, texts: usize, numbers: usize, several: bool) -> String {
    let pieces = line.all.map_or_else(String::new, |all| all.to_string());
    let mut out = format!("{pieces:>6}  {:texts$}", line.text);
    if numbers > 0 {
        out.push_str(&format!("  {:numbers$}", line.number));
    }
    if several {
        out.push_str(&format!("  {}", line.procedures.join(", ")));
    }
    if !line.notes.is_empty() {
        out.push_str(&format!("  ({})", line.notes.join("; ")));
    }
    out
}
