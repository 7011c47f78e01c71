//! Handouts: what is withheld stands nowhere on them, safety messages keep their values, and the answers have all.
use super::{CAP, document, english, golden, house, text_of};
use crate::support::shop::{Shop, package, sources};
use cotter::model::Register;
use cotter::sheets::language::{Language, Words};
use cotter::sheets::{Context, Withhold, handout};
use cotter::source::{FileId, SourceFile};

pub const ALL: Withhold = Withhold { torque: true, limits: true };
const TORQUE: Withhold = Withhold { torque: true, limits: false };
const LIMITS: Withhold = Withhold { torque: false, limits: true };

/// Bench handout, checklist handout, answers.
fn pages_of(text: &str, withhold: Withhold) -> [String; 3] {
    let (settings, register) = (house(), Register::default());
    let context = Context::new(&settings, &register, english());
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

/// Bench handout, checklist handout, answers, in a language.
fn pages_in(language: Language, text: &str, withhold: Withhold) -> [String; 3] {
    let (settings, register) = (house(), Register::default());
    let context = Context::new(&settings, &register, Words::of(language));
    let document = document(text);
    assert!(document.slips.is_empty(), "{:#?}", document.slips);
    [
        handout::bench(&document, withhold, &context).unwrap(),
        handout::checklist(&document, withhold, &context).unwrap(),
        handout::answers(&document, withhold, &context).unwrap(),
    ]
}

/// A step of the sample more, before its last.
fn with_step(step: &str) -> String {
    CAP.replacen("tighten screws in 50 %", &format!("{step}\ntighten screws in 50 %"), 1)
}

#[test]
fn every_verb_with_a_limit_has_it_withheld_and_answered() {
    for (step, printed) in [
        ("check cap \"discharge pressure\" 2.7 to 3.3 bar", "2.7–3.3 bar"),
        ("inspect cap \"wear of the rim\" max 0.37 mm", "max 0.37 mm"),
        ("test cap \"leak\" max 0.37 bar", "max 0.37 bar"),
        ("compare cap \"height\" max 0.37 mm", "max 0.37 mm"),
    ] {
        for language in [Language::English, Language::German] {
            let [bench, checklist, answers] = pages_in(language, &with_step(step), LIMITS);
            let in_language = |text: &str| match language {
                Language::German => text.replace('.', ",").replace("max ", "max. "),
                _ => text.to_owned(),
            };
            let printed = in_language(printed);
            for page in [&bench, &checklist] {
                assert!(!text_of(page).contains(&printed), "{step}: {printed} is given away");
            }
            assert!(text_of(&answers).contains(&printed), "{step}: no answer, {}", text_of(&answers));
        }
    }
}

#[test]
fn an_authors_words_give_nothing_away_however_they_put_it() {
    let torques = "    because: So 7–9 N·m, 7 - 9 N.m, between 7 and 9 N·m, *9* N·m, 8 ± 1 N·m, 8 +1/−1 N·m, 7 bis 9 N·m, 7 à 9 N·m.";
    let text = CAP.replacen(
        "tighten screws in 50 % 100 % with wrench-s",
        &format!("tighten screws in 50 % 100 % with wrench-s\n{torques}"),
        1,
    );
    for language in [Language::English, Language::German] {
        let [bench, ..] = pages_in(language, &text, TORQUE);
        let why = &bench[bench.find("So <span").or_else(|| bench.find("So ")).unwrap()..];
        let why = text_of(&why[..why.find("</p>").unwrap()]);
        assert!(!why.contains(|c: char| c.is_ascii_digit()), "{why}");
    }
    // The whole and the tenths of "30,002" are no numbers of their own.
    let text = CAP.replacen("Use the *lug*", "Wait 30 mm off, 2 mm from 18 in. Use the *lug*", 1);
    let [bench, ..] = pages_in(Language::German, &text, LIMITS);
    assert!(bench.contains("Wait 30 mm off, 2 mm from 18 in."));
}

#[test]
fn head_sections_and_dues_give_nothing_away() {
    let text = CAP
        .replacen("Renew a seal and tighten its cap in stages.", "Tighten to 9 N·m.", 1)
        .replacen(
            "section \"Measure and put together\"\n",
            "section \"Measure and put together\"\n    Remember 9 N·m here.\n",
            1,
        )
        .replacen("Look for leaks at the [cap].", "Tighten the [cap] to 9 N·m again.", 1);
    let [bench, checklist, _] = pages_in(Language::English, &text, TORQUE);
    for page in [&bench, &checklist] {
        assert!(!text_of(page).contains(" 9 N·m"), "{}", text_of(page));
    }
}

#[test]
fn every_blank_of_a_branch_has_its_answer() {
    let branch = "    if above: do \"stone the high spot off\" on shaft; tighten screws to 4.3 N.m; repeat from seat, at most 2 times";
    let text = CAP.replacen(
        "    if above: do \"stone the high spot off\" on shaft; repeat from seat, at most 2 times",
        branch,
        1,
    );
    let [bench, _, answers] = pages_in(Language::English, &text, TORQUE);
    assert!(!text_of(&bench).contains("4.3 N·m"));
    assert!(text_of(&answers).contains("4.3 N·m"), "{}", text_of(&answers));
}

#[test]
fn only_torques_and_limits_are_blank() {
    let text = with_step("measure cap \"leak\" max 0.37 bar for 2 min");
    let [bench, _, answers] = pages_in(Language::English, &text, ALL);
    assert!(text_of(&bench).contains("2 min"), "how long is neither");
    assert!(text_of(&answers).contains("0.37 bar"));
    let text = with_step("tighten screws snug then 85 deg");
    let [bench, _, answers] = pages_in(Language::English, &text, ALL);
    assert!(!text_of(&bench).contains("85°"));
    assert!(text_of(&answers).contains("85°"), "{}", text_of(&answers));
}

/// On every page of the demo shop: no withheld value in its printed form, nor its first number with the
/// unit alone.
#[test]
fn no_demo_handout_gives_its_answers_away() {
    let shop = Shop::demo();
    let contexts = [Language::English, Language::German]
        .map(|language| Context::new(&shop.settings, &shop.register, Words::of(language)));
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
        for context in &contexts {
            let answers = handout::answers(&document, ALL, context).unwrap();
            let cells =
                answers.split("<td class=\"values\">").skip(1).filter_map(|it| it.split("</td>").next());
            let values: Vec<String> = cells
                .flat_map(|cell| cell.split("</p>").map(text_of).collect::<Vec<_>>())
                .filter(|value| value.contains('('))
                .collect();
            checked += values.len();
            for page in [handout::bench(&document, ALL, context), handout::checklist(&document, ALL, context)]
            {
                let page = page.unwrap();
                let steps = text_of(&without_messages(&page[page.find("id=\"step-1\"").unwrap()..]));
                for value in &values {
                    assert!(!steps.contains(value.as_str()), "{}: {value}", path.display());
                    // "7–9 N·m (62–79 lbf·in)": "9 N·m" as no part of a longer number or of a range.
                    let first = value.split(" (").next().unwrap();
                    let Some((_, alone)) = first.split_once('–') else { continue };
                    for (at, _) in steps.match_indices(alone) {
                        let before = steps[..at].chars().next_back().unwrap();
                        assert!(
                            before.is_ascii_digit() || ['.', ',', '–', '/'].contains(&before),
                            "{}: {alone}",
                            path.display()
                        );
                    }
                }
            }
        }
    }
    assert!(checked > 120, "only {checked} values were looked for");
}
