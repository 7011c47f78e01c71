//! Sources made from plain lists: kept outputs, and no word of any list is lost.
//!
//! `cover-gasket.txt`, `belt.md` and `generator.md` are invented lists of the Fenmoor Training Workshop.
//! `wheel-bearing.txt` is told in own words after TM 10-4320-344-24 (US Army, public domain), paragraphs 2.23.1 and
//! 2.23.2, wheel bearings of a trailer, as `tests/manuals/hub-bearings.cotter` has it.
use crate::support::shop;
use crate::support::workspace::Workspace;
use cotter::import::{ImportError, Imported, import};
use cotter::model::Surroundings;
use cotter::model::resolve::{Resolved, resolve};
use cotter::model::slip::Slip;
use cotter::model::{Catalogues, Document, Register, Settings};
use cotter::source::{FileId, SourceFile};
use proptest::prelude::*;
use std::collections::HashMap;

const LISTS: [&str; 4] = ["belt.md", "cover-gasket.txt", "generator.md", "wheel-bearing.txt"];

fn list(name: &str) -> String {
    std::fs::read_to_string(shop::package(&format!("tests/import/{name}"))).unwrap()
}

/// The document that a source gives, which has no line that cannot be read; nothing in it is refused but a class of
/// hazard that is still to be named.
fn read(text: &str) -> Document {
    let source = SourceFile::new(FileId(0), "list", text);
    let (settings, register, catalogues) = (Settings::default(), Register::default(), Catalogues::default());
    let around = Surroundings { settings: &settings, register: &register, catalogues: &catalogues };
    let Resolved { document, unread } = resolve(&source, &around);
    assert!(unread.is_empty(), "{unread:#?}\n{text}");
    let meant =
        |slip: &Slip| matches!(slip, Slip::UnknownHazard { word, .. } if word.value == "class-not-told");
    assert!(document.slips.iter().all(meant), "{:#?}\n{text}", document.slips);
    document
}

/// Every word of the list stands in the source; markers of lists and marks of emphasis are no words.
fn no_word_is_lost(list: &str, source: &str) {
    let words = |text: &str| -> Vec<String> {
        let split = text.split(|c: char| !c.is_alphanumeric());
        split.filter(|word| !word.is_empty()).map(str::to_lowercase).collect()
    };
    // What the file says of itself is none of the list's.
    let own: String =
        source.lines().filter(|line| !line.trim_start().starts_with('#')).collect::<Vec<_>>().join("\n");
    let mut there: HashMap<String, usize> = HashMap::new();
    words(&own).into_iter().for_each(|word| *there.entry(word).or_default() += 1);
    let mut is_lost = |word: &String| match there.get_mut(word) {
        Some(count) if *count > 0 => {
            *count -= 1;
            false
        }
        _ => true,
    };
    // The numbers of the list's own lines are none of its words.
    let unnumbered: Vec<&str> = list.lines().map(unnumbered).collect();
    let lost: Vec<String> = words(&unnumbered.join("\n")).into_iter().filter(|word| is_lost(word)).collect();
    assert!(lost.is_empty(), "{lost:?} of\n{list}\nare not in\n{source}");
}

fn unnumbered(line: &str) -> &str {
    let line = line.trim_start();
    let (marker, rest) = line.split_once(' ').unwrap_or((line, ""));
    let bare = marker.trim_end_matches(['.', ')']);
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|it| it.is_ascii_digit());
    let plain = bare.len() < marker.len() && digits(bare);
    let lettered = bare.strip_suffix(|c: char| c.is_ascii_lowercase());
    let other = (bare.contains('.') && bare.split('.').all(digits))
        || (marker.ends_with(')') && lettered.is_some_and(|it| it.is_empty() || digits(it)));
    if plain || (other && rest.starts_with(char::is_uppercase)) { rest } else { line }
}

#[test]
fn the_lists_give_the_sources_that_are_kept() {
    for name in LISTS {
        let imported = import(&list(name), "DRAFT-1").unwrap();
        read(&imported.source);
        no_word_is_lost(&list(name), &imported.source);
        crate::docs::is_current(&format!("tests/import/{name}.cotter"), &imported.source);
    }
}

