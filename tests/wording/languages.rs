//! The sentences in every language: each verb's example and each kind of line, kept in a file to be read.
use super::document;
use cotter::model::catalogues::Catalogues;
use cotter::model::settings::Units;
use cotter::model::template::{Slot, Template};
use cotter::model::verb::Verb;
use cotter::model::{Document, Language};
use cotter::sheets::wording::{self, Cx, Run, Sentence, known_verbs, verb_sentence};
use cotter::source::{FileId, SourceFile};
use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::path::Path;

/// Lines that say what no verb's example says: counts, tightening, findings, steering.
const OTHERS: &str = r#"remove 2 of screws
clean each hinge-pins using solvent
install new plug
tighten nut 20 N.m then 90 deg
tighten nut 20 N.m plus drag
tighten nut 20 N.m oiled
tighten nut 20 N.m dry
tighten nut finger tight
tighten nut snug
tighten nut not specified
tighten bolts 20 N.m order 1 2
tighten bolts 20 N.m clockwise
tighten bolts 20 N.m from centre
loosen bolts by 1/2 turn from ends
tighten nut new 60 N.m, reused 55 N.m
tighten nut 40 N.m align slot by tightening not above 60 N.m
tighten nut 20 N.m align slot by loosening
tighten nut 20 N.m align slot either way
tighten nut 40 N.m never moved to align
tighten screws must not turn below 7 N.m with wrench-s
tighten screws, tie-nut with wrench-s
tighten screws in 50 % 100 % with wrench-s
tighten nut by hub-seat align slot by loosening
tighten nut in 50 % 100 % new 60 N.m, reused 50 N.m
tighten bolts by in-passes except stage 2 9 N.m on second-bolt
tighten nut 40 N.m with wrench-k, crow-foot at 90 deg
tighten nut 40 N.m with wrench-k, crow-foot
tighten nut 40 N.m "Do up the nut by feel first."
measure hub "end play, pushed and pulled" max 0.1 mm with indicator
measure each hinge-pins "length of the worn side" 20 to 21 mm with micrometer
measure shaft "end play" none with indicator
measure belt "width" new 12.7 mm, worn 11.5 mm
inspect shaft "for cracks"
hold instructor "[bearing] sits home"
report supervisor "the track is grooved"
wait 10 min
wait until "the hiss stops"
stop "Send the shaft for repair."
follow "Crane rules"
turn shaft by 2 turns at most 3 times while "you hold the hub"
heat bearing to -10 to 110 degC for 1.5 h
measure shaft "diameter" 30.0 to 30.1 mm as seat-size
    if below: stop "Send the shaft for repair."
    if above: do "stone it down"; repeat from seat-size, at most 2 times
    if outside: skip to seat-size
    if impossible: report supervisor
inspect cover "cracks" as eyed
    if cracked, blue: renew cover
    if not ok: remove gasket
    otherwise: skip to seat-size
remove gasket
    only: eyed failed
remove ring
    only: F40S
remove plug
    only: seat-size below
choose "How is it packed?"
    option "Packer": pack bearing using grease with packer
remove cover as cover-off
repeat cover-off to cover-off for rear-left until "it is clean", at most 3 times
    except cover-off: remove gasket
    except rear-left: remove ring
measure cover "depth" 5 to 6 mm as depth-read
calculate pack-size = depth-read + 0.05 mm, 0.20 to 0.60 mm"#;

/// Every line that the languages are tried on.
fn workshop() -> Document {
    let examples: Vec<&str> = Verb::all().iter().map(|verb| verb.example.as_str()).collect();
    document(&format!("{}\n{OTHERS}", examples.join("\n")))
}

/// All that the steps say, as sentences.
fn sentences(document: &Document, language: Language) -> Vec<Vec<Sentence>> {
    let units = Units { single: true, ..Units::default() };
    let cx = Cx::of(document, &units, language, Language::English);
    let procedure = document.procedure().expect("the workshop is a procedure");
    procedure.steps().map(|step| wording::step(step, &cx)).collect()
}

