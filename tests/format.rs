//! The formatter: what it writes means what was written, loses nothing, and is left alone by a second run.
use crate::support::programs::program;
use crate::support::shop::{Shop, name, package, sources};
use crate::support::workspace::Workspace;
use cotter::source::{FileId, SourceFile};
use cotter::syntax::format;
use proptest::prelude::*;
use std::path::{Path, PathBuf};

fn formatted(text: &str) -> String {
    format(&SourceFile::new(FileId(0), "test.cotter", text))
}

/// What a debug print says, without the places in it.
fn without_places(printed: &str) -> String {
    let mut plain = String::with_capacity(printed.len());
    let mut rest = printed;
    while let Some(at) = ["Span {", "lines: ["].iter().filter_map(|mark| rest.find(mark)).min() {
        plain.push_str(&rest[..at]);
        let close = if rest[at..].starts_with("Span") { '}' } else { ']' };
        rest = rest[at..].split_once(close).map_or("", |(_, behind)| behind);
    }
    plain + rest
}

/// The resolved document without places, and the rules of its findings in order.
fn meaning(shop: &Shop, name: &str, text: &str) -> (String, Vec<String>) {
    let mut compiled = shop.compile(&SourceFile::new(FileId(0), name, text));
    compiled.document.texts.clear();
    let rules = compiled.findings.iter().map(|it| it.rule.to_string()).collect();
    (without_places(&format!("{:?}", compiled.document)), rules)
}

/// Every comment, in order.
fn comments(text: &str) -> Vec<&str> {
    text.lines().filter_map(comment).collect()
}

/// A `#` at the start of the line or behind a blank, outside quotes, with no figure behind it; also what only looks so
/// in prose.
fn comment(line: &str) -> Option<&str> {
    line.match_indices('#').map(|(at, _)| (&line[..at], &line[at..])).find_map(|(before, mark)| {
        let quoted = before.matches('"').count() % 2 == 1;
        let starts = before.is_empty() || before.ends_with([' ', '\t', '\u{feff}']);
        let thread = mark[1..].starts_with(|letter: char| letter.is_ascii_digit());
        (starts && !quoted && !thread).then(|| mark.trim_end())
    })
}

fn ink(text: &str) -> String {
    text.chars().filter(|letter| !letter.is_whitespace() && *letter != '\u{feff}').collect()
}

fn difference(before: &str, after: &str) -> String {
    similar::TextDiff::from_lines(before, after).unified_diff().to_string()
}

fn laws(shop: &Shop, name: &str, text: &str) {
    let once = formatted(text);
    let twice = formatted(&once);
    assert!(twice == once, "{name}: a second run changes it\n{}\n{text}", difference(&once, &twice));
    assert_eq!(ink(&once), ink(text), "{name}: something is lost");
    assert_eq!(comments(&once), comments(text), "{name}: comments move\n{once}");
    let (before, after) = (meaning(shop, name, text), meaning(shop, name, &once));
    assert_eq!(before.1, after.1, "{name}: other findings\n{text}\n----\n{once}");
    let at = before.0.bytes().zip(after.0.bytes()).take_while(|(a, b)| a == b).count();
    let said = |meaning: &str| meaning.chars().skip(at.saturating_sub(100)).take(200).collect::<String>();
    assert!(
        before.0 == after.0,
        "{name}: means something else\n{}\n{}\n{}",
        said(&before.0),
        said(&after.0),
        difference(text, &once)
    );
    assert!(
        once.is_empty() || (once.ends_with('\n') && !once.ends_with("\n\n")),
        "{name}: ends oddly\n{once}"
    );
    assert!(!once.starts_with(['\u{feff}', '\n']), "{name}: starts oddly");
}

#[test]
fn fixtures_and_procedures_keep_their_meaning() {
    let mut count = 0;
    for folder in ["tests", "procedures"] {
        let mut folders: Vec<PathBuf> =
            sources(&package(folder)).iter().filter_map(|it| it.parent().map(Path::to_owned)).collect();
        folders.dedup();
        for folder in folders {
            let files = sources(&folder);
            let shop = Shop::of(&folder, &files);
            for path in files {
                laws(&shop, &name(&folder, &path), &std::fs::read_to_string(&path).unwrap());
                count += 1;
            }
        }
    }
    assert!(count > 400, "only {count} files were found");
}

#[test]
fn examples_of_the_pages_keep_their_meaning() {
    let shop = Shop::default();
    for page in ["README.md", "grammar/language.md", "grammar/rules.md"] {
        let text = std::fs::read_to_string(package(page)).unwrap();
        let examples = text.split("\n```cotter").skip(1).filter_map(|it| it.split_once('\n'));
        let mut count = 0;
        for (_, example) in examples {
            laws(&shop, page, example.split("\n```").next().unwrap());
            count += 1;
        }
        assert!(count > 0, "{page} has no example");
    }
}

