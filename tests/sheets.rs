//! The pages: what stands on them, what can never get onto them, and that a build repeats itself.
mod assessment;
mod exchange;
mod handout;
mod injection;
mod instructor;
mod languages;
mod machine;
mod words;

use cotter::compile;
use cotter::model::catalogues::Catalogues;
use cotter::model::register::Entry;
use cotter::model::settings::{Paper, SignalWords};
use cotter::model::{Document, Register, Settings, Surroundings};
use cotter::sheets::language::{Language, Words};
use cotter::sheets::{Context, SheetError, bench, checklist, index};
use cotter::source::{FileId, SourceFile};
use std::path::Path;

const CAP: &str = include_str!("sheets/cap.cotter");

fn document(text: &str) -> Document {
    let source = SourceFile::new(FileId(0), "sample.cotter", text);
    let settings = Settings::default();
    let around = Surroundings {
        settings: &settings,
        register: &Register::default(),
        catalogues: &Catalogues::default(),
    };
    compile(&source, &around).document
}

fn english() -> &'static Words {
    Words::of(Language::English)
}

fn house() -> Settings {
    Settings { house: "Fenmoor Training Workshop".to_owned(), ..Settings::default() }
}

fn bench_of(text: &str, settings: &Settings) -> String {
    let register = Register::default();
    bench::render(&document(text), &Context::new(settings, &register, english())).unwrap()
}

fn checklist_of(text: &str, settings: &Settings) -> String {
    let register = Register::default();
    checklist::render(&document(text), &Context::new(settings, &register, english())).unwrap()
}

/// The page without its style, drawings and script, which would only hide what changed.
fn body(page: &str) -> String {
    let page = page.split_once("<script>").map_or(page, |(before, _)| before);
    let start = page.find("</svg>\n<a ").or_else(|| page.find("</svg>\n\n<main>"));
    let start = start.or_else(|| page.find("<body>")).unwrap_or(0);
    page[start..].trim_start_matches("</svg>").trim_start().replace("><", ">\n<")
}

