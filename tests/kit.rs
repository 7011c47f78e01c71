//! The kit: its arithmetic against a table worked out by hand, and each form it is printed in.
use crate::support::workspace::Workspace;
use cotter::model::catalogues::Catalogues;
use cotter::model::{Register, Settings, Surroundings};
use cotter::sheets::Context;
use cotter::sheets::kit::{self, Line, List};
use cotter::sheets::language::{Language, Words};
use cotter::source::{FileId, SourceFile};
use serde_json::Value;
use std::path::PathBuf;

const BENCHES: u32 = 12;

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/kit")
}

fn list(names: &[&str]) -> List {
    let (settings, register) = (Settings::default(), Register::default());
    let around =
        Surroundings { settings: &settings, register: &register, catalogues: &Catalogues::default() };
    let words = Words::of(Language::English);
    let context = Context::new(&settings, &register, words);
    let mut list = List::new(BENCHES);
    for name in names {
        let text = std::fs::read_to_string(folder().join(format!("{name}.cotter"))).unwrap();
        let compiled = cotter::compile(&SourceFile::new(FileId(0), format!("{name}.cotter"), text), &around);
        assert!(compiled.findings.is_empty(), "{name}: {:#?}", compiled.findings);
        list.add_document(&compiled.document, &context).unwrap();
    }
    list
}