#[test]
fn lines_numbered_below_others_are_lines_of_their_own() {
    let list = "1. Remove the plug.\n2. Drain the oil.\n2.1 Clean the plug.\n2.2. Clean the housing.\n3a) Install the plug.\n\
3b) Check the plug.\n    a) Look at it from below.\n";
    let source = import(list, "DRAFT-1").unwrap().source;
    no_word_is_lost(list, &source);
    let steps = read(&source).procedure().unwrap().steps().count();
    assert_eq!(steps, 6, "{source}");
    assert!(source.contains("check plug \"Check the plug.\"\n    - Look at it from below."), "{source}");
    // A figure with its unit, a reference that was wrapped, and a number that goes on from nothing are words.
    for words in [
        "1. Leave a gap of\n1.5 MPa at most.",
        "1. Open the cover, see\n4.2 Removal.",
        "Of the issue\n2.1 Nothing is known.",
        "1. Open the cover\nb) Or leave it.",
    ] {
        let Ok(Imported { source, .. }) = import(words, "DRAFT-1") else { continue };
        assert_eq!(read(&source).procedure().unwrap().steps().count(), 1, "{source}");
        no_word_is_lost(&words.replace('\n', " "), &source);
    }
}

#[test]
fn words_that_lists_have_for_signals_become_messages() {
    let list = "1. Open the plug.\nATTENTION: the oil is hot.\n2. Close the plug. IMPORTANT: watch.\nNB: the oil is thin.\n\
3. Pay attention to the mark.\n";
    let source = import(list, "DRAFT-1").unwrap().source;
    no_word_is_lost(list, &source);
    assert!(source.contains("caution burn\n    hazard: ATTENTION: the oil is hot."), "{source}");
    assert!(source.contains("notice class-not-told"), "{source}");
    assert!(source.contains("note \"") || source.contains("note\n"), "{source}");
    assert!(source.contains("Pay attention to the mark."), "{source}");
}

/// A message in the middle of a line stands before the step that it warns of.
#[test]
fn a_signal_word_inside_a_line_begins_a_message() {
    let cutting = "warning cutting\n    hazard: Edges are sharp.\n    avoid:  Wear gloves.\nremove blade";
    for list in [
        "1. Remove the blade. WARNING: Edges are sharp. Wear gloves.",
        "1. Remove the blade. WARNING Edges are sharp. Wear gloves.",
        "1. Remove the blade. Warning: Edges are sharp. Wear gloves.",
        "1. Remove the blade (WARNING: Edges are sharp. Wear gloves.)",
        "1. Remove the blade - WARNING! Edges are sharp. Wear gloves.",
        "1. Remove the blade.\n   WARNING Edges are sharp. Wear gloves.",
        "1. Remove the blade.\n\n   WARNING: Edges are sharp. Wear gloves.",
        "### WARNING\nEdges are sharp. Wear gloves.\n\n1. Remove the blade.",
        "# WARNING: Edges are sharp. Wear gloves.\n1. Remove the blade.",
        "1. Warning - Edges are sharp. Wear gloves.\n2. Remove the blade.",
        "1. Warning. Edges are sharp. Wear gloves.\n2. Remove the blade.",
        "1. (WARNING: Edges are sharp. Wear gloves.)\n2. Remove the blade.",
        "1. ⚠ WARNING: Edges are sharp. Wear gloves.\n2. Remove the blade.",
    ] {
        let imported = import(list, "DRAFT-1").unwrap();
        assert!(imported.source.contains(cutting), "{list}:\n{}", imported.source);
        assert_eq!((imported.lines, imported.typed, imported.signals_in_words), (1, 1, 0), "{list}");
    }
    let two = import("Before work. DANGER: High voltage. CAUTION: Hot oil.\n\n1. Go on.", "X-1").unwrap();
    for words in ["note\n    - Before work.\n", "danger electric-shock", "caution burn"] {
        assert!(two.source.contains(words), "{words}\n{}", two.source);
    }
    assert_eq!(two.notes, 1);
}

/// A plate that is spoken of warns nobody here, but whoever reads the draft is told of it.
#[test]
fn a_signal_word_that_begins_no_message_is_told() {
    let Imported { source, signals_in_words, .. } =
        import("1. Look at the WARNING plate.\n2. Mind this caution: hot.\n3. Take caution.", "X-1").unwrap();
    assert_eq!(signals_in_words, 2, "{source}");
    assert!(source.contains("\"Look at the WARNING plate.\""), "{source}");
}

/// Where a warning ends and the work goes on no line tells: what begins with work is marked, and counted.
#[test]
fn a_step_behind_a_warning_on_its_line_is_marked() {
    let list = "1. Warning: Hot oil! Wear gloves. Drain the gearbox into the tray.";
    let imported = import(list, "X-1").unwrap();
    assert!(
        imported.source.contains("# Perhaps a step: Drain the gearbox into the tray."),
        "{}",
        imported.source
    );
    assert_eq!(imported.steps_in_messages, 1);
    assert_eq!(import("1. WARNING: Hot. Keep off. Wear gloves.", "X-1").unwrap().steps_in_messages, 0);
}

