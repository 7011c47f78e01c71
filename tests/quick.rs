//! The readers of the plainest lines agree with the grammar: on every source in the package, and on lines made of
//! the pieces that lines are made of.
use crate::support::shop::{package, sources};
use cotter::source::{FileId, SourceFile};
use cotter::syntax::{parse, parse_by_grammar};
use proptest::prelude::*;

const PIECES: &[&str] = &[
    "remove",
    "seal",
    "b-2",
    "new",
    "each",
    "the",
    "with",
    "using",
    "on",
    "onto",
    "from",
    "at",
    "most",
    "least",
    "to",
    "and",
    "in",
    "min",
    "none",
    "max",
    "times",
    "passes",
    "of",
    "out",
    "off",
    "back",
    "up",
    "%",
    "x4",
    "x",
    "as",
    "facing",
    "finger",
    "tight",
    "torque",
    "thread",
    "for",
    "until",
    "while",
    "once",
    "section",
    "centre",
    "ends",
    "hazards",
    "class",
    "mm",
    "N.m",
    "lb-ft",
    "degC",
    "diff",
    "fl",
    "oz",
    "US",
    "gal",
    "V",
    "AC",
    "rev/min",
    "5",
    "2.5",
    "1/2",
    "7,500",
    "8",
    ",",
    ";",
    "(",
    ")",
    "-",
    "±",
    "°C",
    "=",
    "calculate",
    "\"text\"",
    "\"a \\\" b\"",
    "“text”",
    "\"open",
    "dry",
    "crosswise",
    "#",
];

fn line() -> impl Strategy<Value = String> {
    let glue = prop_oneof![6 => Just(" "), 2 => Just(", "), 1 => Just(""), 1 => Just("  "), 1 => Just("\t")];
    proptest::collection::vec((0..PIECES.len(), glue), 1..9).prop_map(|pieces| {
        pieces.into_iter().map(|(piece, glue)| format!("{}{glue}", PIECES[piece])).collect()
    })
}

fn agree(text: &str) {
    let source = SourceFile::new(FileId(0), "test.cotter", text);
    let (quick, whole) = (parse(&source), parse_by_grammar(&source));
    assert_eq!(quick.tree, whole.tree, "{text}");
    assert_eq!(quick.findings, whole.findings, "{text}");
}

#[test]
fn on_every_source_of_the_package() {
    for folder in ["procedures", "tests/checks"] {
        for path in sources(&package(folder)) {
            agree(&std::fs::read_to_string(&path).unwrap());
        }
    }
}

/// What random lines seldom hold.
#[test]
fn on_words_that_lead_only_together_and_on_brackets_in_quotes() {
    agree("parts\n    hand tight\n    finger tight\n    hand \"Hand\"\n    finger-guard tight\n");
    agree(&format!("stop \"{}\"\n", "(".repeat(40)));
    agree(&format!("remove seal; stop \"a \\\" {}\"\n", "(".repeat(40)));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4_000))]

    #[test]
    fn on_a_step(line in line()) {
        agree(&format!("remove {line}\n"));
    }

    #[test]
    fn on_a_message(line in line()) {
        agree(&format!("warning crushing {line}\n"));
        agree(&format!("note {line}\n"));
    }

    #[test]
    fn on_an_outcome(line in line()) {
        agree(&format!("inspect seal\n    if bad: {line}\n"));
    }

    #[test]
    fn on_a_declaration(line in line()) {
        agree(&format!("parts\n    seal torque {line}\n    ring {line}\n"));
    }

    #[test]
    fn on_a_quantity(line in line()) {
        agree(&format!("procedure A-1 \"A\"\n    time: {line}\n"));
    }

    #[test]
    fn on_a_procedure(line in line()) {
        agree(&format!("procedure {line}\n"));
    }

    #[test]
    fn on_a_title(line in line()) {
        agree(&format!("section {line}\n"));
    }
}