#[test]
fn the_demo_shop_is_formatted() {
    for path in sources(&package("procedures")) {
        let text = std::fs::read_to_string(&path).unwrap();
        assert!(formatted(&text) == text, "{}: run `cotter fmt procedures`", path.display());
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 10_000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn generated_programs_keep_their_meaning(bytes in proptest::collection::vec(any::<u8>(), 0..300)) {
        laws(&Shop::default(), "generated", &program(&bytes));
    }
}

/// `(written, formatted)`.
const LAYOUTS: &[(&str, &str)] = &[
    // Columns by the widest cell; a name of a set and what stands behind it leave their column.
    (
        "parts\n\ta \"A\" x2  dry\n\tlonger \"Longer\" sharp # why\n  # of b\n\tb  \"B\" x2 as c,d  hot 90 degC\n",
        "parts\n    a      \"A\"       x2  dry\n    longer \"Longer\"      sharp  # why\n    # of b\n    \
         b      \"B\"       x2 as c, d  hot 90 degC\n",
    ),
    // Keys of one run share a column; outcomes do not.
    (
        "do \"it\"\n  because: x\n  ask: y\n  if a,b : stop\n  record: z\n",
        "do \"it\"\n    because: x\n    ask:     y\n    if a, b: stop\n    record: z\n",
    ),
    // Blank lines: at most one, and one round sections and blocks.
    (
        "\n\nsection \"A\"\nwait 1 h\n\n\n\nwait 2 h\ntools none\nsupplies none\nparts\n    a \"A\"\nwait 3 h\n\n",
        "section \"A\"\n\nwait 1 h\n\nwait 2 h\n\ntools none\nsupplies none\n\nparts\n    a \"A\"\n\nwait 3 h\n",
    ),
    // Numbers, and commas and blanks in quotes, stay as they are.
    (
        "turn a by  1 1/2 turn ,while \"x  ,y\";wait  1,200 s\n",
        "turn a by 1 1/2 turn, while \"x  ,y\"; wait 1,200 s\n",
    ),
    // A line that cannot be read stays to the byte.
    ("wait  1 h\nwait \"1  h\t \nwait  2 h", "wait 1 h\nwait \"1  h\t \nwait 2 h\n"),
    // Prose keeps its lines and how far they are in from each other.
    ("do \"it\"\n  One\n    two\n\n\n  three\n", "do \"it\"\n    One\n      two\n\n\n    three\n"),
    // A comment between the lines of a declaration keeps them apart.
    (
        "parts\n    a \"A\" mass 1 kg, # one\n     sharp\n",
        "parts\n    a \"A\"  mass 1 kg,  # one\n        sharp\n",
    ),
    ("\u{feff}wait 1 h\r\n  role: fitter\r\n", "wait 1 h\n    role: fitter\n"),
    // A step that could not be read keeps its number, whether or not a word in it looks like a label.
    (
        "procedure FW-TST-001 \"A\"\n  \t\ntighten (20\n    Lift it aside.\nwait 1 h\n",
        "procedure FW-TST-001 \"A\"\n\ntighten (20\n    Lift it aside.\nwait 1 h\n",
    ),
    // Nor does it seem to declare what its lines begin with, whether or not it is read for such a word.
    (
        "figures\n #~ \u{e}aside\ninstall {a}\n gasket\ninstall gasket\n",
        "figures\n    #~ \u{e}aside\n\ninstall {a}\n gasket\ninstall gasket\n",
    ),
    ("", ""),
    ("\n \n\t\n", ""),
    ("#  only this  ", "#  only this\n"),
];

#[test]
fn layouts_are_as_they_are_meant() {
    for (written, wanted) in LAYOUTS {
        assert_eq!(&formatted(written), wanted, "{written}");
        laws(&Shop::default(), "layout", written);
    }
}

#[test]
fn long_lists_wrap_at_100_columns() {
    let written = format!("parts\n    a \"A\" {}sharp\n", "matched a, number \"12345\", ".repeat(12));
    let text = formatted(&written);
    assert!(text.lines().all(|line| line.chars().count() <= 100), "{text}");
    assert!(
        text.lines().count() > 3 && text.lines().skip(2).all(|line| line.starts_with("        ")),
        "{text}"
    );
    laws(&Shop::default(), "long", &written);
}

#[test]
fn the_program_formats_checks_and_shows() {
    let written = "procedure FW-TST-001   \"A trial\"\nwait  1 h\n";
    let wanted = "procedure FW-TST-001 \"A trial\"\n\nwait 1 h\n";
    let shop = Workspace::new().file("a.cotter", written).file("b/b.cotter", wanted);
    let run = shop.run(&["fmt", "--check"]);
    assert_eq!((run.code, run.stdout.as_str()), (1, "a.cotter: not formatted\n2 files: 1 not formatted\n"));
    let run = shop.run(&["fmt", "--diff", "a.cotter"]);
    assert_eq!(run.code, 0);
    assert!(run.stdout.contains("-wait  1 h\n") && run.stdout.contains("+wait 1 h\n"), "{}", run.stdout);
    assert_eq!(shop.read("a.cotter"), written, "it is only shown");
    let run = shop.run(&["fmt", "a.cotter", "b"]);
    assert_eq!((run.code, run.stdout.as_str()), (0, "a.cotter: formatted\n2 files: 1 formatted\n"));
    assert_eq!(shop.read("a.cotter"), wanted);
    let run = shop.run(&["fmt", "--check"]);
    assert_eq!((run.code, run.stdout.as_str()), (0, "2 files: nothing to format\n"));
    assert_eq!(shop.run(&["fmt", "missing.cotter"]).code, 2);
    assert_eq!(shop.run(&["fmt", "-", "a.cotter"]).code, 2);
}

#[test]
fn standard_input_goes_to_standard_output() {
    let shop = Workspace::new();
    let run = shop.run_on("wait  1 h", &["fmt", "-"]);
    assert_eq!((run.code, run.stdout.as_str()), (0, "wait 1 h\n"));
    let odd = "stop \"a\u{1b}[1mb\u{0}\u{e}\"\n";
    assert_eq!(
        shop.run_on(odd, &["fmt", "-"]).stdout,
        odd,
        "what looks like a style is a letter as any other"
    );
    let run = shop.run_on("wait  1 h", &["fmt", "--check", "-"]);
    assert_eq!((run.code, run.stdout.as_str()), (1, "standard input: not formatted\n"));
    assert_eq!(shop.run_on([0xff, b'x'], &["fmt", "-"]).code, 2);
}