/// Until somebody names its class, a draft is refused; as a note it would pass.
#[test]
fn a_message_whose_class_nobody_can_tell_is_refused() {
    let workspace = Workspace::new().file("list.txt", "1. Go on. WARNING: Mind the gap.");
    workspace.run(&["import-text", "list.txt", "--output", "draft.cotter"]);
    let run = workspace.run(&["check", "draft.cotter"]);
    assert!(
        run.code == 1 && run.stdout.contains("error[unknown-hazard]: `class-not-told`"),
        "{}",
        run.stdout
    );
}

/// One line before the first step, that is no sentence, is what the list is called.
#[test]
fn the_first_line_may_be_the_title() {
    for (first, title) in [
        ("Belt of the M6", "Belt of the M6"),
        ("# Belt of the M6", "Belt of the M6"),
        ("Read all of it first.", "Imported list"),
        ("CAUTION: Hot oil", "Imported list"),
    ] {
        let source = import(&format!("{first}\n\n1. Go on."), "X-1").unwrap().source;
        assert!(source.starts_with(&format!("procedure X-1 \"{title}\"\n")), "{source}");
        no_word_is_lost(first, &source);
    }
}

/// What to do is `avoid:`, wherever it stands; what is so is `hazard:`.
#[test]
fn an_order_before_its_hazard_is_told_from_it() {
    for (list, wanted) in [
        ("1. WARNING: Do not touch. Hot surface.", "hazard: Hot surface.\n    avoid:  Do not touch."),
        ("1. WARNING: Hot surface. Do not touch.", "hazard: Hot surface.\n    avoid:  Do not touch."),
        ("1. WARNING: Remove rings. Sharp edges.", "hazard: Sharp edges.\n    avoid:  Remove rings."),
        (
            "1. WARNING: Keep off. Stay behind the hot line.",
            "hazard: Keep off.\n    avoid:  Stay behind the hot line.",
        ),
    ] {
        let source = import(list, "DRAFT-1").unwrap().source;
        assert!(source.contains(wanted), "{list}:\n{source}");
        no_word_is_lost(list, &source);
    }
}

#[test]
fn what_is_understood_is_counted_and_what_is_not_is_named() {
    let Imported { lines, typed, left_in_words, .. } = import(&list("cover-gasket.txt"), "DRAFT-1").unwrap();
    assert_eq!((lines, typed), (8, 7));
    assert_eq!(left_in_words, ["5 min"]);
    let both = import("1. Go on, 45-50 N·m (33-37 lb-ft) is right.", "X-1").unwrap();
    assert_eq!(both.left_in_words, ["45-50 N·m", "33-37 lb-ft"]);
    let generator = import(&list("generator.md"), "DRAFT-1").unwrap();
    assert_eq!(generator.without_class, 1, "nobody can tell what the gap does");
    assert!(generator.source.contains("danger electric-shock\n    hazard: The terminals are live at up to 400 V.\n    avoid:  Prove them dead first."));
    assert!(generator.left_in_words.iter().any(|it| it == "242 V"), "{:?}", generator.left_in_words);
}

#[test]
fn a_torque_a_tool_and_a_count_are_taken_over() {
    let source = import(&list("cover-gasket.txt"), "X-1").unwrap().source;
    for line in [
        "procedure X-1 \"Fenmoor Training Workshop, list of 2019: cover gasket of the F40 pump\"",
        "    cover-screws \"Cover screws\"  x4",
        "tighten cover-screws to 8 N.m with torque-wrench \"Tighten the cover screws to 8 N·m with a torque wrench.\"",
        "warning high-pressure",
    ] {
        assert!(source.contains(line), "{line}\n{source}");
    }
}

#[test]
fn a_torque_without_a_blank_or_with_a_unit_of_two_words_is_one() {
    for (line, torque) in [
        ("Tighten the wheel nuts to 110Nm.", "tighten wheel-nuts to 110 N.m "),
        ("Tighten the wheel nuts to 45 ft lb.", "tighten wheel-nuts to 45 lbf.ft "),
        ("Tighten the wheel nuts to 45 ft lb (61Nm).", "tighten wheel-nuts to 45 lbf.ft (61 N.m) "),
        ("Tighten the wheel nuts to 7-9Nm.", "tighten wheel-nuts to 7 to 9 N.m "),
    ] {
        assert!(step(line).starts_with(torque), "{}", step(line));
        assert!(step(line).ends_with(&format!("\"{line}\"")), "{}", step(line));
    }
    for (line, amount) in [("Refit the clamp bolts 22Nm.", "22 Nm"), ("Torque it to 45 ft lb.", "45 ft-lb")] {
        let imported = import(&format!("1. {line}"), "X-1").unwrap();
        assert_eq!((imported.typed, imported.left_in_words), (0, vec![amount.to_owned()]), "{line}");
    }
    assert!(step("Fit the cover with a 17mm socket.").contains("17mm"), "only torques are parted");
}

