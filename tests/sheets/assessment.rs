//! The assessment: which lines the steps make, which of them are critical, and that the sheet says what that means.
use super::{CAP, document, english, golden, house, text_of};
use cotter::model::Register;
use cotter::sheets::{Context, assessment};

fn page_of(text: &str) -> String {
    let (settings, register) = (house(), Register::default());
    let context = Context::new(&settings, &register, english());
    assessment::render(&document(text), &context).unwrap()
}

/// The text of each line, with whether it is critical.
fn lines(page: &str) -> Vec<(String, bool)> {
    let bodies = page.split("<tbody>").skip(1).filter_map(|it| it.split("</tbody>").next());
    let rows = bodies.flat_map(|body| body.split("<tr").skip(1));
    rows.map(|row| (text_of(&format!("<tr{row}")), row.starts_with(" class=\"critical\""))).collect()
}

#[test]
fn the_page_is_as_kept() {
    golden("cap.assessment.html", &page_of(CAP));
}

#[test]
fn a_build_repeats_itself() {
    assert_eq!(page_of(CAP), page_of(CAP));
}

/// By hand from the sample: three messages (the notice of damage is not critical), a reading, a look at which of two caps
/// it is for each model, a new seal, a hold, and one torque in two passes.
#[test]
fn every_hold_torque_reading_message_and_single_use_part_is_a_line() {
    let lines = lines(&page_of(CAP));
    let expected = [
        ("Stored energy: Keep your head out of line with the cap.", true),
        ("Fire: Keep flames 5 m away.", true),
        ("Contamination: Close the opening with a clean cloth.", false),
        ("Measures: Seat diameter30.002–30.015 mm (1.18119–1.18169 in)", false),
        ("F40 only Make sure that you have the cap (plain): no port.", false),
        ("F40S only Make sure that you have the cap (with port): port beside the lug.", false),
        ("Fits new: Cap seal (F40-1150)", false),
        ("Waits for the signature (Instructor). The cap seal sits flat all round.", true),
        ("Tightens: 4 × Cap screw, M6 x 20", false),
    ];
    assert_eq!(lines.len(), expected.len(), "{lines:#?}");
    for ((line, critical), (says, is_critical)) in lines.iter().zip(expected) {
        assert!(line.contains(says) && *critical == is_critical, "{says}: {line} ({critical})");
    }
    // Each has its step: 1 and 2, 4 and 5, then one each.
    for (line, steps) in lines.iter().zip(["1–2", "4–5", "1", "5", "6", "7", "8", "9", "12"]) {
        assert!(line.0.trim_end().ends_with(steps), "{steps}: {}", line.0);
    }
    assert!(lines[3].0.contains("Assessor's reading") || lines[3].0.contains("Assessor&#39;s reading"));
    assert!(
        lines[8].0.contains("7–9 N·m (62–79 lbf·in)") && lines[8].0.contains("crosswise"),
        "{}",
        lines[8].0
    );
}

#[test]
fn the_sheet_says_that_one_critical_line_fails_the_whole_and_has_both_signatures() {
    let page = page_of(CAP);
    assert!(page.contains("One critical line that is not passed, and the whole is not passed."));
    let signatures = &page[page.find("class=\"signatures\"").unwrap()..];
    assert!(signatures.contains("<p>Assessor</p>") && signatures.contains("<p>Learner</p>"));
    let rows = lines(&page).len();
    assert_eq!(
        page.matches("<td class=\"mark\"><span class=\"box\"></span></td>").count(),
        2 * rows,
        "pass and not yet"
    );
}

#[test]
fn what_is_for_one_model_alone_says_so() {
    let text = CAP.replace("install new seal on housing", "install new seal on housing\n    only: F40S");
    let line = lines(&page_of(&text)).into_iter().find(|(line, _)| line.contains("Fits new")).unwrap();
    assert!(line.0.contains("F40S only"), "{}", line.0);
}

/// What learners forget and nobody sees afterwards: a mark before parts come off, a side, a test.
#[test]
fn marks_sides_and_tests_are_lines_too() {
    let page = page_of(&format!(
        "{CAP}mark cap \"line over cap and body\"\ninstall new seal facing \"lip toward the body\"\ntest cap \"no drop in 5 min\"\n"
    ));
    let lines = lines(&page);
    for words in ["line over cap and body", "lip toward the body", "no drop in 5 min"] {
        assert!(
            lines.iter().any(|(line, critical)| line.contains(words) && !critical),
            "{words}: {lines:#?}"
        );
    }
}
