//! Handouts: what is withheld stands nowhere on them, safety messages keep their values, and the answers have all.
use super::{CAP, document, english, golden, house, text_of};
use crate::support::shop::{Shop, package, sources};
use cotter::model::Register;
use cotter::sheets::{Context, Withhold, handout};
use cotter::source::{FileId, SourceFile};

pub const ALL: Withhold = Withhold { torque: true, limits: true };
const TORQUE: Withhold = Withhold { torque: true, limits: false };
const LIMITS: Withhold = Withhold { torque: false, limits: true };

/// Bench handout, checklist handout, answers.
fn pages_of(text: &str, withhold: Withhold) -> [String; 3] {
    let (settings, register) = (house(), Register::default());
    let context = Context { settings: &settings, register: &register, words: english(), date: None };
    let document = document(text);
    [
        handout::bench(&document, withhold, &context).unwrap(),
        handout::checklist(&document, withhold, &context).unwrap(),
        handout::answers(&document, withhold, &context).unwrap(),
    ]
}

/// The page without its safety messages and drawings, whose numbers stay.
fn without_messages(page: &str) -> String {
    let mut out = String::new();
    for (index, piece) in page.split("<div class=\"message ").enumerate() {
        let kept = if index == 0 { piece } else { piece.split_once("</div></div>").map_or("", |it| it.1) };
        out.push_str(kept);
    }
    out
}

#[test]
fn the_pages_are_as_kept() {
    let [bench, checklist, answers] = pages_of(CAP, ALL);
    golden("cap.handout.html", &bench);
    golden("cap.handout-checklist.html", &checklist);
    golden("cap.answers.html", &answers);
}

#[test]
fn a_withheld_torque_stands_nowhere() {
    let [bench, checklist, answers] = pages_of(CAP, TORQUE);
    for page in [&bench, &checklist] {
        let text = text_of(&without_messages(page));
        for value in ["7–9", "N·m)", "62–79", "3.5–4.5", "31.0", "lbf·in)"] {
            let scale = text.replace("2–12 N·m (18–106 lbf·in)", "");
            assert!(!scale.contains(value), "{value} is given away");
        }
        assert!(text.contains("30.002"), "limits are not withheld here");
        assert!(text.contains("crosswise"), "how it is gone round stays");
        assert!(page.contains("aria-label=\"value to look up\""));
    }
    let rows = text_of(&answers);
    assert!(rows.contains("4 × Cap screw, M6 x 20") && rows.contains("7–9 N·m (62–79 lbf·in)"), "{rows}");
    assert!(!rows.contains("30.002"));
}

#[test]
fn withheld_limits_are_blank_also_in_the_authors_own_words() {
    let text = CAP
        .replace(
            "record: seat diameter",
            "record: seat diameter\n    because: Below 30.002 mm the seal leaks.",
        )
        .replace(
            "answer: A worn seat is often oval.",
            "answer: It may lie between 30.002 and 30.015 mm and be oval.",
        )
        .replace("Keep flames 5 m away.", "Keep flames 5 m away, and 30.002 mm off.");
    let [bench, checklist, answers] = pages_of(&text, LIMITS);
    for page in [&bench, &checklist] {
        let text = text_of(&without_messages(page));
        for value in ["30.002", "30.015", "1.18119"] {
            assert!(!text.contains(value), "{value} is given away");
        }
        assert!(text.contains("7–9 N·m"), "torques are not withheld here");
        assert!(text_of(page).contains("30.002 mm off"), "a safety message is never changed");
    }
    assert!(bench.contains("Below <span class=\"look-up\""));
    assert!(text_of(&answers).contains("Seat diameter30.002–30.015 mm (1.18119–1.18169 in)"));
}

#[test]
fn other_numbers_stay() {
    let text = CAP.replace("Use the *lug*", "Wait 10 min at 9 bar, on 2 screws, 7.5 mm apart. Use the *lug*");
    let [bench, ..] = pages_of(&text, ALL);
    assert!(
        bench.contains("Wait 10 min at 9 bar, on 2 screws, 7.5 mm apart."),
        "9 N·m is withheld, 9 bar is not"
    );
}

/// On every page of the demo shop: no withheld value in its printed form, and no message without one of its words.
#[test]
fn no_demo_handout_gives_its_answers_away() {
    let shop = Shop::demo();
    let context =
        Context { settings: &shop.settings, register: &shop.register, words: english(), date: None };
    let mut checked = 0;
    for (place, path) in sources(&package("procedures")).iter().enumerate() {
        let name = path.strip_prefix(package("")).unwrap().to_str().unwrap().to_owned();
        let source = SourceFile::new(
            FileId(u32::try_from(place).unwrap()),
            name,
            std::fs::read_to_string(path).unwrap(),
        );
        let document = shop.compile(&source).document;
        if document.procedure().is_none() {
            continue;
        }
        let answers = handout::answers(&document, ALL, &context).unwrap();
        let cells = answers.split("<td class=\"values\">").skip(1).filter_map(|it| it.split("</td>").next());
        let values: Vec<String> = cells
            .flat_map(|cell| cell.split("</p>").map(text_of).collect::<Vec<_>>())
            .filter(|value| value.contains('('))
            .collect();
        checked += values.len();
        for page in [handout::bench(&document, ALL, &context), handout::checklist(&document, ALL, &context)] {
            let page = page.unwrap();
            let steps = text_of(&without_messages(&page[page.find("id=\"step-1\"").unwrap()..]));
            for value in &values {
                assert!(!steps.contains(value.as_str()), "{}: {value}", path.display());
            }
        }
    }
    assert!(checked > 60, "only {checked} values were looked for");
}