#[test]
fn what_is_put_back_is_refitted_and_a_back_plate_is_a_thing() {
    for (line, written) in [
        ("Put drum back on.", "refit drum "),
        ("Put the drum back.", "refit drum "),
        ("Put back the drum.", "refit drum "),
        ("Fit the drum back with a mallet.", "install drum with mallet "),
        ("Remove the back plate.", "remove back-plate "),
    ] {
        assert_eq!(step(line), format!("{written}\"{line}\""));
    }
}

/// `line` as a list of one item: the last line of its source.
fn step(line: &str) -> String {
    let imported = import(&format!("1. {line}"), "X-1").unwrap();
    read(&imported.source);
    imported.source.lines().last().unwrap_or_default().to_owned()
}

#[test]
fn a_sentence_that_says_more_than_a_line_can_stays_in_words() {
    for line in [
        "Tighten the screws to 8 N·m then 90 degrees.",
        "Tighten the screws to 8 N·m, back off 30°, to 8 N·m.",
        "Check that the oil is at the mark.",
        "Check whether the belt runs true.",
        "Loosen the nut 2 turns.",
        "Remove the screws with a 10 mm socket.",
        "Do not start the motor.",
        "Fit the seal wings up.",
        "Tighten the nut (left-hand thread) to 8 N·m.",
        "Tighten the nut to at least 8 N·m.",
        "Tighten the nut to 25 ±2 N·m.",
        "Tighten the nuts to 9 N·m crosswise.",
        "Tighten the bolts in 3 passes to 8 N·m.",
        "Tighten the nut at 20 degC to 8 N·m.",
        "Tighten the nut to 8 N·m max.",
        "Tighten the nut to 8 N·m DANGER live wire nearby",
        "Remove the cover WARNING hot surface",
    ] {
        assert_eq!(step(line), format!("do \"{line}\""));
    }
    for (words, torque) in [
        ("to 25 Nm (18 lb-ft)", "to 25 N.m (18 lbf.ft)"),
        ("to a torque of 8.5 N·m", "to 8.5 N.m"),
        ("to 25-30 lb-ft", "to 25 to 30 lbf.ft"),
    ] {
        let sentence = format!("Tighten the nut {words} with a torque wrench.");
        assert_eq!(step(&sentence), format!("tighten nut {torque} with torque-wrench \"{sentence}\""));
    }
    assert_eq!(step("Remove both covers."), "remove covers \"Remove both covers.\"");
}

/// Inches stay inches, dots stay a place to fill, and a second set is not the first.
#[test]
fn what_is_written_means_what_it_meant() {
    assert_eq!(step("Look at the 3/4\" plug"), "do \"Look at the 3/4\\\" plug\"");
    assert_eq!(step("…"), "do \"…\"");
    let source = import("1. Remove the four screws.\n2. Install two screws.\n3. Install the screws.", "X-1")
        .unwrap()
        .source;
    assert!(
        source.contains("do \"Install two screws.\"\ninstall screws \"Install the screws.\""),
        "{source}"
    );
}

#[test]
fn a_list_gives_one_source() {
    let list = "1. Go on, see [a] and [b].\n\n[b]: two\n[a]: one\n\n```Torque 8 N·m\nthe rest\n```\n";
    let source = import(list, "X-1").unwrap().source;
    for _ in 0..8 {
        assert_eq!(import(list, "X-1").unwrap().source, source);
    }
    no_word_is_lost(list, &source);
}

/// At the end of a text it would take the quote out of what is read.
#[test]
fn a_backslash_is_a_letter_as_any_other() {
    assert_eq!(step("Look behind C:\\"), "do \"Look behind C:\\\\\"");
    assert_eq!(cotter::source::quotes::quoted("a \"b\\"), "\"a \\\"b\\\\\"");
}

#[test]
fn titles_of_links_are_words_too() {
    let source =
        import("1. Look at [this](drawing-7 \"the seal\").\n\n[a]: b \"so said\"", "X-1").unwrap().source;
    assert!(source.contains("this (drawing-7, the seal)") && source.contains("b, so said"), "{source}");
}