fn lists(list: &List) -> [(&'static str, &[Line]); 5] {
    [
        ("order", &list.order),
        ("have", &list.have),
        ("tools", &list.tools),
        ("supplies", &list.supplies),
        ("wear", &list.wear),
    ]
}

/// The rows of the table without what explains them.
fn table() -> Vec<[String; 5]> {
    let text = std::fs::read_to_string(folder().join("table.tsv")).unwrap();
    let rows = text.lines().filter(|line| !line.starts_with('#'));
    rows.map(|row| std::array::from_fn(|at| row.split('\t').nth(at).unwrap_or("").to_owned())).collect()
}

fn rows(list: &List) -> Vec<[String; 5]> {
    let count = |count: Option<u64>| count.map_or_else(String::new, |count| count.to_string());
    let row = |name: &str, line: &Line| {
        [name.to_owned(), line.number.clone(), line.text.clone(), count(line.each), count(line.all)]
    };
    lists(list).iter().flat_map(|(name, lines)| lines.iter().map(move |line| row(name, line))).collect()
}

#[test]
fn twelve_benches_and_three_procedures_add_up_as_by_hand() {
    let (mut found, mut wanted) = (rows(&list(&["one", "two", "three"])), table());
    assert!(wanted.len() > 20, "the table is there");
    for [.., each, all] in &wanted {
        if let (Ok(each), Ok(all)) = (each.parse::<u64>(), all.parse::<u64>()) {
            assert_eq!(each * u64::from(BENCHES), all, "the table itself");
        }
    }
    found.sort();
    wanted.sort();
    assert_eq!(found, wanted);
}

#[test]
fn lines_tell_what_they_are_for_and_when() {
    let list = list(&["one", "two", "three"]);
    let line = |lines: &[Line], text: &str| lines.iter().find(|line| line.text == text).unwrap().clone();
    assert_eq!(line(&list.order, "Cover gasket").procedures, ["FW-KIT-001", "FW-KIT-002"]);
    assert_eq!(line(&list.order, "Sealing washer, 10 x 14").notes, ["F40S only"]);
    assert_eq!(line(&list.have, "Vent valve").notes, ["new one only if found faulty"]);
    assert_eq!(line(&list.tools, "Torque wrench S").notes, ["2–12 N·m (18–106 lbf·in)"]);
    assert_eq!(line(&list.supplies, "Degreasing solvent").notes, ["H225"]);
    assert!(
        !list.have.iter().chain(&list.order).any(|line| line.text == "Paper liner"),
        "it is made at the bench"
    );
}

/// Two orders of the same procedures, and one alone, say the same of what they share.
#[test]
fn the_order_of_the_procedures_changes_no_count() {
    let (mut one, mut other) = (rows(&list(&["one", "two", "three"])), rows(&list(&["three", "two", "one"])));
    // Of one number the words that come first stand on the list.
    for rows in [&mut one, &mut other] {
        rows.iter_mut().filter(|row| !row[1].is_empty()).for_each(|row| row[2].clear());
        rows.iter_mut().for_each(|row| row[1] = row[1].to_lowercase());
        rows.sort();
    }
    assert_eq!(one, other);
}

/// What the lists of these procedures say, in which errors do not matter here.
fn list_of(texts: &[&str]) -> List {
    let (settings, register) = (Settings::default(), Register::default());
    let around =
        Surroundings { settings: &settings, register: &register, catalogues: &Catalogues::default() };
    let words = Words::of(Language::English);
    let context = Context::new(&settings, &register, words);
    let mut list = List::new(BENCHES);
    for text in texts {
        let compiled = cotter::compile(&SourceFile::new(FileId(0), "sample.cotter", *text), &around);
        list.add_document(&compiled.document, &context).unwrap();
    }
    list
}

const TWO_LINES: &str = "procedure FW-KIT-010 \"Fit two covers\"\n    equipment: F40 transfer pump\n    models: F40, F40S\n\n\
    parts\n    front \"Cover\" x2 number \"C-1\"\n    rear \"Cover\" x3 number \"C-1\"\n    housing \"Housing\"\n\
    tools\n    near \"Axle stand\" x2 number \"S-1\"\n    far \"Axle stand\" x4 number \"S-1\"\n\n\
    remove front, rear from housing\ninstall front, rear on housing\n";

/// By hand: 2 + 3 covers lie on one machine and 2 + 4 stands on its bench; a second procedure of 1 adds none.
#[test]
fn declarations_of_one_number_are_added_up_within_a_procedure() {
    let other = TWO_LINES
        .replace("FW-KIT-010", "FW-KIT-011")
        .replace(" x2", "")
        .replace(" x3", "")
        .replace(" x4", "");
    for list in [list_of(&[TWO_LINES]), list_of(&[TWO_LINES, &other]), list_of(&[&other, TWO_LINES])] {
        let each = |lines: &[Line], number: &str| lines.iter().find(|it| it.number == number).unwrap().each;
        assert_eq!(each(&list.have, "C-1"), Some(5));
        assert_eq!(each(&list.tools, "S-1"), Some(6));
    }
}

#[test]
fn what_is_true_of_one_procedure_is_not_said_of_the_sum() {
    let only = |number: &str, applies: &str| {
        format!(
            "procedure {number} \"Renew\"\n    equipment: F40 transfer pump\n    models: F40, F40S\n\nparts\n    \
             washer \"Washer\"{applies} single-use, number \"W-1\"\n    cover \"Cover\"\n\ninstall new washer on cover\n"
        )
    };
    let (one, all) = (only("FW-KIT-020", " models F40S,"), only("FW-KIT-021", ""));
    assert_eq!(list_of(&[&one]).order[0].notes, ["F40S only"]);
    for list in [list_of(&[&one, &all]), list_of(&[&all, &one])] {
        assert_eq!(list.order[0].each, Some(2));
        assert_eq!(list.order[0].notes, ["FW-KIT-020: F40S only"]);
    }
}

/// CWE-1236, from memory: a spreadsheet works out a cell that starts with one of these.
#[test]
fn no_cell_of_the_csv_is_a_formula() {
    for mark in ["=", "+", "-", "@"] {
        let text =
            TWO_LINES.replace("\"Cover\"", &format!("\"{mark}SUM(A1)\"")).replace("C-1", &format!("{mark}1"));
        let csv = kit::csv(&list_of(&[&text]));
        assert!(csv.contains(&format!(",'{mark}1,'{mark}SUM(A1),")), "{csv}");
    }
}

fn workspace() -> Workspace {
    ["one", "two", "three"].into_iter().fold(Workspace::new(), |workspace, name| {
        let path = folder().join(format!("{name}.cotter"));
        workspace.file(&format!("{name}.cotter"), std::fs::read_to_string(path).unwrap())
    })
}

#[test]
fn the_program_prints_it_as_text_csv_json_and_a_page() {
    let workspace = workspace();
    let run = |format: &str| {
        let run = workspace.run(&["kit", ".", "--benches", "12", "--format", format]);
        assert_eq!(run.code, 0, "{format}: {}{}", run.stdout, run.stderr);
        run.stdout
    };
    let text = run("text");
    assert!(text.starts_with("Kit for 12 benches\n"), "{text}");
    let gasket = text.lines().find(|line| line.contains("F40-1120")).unwrap();
    let words: Vec<&str> = gasket.split_whitespace().collect();
    assert_eq!(words, ["36", "Cover", "gasket", "F40-1120", "FW-KIT-001,", "FW-KIT-002"]);

    let json: Value = serde_json::from_str(&run("json")).unwrap();
    assert_eq!((&json["version"], &json["benches"]), (&1.into(), &12.into()));
    assert_eq!(json["procedures"].as_array().unwrap().len(), 3);
    let pins = json["order"].as_array().unwrap().iter().find(|it| it["number"] == "T8-0412").unwrap();
    assert_eq!((&pins["each"], &pins["all"], &pins["for"][0]), (&2.into(), &24.into(), &"FW-KIT-003".into()));

    let page = run("html");
    assert!(page.contains("<h1>Kit for 12 benches</h1>") && page.contains("FW-KIT-002"));
    assert_eq!(page.matches("<span class=\"box\"></span>").count(), table().len(), "a box a line");
}

/// RFC 4180: CRLF ends a record, a field with a comma or a quote is quoted, a quote in it is doubled.
#[test]
fn the_csv_is_as_the_rfc_wants_it() {
    let text = std::fs::read_to_string(folder().join("one.cotter")).unwrap();
    let workspace = Workspace::new().file("one.cotter", text);
    let csv = workspace.run(&["kit", "one.cotter", "--format", "csv"]).stdout;
    assert!(csv.starts_with("list,number,text,each,all,notes,for\r\n"), "{csv}");
    assert!(
        csv.contains("\r\norder,F40S-1107,\"Sealing washer, 10 x 14\",2,2,F40S only,FW-KIT-001\r\n"),
        "{csv}"
    );
    assert_eq!(csv.matches('\n').count(), csv.matches("\r\n").count());
    for record in csv.split("\r\n").filter(|record| !record.is_empty()) {
        let mut quoted = false;
        let commas = record.chars().filter(|c| {
            quoted ^= *c == '"';
            *c == ',' && !quoted
        });
        assert_eq!(commas.count(), 6, "seven fields: {record}");
    }
}

#[test]
fn a_procedure_with_errors_is_not_on_the_list_and_that_is_said() {
    let workspace = workspace();
    let faulty = workspace.read("two.cotter").replacen("install new gasket", "install gasket", 1);
    workspace.write("two.cotter", faulty);
    let run = workspace.run(&["kit", ".", "--benches", "12"]);
    assert_eq!(run.code, 1, "{}", run.stdout);
    assert!(
        run.stderr.contains("two.cotter: FW-KIT-002 is not on the list: it has 1 error"),
        "{}",
        run.stderr
    );
    assert!(run.stdout.contains("FW-KIT-001") && !run.stdout.contains("FW-KIT-002"), "{}", run.stdout);
    assert_eq!(workspace.run(&["kit", "none.cotter"]).code, 2);
    assert_eq!(workspace.run(&["kit", ".", "--benches", "0"]).code, 2);
}

#[test]
fn the_page_is_the_same_from_the_same_sources() {
    let (settings, register) = (Settings::default(), Register::default());
    let words = Words::of(Language::English);
    let context = Context::new(&settings, &register, words);
    let page = || kit::render(&list(&["one", "two", "three"]), &context).unwrap();
    assert_eq!(page(), page());
    super::sheets::golden("three.kit.html", &page());
}
