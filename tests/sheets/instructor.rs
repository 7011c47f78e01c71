//! The instructor's edition: times, briefing, holds, teaching points, and questions with their answers.
use super::{CAP, document, english, golden, house, text_of};
use cotter::model::{Register, Settings};
use cotter::sheets::{Context, instructor};

fn page_of(text: &str, benches: u32) -> String {
    let (settings, register): (Settings, Register) = (house(), Register::default());
    let context = Context::new(&settings, &register, english());
    instructor::render(&document(text), benches, &context).unwrap()
}

fn part<'a>(page: &'a str, from: &str, to: &str) -> &'a str {
    let start = page.find(from).unwrap_or_else(|| panic!("no {from}"));
    &page[start..start + page[start..].find(to).unwrap_or_else(|| panic!("no {to} behind {from}"))]
}

/// The sample with times: 15 and 25 minutes by the sections, and a wait between.
fn timed() -> String {
    CAP.replace("section \"Take down\"\n", "section \"Take down\"\n    time: 15 min\n")
        .replace(
            "section \"Measure and put together\"\n",
            "section \"Measure and put together\"\n    time: 25 min\n",
        )
        .replace("identify cap \"no port\"", "wait 10 min\nidentify cap \"no port\"")
}

#[test]
fn the_page_is_as_kept() {
    golden("cap.instructor.html", &page_of(&timed(), 12));
}

#[test]
fn a_build_repeats_itself() {
    assert_eq!(page_of(CAP, 3), page_of(CAP, 3));
}

/// 0:00 and 15 min is 0:15; 25 min more is 0:40, which is what the head says.
#[test]
fn the_clock_runs_on_over_the_sections() {
    let page = page_of(&timed(), 1);
    let rows = text_of(part(&page, "<table class=\"times\">", "</table>").replace("</t", " |</t").as_str());
    for row in [
        "Take down |15 min |0:00 to 0:15 |",
        "25 min |0:15 to 0:40 |10 min |",
        "In all |40 min |0:40 |10 min |",
    ] {
        assert!(rows.contains(row), "{row} is not in {rows}");
    }
    assert!(!page.contains("The head of the procedure says"), "they agree");
    let heading = part(&page, "id=\"section-2\">", "<ol");
    assert!(text_of(heading).contains("0:15 to 0:4025 minand waits of 10 min"), "{heading}");
}

#[test]
fn times_that_do_not_add_up_or_are_missing_are_told_of() {
    let page = page_of(&timed().replace("time: 25 min", "time: 20 min"), 1);
    assert!(page.contains("The head of the procedure says 40 min."), "35 min are not 40 min");
    // The steps of a section without a time of its own: 5 and 7 minutes, and others that say nothing.
    let text = timed()
        .replace("    time: 15 min\n", "")
        .replace("remove screws with hex-keys\n", "remove screws with hex-keys\n    time: 5 min\n")
        .replace("as cap-off; discard seal\n", "as cap-off; discard seal\n    time: 7 min\n");
    let table = text_of(part(&page_of(&text, 1), "<table class=\"times\">", "</table>"));
    assert!(table.contains("at least 12 min") && table.contains("0:00 to at least 0:12"), "{table}");
    let silent = page_of(CAP, 1);
    assert!(!silent.contains("<table class=\"times\">"), "rows without times tell nothing");
    assert!(silent.contains("The head of the procedure says 40 min."));
}

#[test]
fn every_hazard_and_all_equipment_is_in_the_briefing_with_its_steps() {
    let page = page_of(CAP, 1);
    let briefing = part(&page, "<section class=\"safety-briefing\"", "</section>");
    let document = document(CAP);
    for (message, _) in
        document.procedure().unwrap().messages().filter(|(message, _)| message.hazard.is_some())
    {
        assert!(briefing.contains(&message.hazard.as_ref().unwrap().value.title), "{message:?}");
        for wear in &message.wear {
            assert!(
                briefing.matches(&wear.value.order).count() >= 2,
                "in its panel and in the list: {wear:?}"
            );
        }
    }
    assert!(briefing.find("Danger").unwrap() < briefing.find("Warning").unwrap());
    // The danger stands before step 1 and holds until step 2 is done; the warning for steps 4 and 5.
    assert!(briefing.contains("Comes up at steps <a href=\"#step-1\">1–2</a>"), "{briefing}");
    assert!(briefing.contains("Comes up at steps <a href=\"#step-4\">4–5</a>"), "{briefing}");
}

#[test]
fn what_stands_twice_with_the_same_words_is_said_once() {
    let again = "caution sharp-edges\n    hazard: The rim is sharp.\n    harm: Cut fingers.\n    avoid: Wear gloves.\n    wear: gloves\n";
    let again = again.replace("sharp-edges", "cutting");
    let text = CAP
        .replace(
            "install cap, screws on housing as cap-on",
            &format!("{again}install cap, screws on housing as cap-on"),
        )
        .replace("identify cap \"no port\"", &format!("{again}identify cap \"no port\""));
    let page = page_of(&text, 1);
    let briefing = part(&page, "<section class=\"safety-briefing\"", "</section>");
    assert_eq!(briefing.matches("The rim is sharp.").count(), 1);
    assert!(briefing.contains("<a href=\"#step-6\">6</a>, <a href=\"#step-10\">10</a>"), "{briefing}");
}

#[test]
fn holds_teaching_points_and_answers_are_there_and_only_here() {
    let page = page_of(&timed(), 1);
    let holds = text_of(part(&page, "<ul class=\"holds\">", "</ul>"));
    assert!(
        holds.contains(
            "Step 10 Do not go on until the instructor has signed: The cap seal sits flat all round."
        ),
        "{holds}"
    );
    assert!(page.contains("<b>Teach:</b> Let each learner read the micrometer alone."));
    assert!(page.contains("<b>Answer:</b> A worn seat is often oval.") && !page.contains("<details>"));
    let bench = super::bench_of(&timed(), &house());
    for mark in ["class=\"teach\"", "class=\"clock\"", "class=\"briefing\"", "Instructor&#39;s edition"] {
        assert!(page.contains(mark) && !bench.contains(mark), "{mark}");
    }
}

#[test]
fn the_kit_is_multiplied_by_the_benches() {
    let page = page_of(CAP, 12);
    let order = text_of(part(&page, "id=\"kit-order\"", "</table>").replace("</t", " </t").as_str());
    assert!(order.contains("1 12 Cap seal F40-1150"), "{order}");
    assert!(page.contains("Kit for 12 benches"));
    assert!(!page_of(CAP, 1).contains("In all</th><th"), "one bench has one column");
}