fn plain(sentences: &[Sentence]) -> String {
    sentences.iter().map(Sentence::plain).collect::<Vec<_>>().join(" ")
}

/// The generated words alone, in small letters.
fn generated(sentences: &[Sentence]) -> BTreeSet<String> {
    let lists = sentences.iter().flat_map(|sentence| &sentence.list);
    let runs = sentences.iter().chain(lists).flat_map(|sentence| sentence.runs());
    let text: Vec<&str> = runs.filter(|(run, _)| *run == Run::Text).map(|(_, text)| text).collect();
    let words = text.join(" ").to_lowercase();
    words.split(|c: char| !c.is_alphabetic()).filter(|word| word.len() > 1).map(str::to_owned).collect()
}

#[test]
fn the_sentences_are_as_kept() {
    let document = workshop();
    let [english, others @ ..] = Language::ALL.map(|language| (language, sentences(&document, language)));
    let mut text =
        String::from("# What every kind of line reads like in each language. Written by the tests.\n");
    for (at, sentences) in english.1.iter().enumerate() {
        let _ = write!(text, "\nen  {}\n", plain(sentences));
        for (language, own) in &others {
            let _ = writeln!(text, "{}  {}", language.tag(), plain(&own[at]));
        }
    }
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/wording/languages.txt");
    if std::env::var_os("COTTER_BLESS").is_some() {
        std::fs::write(&path, &text).unwrap();
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    let differs = text.lines().zip(kept.lines()).find(|(now, kept)| now != kept);
    assert_eq!(differs, None);
    assert_eq!(text.lines().count(), kept.lines().count());
}

/// Words that two of the languages share.
const SHARED: [(Language, &[&str]); 3] = [
    (Language::German, &["in", "so"]),
    (Language::Spanish, &["no", "par"]),
    (Language::French, &["plus", "centre"]),
];

#[test]
fn no_english_word_and_no_slot_is_left() {
    let document = workshop();
    let english = sentences(&document, Language::English);
    for (language, shared) in SHARED {
        for (own, english) in sentences(&document, language).iter().zip(&english) {
            let text = plain(own);
            assert!(!text.contains(['{', '}', '[', ']']), "{text}");
            assert!(!text.contains("  ") && !text.contains(" ,") && !text.contains(" ."), "{text}");
            let left: Vec<String> = generated(own)
                .intersection(&generated(english))
                .filter(|word| !shared.contains(&word.as_str()))
                .cloned()
                .collect();
            assert!(left.is_empty(), "{}: {left:?} in {text}", language.tag());
        }
    }
}

/// Nothing that the author wrote is lost: the same names, values and steps, whatever their order.
#[test]
fn every_language_says_the_same_names_values_and_steps() {
    let document = workshop();
    let said = |sentences: &[Sentence]| {
        let lists = sentences.iter().flat_map(|sentence| &sentence.list);
        let runs = sentences.iter().chain(lists).flat_map(|sentence| sentence.runs());
        let mut kept: Vec<String> = runs
            .filter_map(|(run, text)| match run {
                Run::Name(_) => Some(text.to_lowercase()),
                Run::Step(number) => Some(format!("step {number}")),
                Run::Value | Run::Torque | Run::Limit => {
                    let figures = text.replace(',', ".");
                    let of_number = |c: &char| c.is_ascii_digit() || *c == '.';
                    Some(figures.chars().filter(of_number).collect::<String>().trim_matches('.').to_owned())
                }
                Run::Text | Run::Own => None,
            })
            .collect();
        kept.sort();
        kept
    };
    let english = sentences(&document, Language::English);
    for language in Language::ALL {
        for (own, english) in sentences(&document, language).iter().zip(&english) {
            assert_eq!(said(own), said(english), "{}", plain(own));
        }
    }
}

#[test]
fn every_verb_has_a_sentence_that_says_as_much() {
    let bare: BTreeSet<&str> =
        Verb::all().iter().filter(|verb| verb.bare.is_some()).map(|verb| verb.name.as_str()).collect();
    let all: BTreeSet<&str> = Verb::all().iter().map(|verb| verb.name.as_str()).collect();
    for language in Language::ALL.into_iter().filter(|it| *it != Language::English) {
        let [own, own_bare] = known_verbs(language);
        assert_eq!(BTreeSet::from_iter(own), all, "{}", language.tag());
        assert_eq!(BTreeSet::from_iter(own_bare), bare, "{}", language.tag());
        for verb in Verb::all() {
            for (no_objects, english) in [(false, Some(&verb.sentence)), (true, verb.bare.as_ref())] {
                let Some(english) = english else { continue };
                let own = verb_sentence(verb, no_objects, language);
                assert_eq!(slots(own), slots(english), "{}: {}", language.tag(), verb.name);
            }
        }
    }
}

/// The slots of a sentence; the place of its clauses, and whether a text is led by its colon, are the language's own.
fn slots(template: &Template) -> BTreeSet<String> {
    let all = template.pieces.iter().flat_map(|piece| piece.slots());
    all.filter(|slot| *slot != Slot::Clauses).map(|slot| format!("{slot:?}")).collect()
}

/// What is written in the sheet's own language carries no mark, and what is written in another does.
#[test]
fn the_authors_words_are_marked_where_they_are_in_another_language() {
    let document = document("remove screws\nwait until \"the hiss stops\"");
    let units = Units::default();
    let step = document.procedure().expect("a procedure").steps().last().expect("a step");
    let runs = |language, written_in| {
        let cx = Cx::of(&document, &units, language, written_in);
        let sentence = wording::action(&step.actions[0], &cx);
        let own = sentence.own();
        let runs = sentence.runs().map(|(run, text)| (run, text.to_owned())).collect::<Vec<_>>();
        (own, runs)
    };
    let (own, said) = runs(Language::German, Language::English);
    assert_eq!(own, Some("en"));
    assert_eq!(said[0], (Run::Text, "Warten, bis ".to_owned()));
    assert_eq!(said[1], (Run::Own, "the hiss stops".to_owned()));
    let (own, said) = runs(Language::German, Language::German);
    assert_eq!(own, None);
    assert_eq!(said, [(Run::Text, "Warten, bis the hiss stops.".to_owned())]);
}

/// Nouns keep the capitals of German, and no English plural is made of them.
#[test]
fn a_procedure_in_german_reads_as_german() {
    const LINES: &str = "    models: A1\n\nparts\n    schrauben \"Deckelschraube, M6 x 20\" x4\n    \
        muttern \"Mutter, M6\" x4 plural \"Muttern\"\n    deckel \"Lagerdeckel\"\n    dichtung \"Dichtung\"\n\n";
    let text = format!(
        "procedure FW-TST-002 \"Dichtung erneuern\"\n{LINES}remove schrauben, muttern, deckel\n\
         install new dichtung until \"die Dichtung anliegt\"\nturn deckel until fest\n"
    );
    let source = SourceFile::new(FileId(0), "try.cotter", text);
    let document = super::resolved(&source, &Catalogues::default());
    assert!(document.slips.is_empty(), "{:#?}", document.slips);
    let units = Units::default();
    let said = |language| {
        let cx = Cx::of(&document, &units, language, Language::German);
        let steps = document.procedure().expect("a procedure").steps();
        steps.map(|step| plain(&wording::step(step, &cx))).collect::<Vec<_>>()
    };
    assert_eq!(
        said(Language::German),
        [
            "4 × Deckelschraube, 4 Muttern und Lagerdeckel abnehmen.",
            "Dichtung (Neuteil) einbauen, bis die Dichtung anliegt.",
            "Lagerdeckel drehen, bis fest."
        ]
    );
    assert_eq!(said(Language::French)[0], "Déposer 4 × Deckelschraube, 4 Muttern et Lagerdeckel.");
}
