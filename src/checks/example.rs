//! The small files of the rules' examples: the header they leave out, and the workspace they live in.
use crate::model::Register;
use crate::model::register::Entry;

const HEADER: &str = "\
procedure EX-001 \"Renew the cover gasket\"
    revision:   A, 2026-11-02
    equipment:  F40 transfer pump
    models:     F40, F40S
    source:     manual \"F40 workshop manual, issue 7\"
    time:       30 min
    people:     1
    outcome:    Renew a gasket and tighten its cover evenly.
    requires:   none
    afterwards: none
    leaves:     none
";

/// `text` as a whole file: with a header, and `none` for the blocks it leaves out, unless it brings its own.
pub fn example(text: &str) -> String {
    if text.starts_with("procedure") || text.starts_with("catalogue") {
        return text.to_owned();
    }
    let blocks = ["parts", "tools", "supplies"];
    let missing = blocks.iter().filter(|block| !text.lines().any(|line| line.starts_with(**block)));
    let silent: String = missing.map(|block| format!("{block} none\n")).collect();
    format!("{HEADER}\n{silent}{text}")
}

/// The numbers that examples may call: `EX-001` to `EX-003`, and `EX-009`, which two files claim.
pub fn example_register() -> Register {
    let mut register = Register::default();
    for (number, title, file) in [
        ("EX-001", "Renew the cover gasket", "ex-001.cotter"),
        ("EX-002", "Drain the pump", "ex-002.cotter"),
        ("EX-003", "Fill the pump", "ex-003.cotter"),
        ("EX-009", "Clean the strainer", "ex-009.cotter"),
        ("EX-009", "Clean the strainer", "copy-of-ex-009.cotter"),
    ] {
        register.add(number, Entry { title: title.to_owned(), file: file.to_owned() });
    }
    register
}