pub(crate) fn golden(name: &str, page: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/sheets").join(name);
    let now = body(page);
    if std::env::var_os("COTTER_BLESS").is_some() {
        std::fs::write(&path, &now).unwrap();
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    let differs = kept.lines().zip(now.lines()).position(|(a, b)| a != b);
    assert!(kept == now, "{name} differs from line {differs:?}; COTTER_BLESS=1 rewrites it");
}

#[test]
fn the_sample_resolves() {
    let document = document(CAP);
    assert!(document.slips.is_empty(), "{:#?}", document.slips);
}

#[test]
fn the_bench_page_is_as_kept() {
    golden("cap.bench.html", &bench_of(CAP, &house()));
}

#[test]
fn the_checklist_is_as_kept() {
    golden("cap.checklist.html", &checklist_of(CAP, &house()));
}

#[test]
fn a_build_repeats_itself() {
    assert_eq!(bench_of(CAP, &house()), bench_of(CAP, &house()));
    assert_eq!(checklist_of(CAP, &house()), checklist_of(CAP, &house()));
}

#[test]
fn every_message_stands_before_the_words_of_its_step() {
    for page in [bench_of(CAP, &house()), checklist_of(CAP, &house())] {
        let document = document(CAP);
        for step in document.procedure().unwrap().steps() {
            let start = page.find(&format!("id=\"step-{}\"", step.number)).unwrap();
            let words = start + page[start..].find("<p class=\"do\">").unwrap();
            for index in 1..=step.messages.len() {
                let id = format!("id=\"message-{}-{index}\"", step.number);
                let at = page.find(&id).unwrap_or_else(|| panic!("no {id}"));
                assert!(start < at && at < words, "{id} does not stand before its step");
            }
        }
    }
}

#[test]
fn what_stands_above_the_first_section_opens_the_steps() {
    let above = "note \"The maker's information prevails.\"\nwarning slip\n    hazard: Oil lies on the floor.\n    \
                 harm: A fall.\n    avoid: Strew the floor.\n";
    let text = CAP.replacen("section \"Take down\"", &format!("{above}section \"Take down\""), 1);
    for page in [bench_of(&text, &house()), checklist_of(&text, &house())] {
        let first = page
            .find("Take down</h2>")
            .or_else(|| page.find("Take down <span class=\"range\">Steps 1 to 3</span></h2>"));
        for words in ["maker&#39;s information prevails", "Strew the floor"] {
            let at = page.find(words).unwrap_or_else(|| panic!("{words} is lost"));
            assert!(at < first.unwrap(), "{words} stands below the first heading");
        }
        assert!(
            !page.contains(">Steps</h2>") && !page.contains(">Steps <span"),
            "a section of nothing is headed"
        );
    }
}

#[test]
fn what_a_section_ends_with_is_not_lost() {
    let text = format!("{CAP}note \"Keep the old seal for the lesson.\"\n");
    for page in [bench_of(&text, &house()), checklist_of(&text, &house())] {
        let at = page.find("Keep the old seal").expect("the note is lost");
        assert!(page[..at].contains("Measure and put together"), "it stands in another section");
    }
}

#[test]
fn nothing_an_author_writes_becomes_markup() {
    let evil = r#"<script>x()</script><img src=x onerror='x()'>"#;
    let text = CAP
        .replace("Renew the cap seal", &format!("Renew {evil}"))
        .replace("Cap seal\"", &format!("Cap seal {evil}\""))
        .replace(
            "Keep flames 5 m away.",
            &format!("Keep {evil} away. [go](javascript:x) [on](data:text/html,x)"),
        )
        .replace("Use the *lug*", &format!("# Big\n    {evil}\n    ![p](http://x/y.png) Use the *lug*"))
        .replace("A, 2026-11-05", r#"A";} </style><script>"#);
    let bench = bench_of(&text, &house());
    let (bench, record) =
        bench.split_once("<script type=\"application/json\"").expect("the data of the record");
    assert_eq!(
        (record.matches("<script").count(), record.matches("</script").count()),
        (1, 2),
        "its own script only"
    );
    for page in [bench, &checklist_of(&text, &house())] {
        assert!(page.contains("&lt;script&gt;"), "the words are shown");
        for bad in ["<script", "<img", "javascript:", "data:text", "http://x", "<h1>Big"] {
            assert!(!page.contains(bad), "{bad} got through");
        }
        assert_eq!(page.matches("</style>").count(), 1, "the style was ended early");
    }
}

#[test]
fn learners_questions_hide_their_answers_and_teaching_notes_stay_off() {
    let page = bench_of(CAP, &house());
    let answer = page.find("often oval").unwrap();
    let opened = page[..answer].rfind("<details>").unwrap();
    assert!(!page[opened..answer].contains("</details>"));
    for page in [page, checklist_of(CAP, &house())] {
        assert!(!page.contains("Let each learner"), "a teaching note is printed");
    }
}

#[test]
fn the_military_convention_has_no_danger_and_no_notice() {
    let settings = Settings { signal_words: SignalWords::Military, ..house() };
    let page = bench_of(CAP, &settings);
    assert!(!page.contains("<strong>Danger") && !page.contains("<strong>Notice"));
    let caution = &page[page.find("class=\"message caution\"").unwrap()..];
    let signal = &caution[..caution.find("</p>").unwrap()];
    assert!(!signal.contains("<svg"), "damage to property has no alert triangle");
}

#[test]
fn a_signal_word_of_injury_has_its_triangle_and_notice_has_none() {
    let page = bench_of(CAP, &house());
    for (class, triangle) in [("danger", true), ("warning", true), ("notice", false)] {
        let panel = &page[page.find(&format!("class=\"message {class}\"")).unwrap()..];
        assert_eq!(panel[..panel.find("</p>").unwrap()].contains("#alert"), triangle, "{class}");
    }
}

#[test]
fn messages_say_how_long_they_hold() {
    let page = bench_of(CAP, &house());
    assert!(page.contains("Holds until step 2 is done."));
    assert!(page.contains("Holds for the next 2 steps, 4 to 5."));
}

#[test]
fn a_checklist_leaves_room_for_readings_torques_and_signatures() {
    let page = checklist_of(CAP, &house());
    assert_eq!(page.matches("<span class=\"box\"></span>").count(), 12, "a box a step");
    assert!(page.contains("Instructor, initials"));
    let reading = &page[page.find("Seat diameter</p>").unwrap()..];
    // 30.002 mm is 1.181181… in, 30.015 mm is 1.181693… in; inwards (1 in = 25.4 mm, NIST SP 811 App. B).
    assert!(reading[..400].contains("30.002–30.015 mm (1.18119–1.18169 in)"), "{}", &reading[..400]);
    let torque = &page[page.find("Set to</p>").unwrap()..];
    assert!(torque[..400].contains("7–9 N·m (62–79 lbf·in)"), "{}", &torque[..400]);
}

#[test]
fn passes_of_a_torque_for_new_and_reused_say_both_values() {
    let text = CAP.replace("torque 7 to 9 N.m crosswise", "torque new 9 N.m, reused 8 N.m crosswise");
    // 9 N·m is 79.66 lbf·in, 8 N·m is 70.8; half of them 39.8 and 35.4 (1 lbf·in = 0.112 984 8 N·m, NIST SP 811 App. B).
    let half = "new: 4.5 N·m (39.8 lbf·in), reused: 4 N·m (35 lbf·in) (50 %)";
    let whole = "new: 9 N·m (80 lbf·in), reused: 8 N·m (71 lbf·in)";
    let page = bench_of(&text, &house());
    let row =
        text_of(&page[page.find("data-head=\"Passes\"").unwrap()..page.find("data-head=\"How\"").unwrap()]);
    assert!(row.contains(half) && row.contains(whole), "{row}");
    let checklist = checklist_of(&text, &house());
    let blank = &checklist[checklist.find("Set to</p>").unwrap()..];
    assert!(blank[..600].contains(half) && blank[..600].contains(whole), "{}", &blank[..600]);
}

/// Without its tags.
pub(crate) fn text_of(markup: &str) -> String {
    markup.split('<').filter_map(|piece| piece.split_once('>')).map(|(_, text)| text).collect()
}

#[test]
fn a_pattern_is_drawn_on_both_sheets() {
    for page in [bench_of(CAP, &house()), checklist_of(CAP, &house())] {
        let drawing = &page[page.find("<svg class=\"pattern\"").expect("a drawing")..];
        let drawing = &drawing[..drawing.find("</svg>").unwrap()];
        // ASME PCC-1, legacy pattern of four, from memory.
        assert!(
            drawing.contains("<title>Counted clockwise from the top, in the order 1 3 2 4</title>"),
            "{drawing}"
        );
        assert_eq!(drawing.matches("<g class=\"next\">").count(), 3, "{drawing}");
        assert!(drawing.contains("<g class=\"first\"><circle cx=\"0.0\" cy=\"-30.0\""), "{drawing}");
        assert!(page.contains("Cap screws: the numbers give the order of tightening"));
        // Every pass in both units: half of 7 to 9 N·m is 31.0 to 39.8 lbf·in.
        assert!(page.contains("3.5–4.5 N·m") && page.contains("(31.0–39.8 lbf·in)"), "{page}");
    }
    let own = CAP.replace("crosswise, holds", "order 1 2 3 4, holds");
    let page = bench_of(&own, &house());
    assert!(
        page.contains("the large numbers give the order of tightening, the small ones are those of the text")
    );
    assert_eq!(page.matches("<text class=\"own\"").count(), 4);
    assert!(!bench_of(&CAP.replace(" crosswise, holds", ", holds"), &house()).contains("class=\"pattern\""));
}

/// 250 mm and 50 mm: 250 / 300 of the torque.
#[test]
fn the_table_of_torques_says_all_that_a_wrench_is_set_by() {
    let text = CAP
        .replace("with wrench-s\n", "with wrench-s, crow-foot\n    from: section 4, page 9\n")
        .replace("length 220 mm, number", "length 250 mm, number")
        .replace("    hex-keys ", "    crow-foot \"Crow-foot\"  adapter 50 mm\n    hex-keys ")
        .replace("torque 7 to 9 N.m crosswise", "dry, torque 6 N.m crosswise");
    let page = bench_of(&text, &house());
    let table = &page[page.find("id=\"torques\"").unwrap()..];
    let table = &table[..table.find("</table>").unwrap()];
    let heads: Vec<&str> =
        table.split("<th scope=\"col\">").skip(1).filter_map(|it| it.split('<').next()).collect();
    let all = [
        "Step",
        "Fastener",
        "Thread",
        "On the thread",
        "Passes",
        "Torque",
        "How",
        "With",
        "Wrench set to",
        "Source",
    ];
    assert_eq!(heads, all);
    for (head, says) in [
        ("Thread", "M6, class 8.8"),
        ("On the thread", "dry"),
        ("Passes", "3 N·m (27 lbf·in) (50 %)6 N·m (53 lbf·in)"),
        ("Torque", "6 N·m (53 lbf·in)"),
        ("How", "crosswise"),
        ("With", "Torque wrench S, Crow-foot"),
        ("Wrench set to", "2.5 N·m (22.1 lbf·in)5 N·m (44 lbf·in)"),
        ("Source", "section 4, page 9"),
    ] {
        let cell = &table[table.find(&format!("data-head=\"{head}\"")).unwrap()..];
        assert_eq!(text_of(&format!("<{}", &cell[..cell.find("</td>").unwrap()])), says, "{head}");
    }
    assert!(text_of(table).contains("4 × Cap screw, M6 x 20"));
    let checklist = checklist_of(&text, &house());
    assert!(checklist.contains("wrench at 5 N·m (44 lbf·in)"), "the checklist's blank");
    assert!(
        text_of(&checklist).contains("Set the wrench")
            || text_of(&checklist).contains("the wrench set to 5 N·m")
    );
    // What no row says has no column.
    assert!(!bench_of(CAP, &house()).contains("Wrench set to"));
}

#[test]
fn a_repeat_has_its_own_boxes_and_blanks() {
    let text = CAP.replace("due \"after", "repeat seat to cap-on for second-pump\ndue \"after");
    let page = checklist_of(&text, &house());
    let round = &page[page.find("<h3>Second pump</h3>").unwrap()..];
    let round = &round[..round.find("</section>").unwrap()];
    for wanted in ["</span>5</li>", "</span>10</li>", "Step 5: Seat diameter", "Step 9: Instructor, initials"]
    {
        assert!(round.contains(wanted), "{wanted} is not in {round}");
    }
    assert!(!round.contains("</span>11</li>"));
    assert!(bench_of(&text, &house()).contains("The safety messages of those steps hold again."));
}

#[test]
fn a_later_step_recalls_what_still_holds() {
    let page = bench_of(CAP, &house());
    let second = &page[page.find("id=\"step-2\"").unwrap()..page.find("id=\"step-3\"").unwrap()];
    assert!(second.contains("Still holds") && second.contains("href=\"#message-1-1\""));
    let third = &page[page.find("id=\"step-3\"").unwrap()..page.find("id=\"step-4\"").unwrap()];
    assert!(!third.contains("Still holds"), "it holds until step 2 only");
}

#[test]
fn a_call_is_a_link_only_where_the_procedure_is_known() {
    let text = CAP.replace("requires:   none", "requires:   FW-SAF-001 \"locked out\"");
    let settings = house();
    let mut register = Register::default();
    let link = "<a href=\"../FW-SAF-001/bench.html\">FW-SAF-001</a>";
    let page = |register: &Register| {
        let context = Context::new(&settings, register, english());
        bench::render(&document(&text), &context).unwrap()
    };
    assert!(!page(&register).contains(link));
    register.add(
        "FW-SAF-001",
        Entry {
            title: "Lock out".to_owned(),
            file: "a.cotter".to_owned(),
            leaves: String::new(),
            afterwards: None,
        },
    );
    assert!(page(&register).contains(link));
}

#[test]
fn the_kit_tells_parts_to_have_new_from_those_that_may_be_needed() {
    let text = CAP.replace("if below: stop \"Send the shaft for repair.\"", "if below: renew shaft");
    let page = bench_of(&text, &house());
    let kit = &page[page.find("Parts to have new").unwrap()..page.find("Easily mistaken").unwrap()];
    let (new, other) = kit.split_once("Other parts").unwrap();
    assert!(new.contains("Cap seal") && !new.contains("Pump shaft"));
    assert!(other.contains("Pump shaft <span class=\"fact\">new one only if found faulty"));
}

#[test]
fn paper_and_foot_follow_the_house() {
    let letter = Settings { paper: Paper::Letter, ..house() };
    assert!(checklist_of(CAP, &house()).contains("size:A4"));
    assert!(checklist_of(CAP, &letter).contains("size:letter"));
}

#[test]
fn a_date_is_printed_only_where_it_is_given() {
    let (settings, register) = (house(), Register::default());
    let mut context = Context::new(&settings, &register, english());
    let document = document(CAP);
    assert!(!bench::render(&document, &context).unwrap().contains("Issued"));
    context.date = Some("2026-12-01");
    assert!(bench::render(&document, &context).unwrap().contains("2026-12-01"));
}

#[test]
fn a_catalogue_has_no_sheets() {
    let (settings, register) = (house(), Register::default());
    let context = Context::new(&settings, &register, english());
    let catalogue = document("catalogue \"Common\"\n");
    assert_eq!(bench::render(&catalogue, &context), Err(SheetError::NotAProcedure));
    assert_eq!(index::Entry::of(&catalogue), None);
}

#[test]
fn the_list_is_sorted_and_escaped() {
    let entry = |number: &str| index::Entry {
        number: number.to_owned(),
        title: "Fit <b>".to_owned(),
        equipment: "F40".to_owned(),
        models: String::new(),
        revision: String::new(),
        others: vec!["checklist.html".to_owned()],
    };
    let (settings, register) = (house(), Register::default());
    let context = Context::new(&settings, &register, english());
    let page = index::render(&[entry("B 2"), entry("A-1")], &context).unwrap();
    assert!(page.find("A-1").unwrap() < page.find("B 2").unwrap());
    assert!(page.contains("href=\"B%202/bench.html\"") && page.contains("Fit &lt;b&gt;"));
    assert!(page.contains("href=\"B%202/checklist.html\" aria-label=\"Checklist of B 2\""), "{page}");
    assert!(!page.contains("kit.html"), "only what is there is led to");
}

#[test]
fn a_reading_that_allows_nothing_says_so_beside_its_blank() {
    let text = "procedure A-1 \"A\"\nparts\n    shaft \"Shaft\"\nmeasure shaft \"end play\" none\n";
    let page = checklist_of(text, &house());
    assert!(page.contains("<p class=\"limits\">none allowed</p>"), "{page}");
    assert!(page.contains("<span class=\"rule\"></span></p>"), "no unit that nobody wrote");
    assert!(page.contains("None is allowed."));
}

#[test]
fn a_hold_after_one_outcome_has_a_place_for_initials() {
    let text =
        format!("{CAP}\ncheck \"make sure that all is dry\"\n    if not ok: hold inspector \"all is dry\"\n");
    let page = checklist_of(&text, &house());
    assert!(page.contains("<p class=\"label\">Inspector, initials</p>"), "no place for initials");
    assert!(page.contains("<div class=\"signature\"><p>Inspector</p>"), "no signature");
}

/// The foot of a printed page tells whose page it is when the sheets lie mixed on a bench.
#[test]
fn both_sheets_are_numbered_on_the_paper_of_the_house() {
    for (paper, size) in [(Paper::A4, "size:A4"), (Paper::Letter, "size:letter")] {
        let settings = Settings { paper, ..house() };
        for page in [bench_of(CAP, &settings), checklist_of(CAP, &settings)] {
            assert!(
                page.contains(size)
                    && page.contains("counter(pages)")
                    && page.contains("@bottom-left{content:")
            );
        }
    }
}