/// A thing that was not taken over is not declared; the next one of that name is.
#[test]
fn what_stays_in_words_declares_nothing() {
    let list = "1. Remove the ring with a big (blue) puller.\n2. Remove the cover with the 10 mm socket.\n3. Remove the cap.";
    let source = import(list, "X-1").unwrap().source;
    assert!(!source.contains("\n    cover") && !source.contains("\n    ring"), "{source}");
    assert!(source.contains("\n    cap \"Cap\""), "{source}");
}

#[test]
fn what_is_no_list_is_refused() {
    assert_eq!(import("\u{feff} \n", "X-1"), Err(ImportError::Empty));
    assert_eq!(import("Just a sentence.\n\n# And a heading", "X-1"), Err(ImportError::NoSteps));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]
    #[test]
    fn no_word_of_any_list_is_lost(
        lines in proptest::collection::vec(
            (
                prop_oneof![Just("1. "), Just("2) "), Just("- "), Just("   - "), Just("# "), Just(""), Just("    "), Just("\n")],
                proptest::collection::vec(prop_oneof![
                    "[A-Za-z]{1,12}", "[a-z]{2,8}[.,;:!?]", Just("Remove".to_owned()), Just("tighten".to_owned()),
                    Just("the".to_owned()), Just("WARNING:".to_owned()), Just("NOTE".to_owned()),
                    Just("(Caution:".to_owned()), Just("DANGER".to_owned()), Just("up.".to_owned()), Just("\n".to_owned()), Just("hot".to_owned()),
                    Just("with".to_owned()), Just("using".to_owned()), Just("grease".to_owned()), Just("8 N·m".to_owned()),
                    Just("\"quoted\"".to_owned()), Just("if".to_owned()), Just("wear:".to_owned()), Just("[ring]".to_owned()),
                    Just("{x}".to_owned()), Just("until".to_owned()), Just("new".to_owned()), Just("…".to_owned()),
                    Just("Straße".to_owned()), Just("as".to_owned()), Just("and".to_owned()), Just("to".to_owned()),
                ], 0..9),
            ),
            1..14,
        )
    ) {
        let text: String = lines.iter().map(|(marker, words)| format!("{marker}{}\n", words.join(" "))).collect();
        if let Ok(imported) = import(&text, "X-1") {
            no_word_is_lost(&text, &imported.source);
            let source = SourceFile::new(FileId(0), "list", imported.source.as_str());
            let parsed = cotter::syntax::parse(&source);
            prop_assert!(parsed.findings.is_empty(), "{:#?}\n{}", parsed.findings, imported.source);
        }
    }

    #[test]
    fn nothing_makes_it_panic(text in "\\PC{0,200}", marker in "(1\\. |- )?") {
        let _ = import(&format!("{marker}{text}"), "X-1");
    }
}

#[test]
fn the_program_writes_a_source_and_says_what_it_left_in_words() {
    let workspace = Workspace::new().file("list.txt", list("cover-gasket.txt"));
    let run = workspace.run(&["import-text", "list.txt", "--output", "pump.cotter"]);
    assert_eq!((run.code, run.stdout.as_str()), (0, ""), "{}", run.stderr);
    assert!(
        run.stderr.starts_with("7 of 8 lines became typed steps; 1 value was left in words: 5 min\n"),
        "{}",
        run.stderr
    );
    let kept = workspace.read("pump.cotter");
    let again = workspace.run(&["import-text", "list.txt", "--output", "pump.cotter"]);
    assert_eq!(again.code, 2);
    assert!(again.stderr.contains("is there already"), "{}", again.stderr);
    assert_eq!(workspace.read("pump.cotter"), kept);
    assert_eq!(workspace.run(&["import-text", "list.txt"]).stdout, kept);
}

#[test]
fn bad_input_gets_a_clear_message() {
    let large = vec![b'a'; 1024 * 1024 + 1];
    let workspace = Workspace::new()
        .file("binary.txt", b"1. a\0b")
        .file("latin.txt", b"1. caf\xe9")
        .file("empty.txt", "")
        .file("prose.txt", "Only words.")
        .file("large.txt", large);
    for (name, words) in [
        ("binary.txt", "is no text in UTF-8"),
        ("latin.txt", "is no text in UTF-8"),
        ("empty.txt", "is empty"),
        ("prose.txt", "holds no list"),
        ("large.txt", "is larger than 1 MiB"),
        ("gone.txt", "there is no such file"),
        (".", "is a folder"),
    ] {
        let run = workspace.run(&["import-text", name]);
        assert_eq!((run.code, run.stdout.as_str()), (2, ""), "{name}");
        assert!(run.stderr.contains(words), "{name}: {}", run.stderr);
    }
    assert_eq!(workspace.run(&["import-text", "prose.txt", "--number", "no such"]).code, 2);
}
