//! Resolving: what a line means, what is in force, and that one mistake gives one slip.
use cotter::model::action::{Action, PlaceTarget, TorqueSource, Work};
use cotter::model::catalogues::{Catalogues, join};
use cotter::model::message::Scope;
use cotter::model::prose::Target;
use cotter::model::quantity::{Dimension, Unit};
use cotter::model::register::Entry;
use cotter::model::slip::Slip;
use cotter::model::step::When;
use cotter::model::torque::{AlignWay, PassTarget, Pattern};
use cotter::model::{Document, Name, Register, Settings, Step, Surroundings, resolve::resolve};
use cotter::source::{FileId, SourceFile};
use std::sync::Arc;

const HEAD: &str = "procedure EX-1 \"Try\"\n    models: F40, F40S\n";

/// A shop with one catalogue, `shop/common.cotter`, and one other procedure, `EX-2`.
struct Shop {
    settings: Settings,
    register: Register,
    catalogues: Catalogues,
}

impl Shop {
    fn new(catalogue: &str) -> Shop {
        let mut register = Register::default();
        for (number, file) in [("EX-1", "ex-1.cotter"), ("EX-2", "ex-2.cotter")] {
            register.add(
                number,
                Entry {
                    title: format!("Title of {number}"),
                    file: file.to_owned(),
                    leaves: String::new(),
                    afterwards: None,
                },
            );
        }
        let mut shop = Shop { settings: Settings::default(), register, catalogues: Catalogues::default() };
        let document = shop.read(1, "shop/common.cotter", &format!("catalogue \"Common\"\n{catalogue}"));
        shop.catalogues.add("shop/common.cotter", Ok(Arc::new(document)));
        shop
    }

    fn read(&self, id: u32, name: &str, text: &str) -> Document {
        let source = SourceFile::new(FileId(id), name, text);
        let Shop { settings, register, catalogues } = self;
        resolve(&source, &Surroundings { settings, register, catalogues }).document
    }

    fn procedure(&self, body: &str) -> Document {
        self.read(0, "ex-1.cotter", &format!("{HEAD}{body}"))
    }
}

fn read(body: &str) -> Document {
    Shop::new("").procedure(body)
}

/// Resolved without a slip.
fn clean(body: &str) -> Document {
    let document = read(body);
    assert_eq!(document.slips, [], "{body}");
    document
}

fn step(document: &Document, number: u32) -> &Step {
    document.procedure().and_then(|procedure| procedure.step(number)).expect("the step is there")
}

fn work(document: &Document, number: u32) -> &Work {
    step(document, number).actions.iter().find_map(Action::work).expect("the step has work")
}

/// The one slip of a body.
fn only_slip(body: &str) -> Slip {
    let document = read(body);
    match document.slips.as_slice() {
        [one] => one.clone(),
        other => panic!("not one slip but {other:#?}\n{body}"),
    }
}

const PARTS: &str = "
parts
    bolts \"Head bolt\" x2 as first-bolt, second-bolt  torque 20 to 25 N.m crosswise
    drum  \"Drum\"
tools
    wrench \"Torque wrench\"  range 10 to 100 N.m
supplies
    oil \"Oil\"  lubricant
torques
    list 30 N.m then 90 deg, clockwise

";

fn with_parts(body: &str) -> String {
    format!("{PARTS}{body}")
}

#[test]
fn with_and_using_are_sorted_by_what_the_name_is() {
    let document = clean(&with_parts("clean drum with oil using wrench\ninspect drum \"cracks\"\n"));
    let work = work(&document, 1);
    assert_eq!(work.tools.first().and_then(|tool| tool.name), Some(Name::Tool(0)));
    assert_eq!(work.supplies.first().and_then(|supply| supply.name), Some(Name::Supply(0)));
}

#[test]
fn a_piece_means_its_part_and_keeps_its_name() {
    let document = clean(&with_parts("remove first-bolt from drum\n"));
    let object = &work(&document, 1).objects[0];
    assert_eq!((object.name, object.word.as_str()), (Some(Name::Part(0)), "first-bolt"));
    assert_eq!(document.declarations.parts[0].thing.times_used, 1);
}

#[test]
fn a_particle_makes_another_verb_or_leads_a_place() {
    let document = clean(&with_parts("lock out drum\ninstall on drum bolts\n"));
    assert_eq!(work(&document, 1).verb.name, "lock out");
    let installed = work(&document, 2);
    assert_eq!(installed.verb.name, "install");
    assert!(matches!(&installed.places[0].what, PlaceTarget::Objects(on) if on[0].word.value == "drum"));
    assert_eq!(installed.objects[0].word.value, "bolts");
}

#[test]
fn the_house_has_its_own_words_for_verbs() {
    let mut shop = Shop::new("");
    shop.settings.verbs.insert("nip-up".to_owned(), "tighten".to_owned());
    let document = shop.procedure(&with_parts("nip-up bolts with wrench\nnip up bolts with wrench\n"));
    assert_eq!(document.slips, []);
    assert_eq!(work(&document, 1).verb.name, "tighten");
    assert_eq!(work(&document, 2).verb.name, "tighten");
}

#[test]
fn the_step_rules_over_the_list_and_the_list_over_the_part() {
    let source = |line: &str| {
        let document = clean(&with_parts(&format!("tighten bolts {line} with wrench\n")));
        let work = work(&document, 1);
        (work.torque_source, work.torque.clone().expect("a torque is in force"))
    };
    let (from, part) = source("");
    assert_eq!(from, TorqueSource::Part(0));
    assert_eq!(part.value.as_ref().map(|value| value.print()).as_deref(), Some("20–25 N·m"));
    let (from, list) = source("by list");
    assert_eq!(from, TorqueSource::Named(0));
    assert!(matches!(list.passes.last().map(|pass| &pass.target), Some(PassTarget::Angle(_))));
    for own in ["to 40 N.m", "40 N.m"] {
        let (from, own) = source(own);
        assert_eq!(from, TorqueSource::Step);
        assert_eq!(own.value.as_ref().map(|value| value.print()).as_deref(), Some("40 N·m"));
        assert_eq!(own.pattern.map(|pattern| pattern.value), Some(Pattern::Crosswise), "the part's stays");
    }
}

#[test]
fn a_step_that_gives_no_value_keeps_the_parts() {
    let torque = |line: &str| {
        let document = clean(&with_parts(&format!("tighten bolts {line} with wrench\n")));
        (work(&document, 1).torque_source, work(&document, 1).torque.clone().expect("a torque is in force"))
    };
    let (from, halves) = torque("in 50 % 100 %");
    assert_eq!(from, TorqueSource::Part(0));
    assert_eq!(halves.value.map(|value| value.print()).as_deref(), Some("20–25 N·m"));
    assert!(halves.passes.iter().all(|pass| matches!(pass.target, PassTarget::Percent(_))));
    assert_eq!(halves.passes.len(), 2);
    let (_, more) = torque("then 90 deg");
    assert!(matches!(
        more.passes.iter().map(|pass| &pass.target).collect::<Vec<_>>().as_slice(),
        [PassTarget::Torque(_), PassTarget::Angle(_)]
    ));
    let (_, aligned) = torque("align slot by loosening");
    assert_eq!(aligned.align.map(|align| align.way), Some(AlignWay::Loosening));
    assert!(aligned.value.is_some());
}

#[test]
fn stages_of_a_step_are_its_torque() {
    let document = clean(&with_parts("tighten bolts with wrench\n    stage: 20 N.m\n    stage: 90 deg\n"));
    let torque = work(&document, 1).torque.as_ref().expect("a torque is in force");
    assert_eq!((torque.passes.len(), work(&document, 1).torque_source), (2, TorqueSource::Step));
}

#[test]
fn verbs_that_find_out_take_what_before_a_sentence() {
    let document = clean(&with_parts("inspect drum \"cracks\" \"Look.\"\nremove drum \"Lift it.\"\n"));
    let (inspect, remove) = (work(&document, 1), work(&document, 2));
    assert_eq!(inspect.what.as_ref().map(|text| text.as_str()), Some("cracks"));
    assert_eq!(inspect.sentence.as_ref().map(|text| text.as_str()), Some("Look."));
    assert_eq!(remove.what, None);
    assert_eq!(remove.sentence.as_ref().map(|text| text.as_str()), Some("Lift it."));
}

#[test]
fn hold_is_a_signature_unless_its_object_is_declared() {
    let document = clean(&with_parts("hold instructor \"All on.\"\nhold drum\n"));
    assert!(matches!(&step(&document, 1).actions[0], Action::Hold(hold) if hold.role.value == "instructor"));
    assert_eq!(work(&document, 2).verb.name, "hold");
}

#[test]
fn labels_lead_to_steps_from_everywhere() {
    let document = clean(&with_parts(
        "warning cutting until last\n    hazard: Edges.\n    harm: Cuts.\n    avoid: See [last].\ninspect drum \"cracks\" as look\n    if cracked, not ok: repeat from look, at most 2 times\ncheck \"make sure of it\" as last\n    only: look failed, F40\n",
    ));
    let first = step(&document, 1);
    assert!(matches!(first.messages[0].scope, Scope::Until { step: Some(2), .. }));
    let avoid = first.messages[0].avoid.as_ref().expect("it says how to avoid it");
    assert_eq!(avoid.target("last"), Some(Target::Step(2)));
    let outcome = &first.outcomes[0];
    assert_eq!(outcome.when[0].value, When::Found("cracked".into()));
    assert_eq!(outcome.when[1].value, When::NotOk);
    assert!(matches!(&outcome.then[0], Action::Repeat(repeat) if repeat.from.step == Some(1)));
    let second = step(&document, 2);
    assert_eq!((second.conditions[0].step, second.conditions[0].state.as_str()), (Some(1), "failed"));
    assert_eq!(second.applies.models[0].value, "F40");
}

#[test]
fn a_message_guards_the_next_step_of_its_section_only() {
    let message = "warning cutting\n    hazard: Edges.\n    harm: Cuts.\n    avoid: Take care.\n";
    let document = clean(&with_parts(&format!(
        "section \"A\"\n{message}remove drum\n{message}section \"B\"\ninstall drum\n"
    )));
    let sections = &document.procedure().expect("a procedure").sections;
    assert_eq!(sections[0].steps[0].messages.len(), 1);
    assert_eq!(sections[0].stranded.len(), 1);
    assert_eq!(sections[1].steps[0].messages.len(), 0);
}

#[test]
fn messages_under_a_step_are_late_and_nothing_else() {
    for late in [
        "    warning ejection\n        hazard: It flies off.\n        harm: Eye injury.\n",
        "    Lift it.\n    warning ejection\n        hazard: It flies off.\n        harm: Eye injury.\n",
        "    Lift it.\n    WARNING: it flies off.\n",
    ] {
        let document = clean(&with_parts(&format!("remove drum\n{late}")));
        let found = &step(&document, 1).late_messages;
        assert_eq!(found.len(), 1, "{late}");
        assert_eq!(found[0].word.value.to_lowercase(), "warning", "{late}");
    }
    let calm = clean(&with_parts("remove drum\n    Look at the danger sign: it stays.\n"));
    assert_eq!(step(&calm, 1).late_messages, []);
}

#[test]
fn a_result_is_known_wherever_it_is_worked_out() {
    let measured = "measure drum \"length\" 20 mm with wrench as length\n";
    for step in [
        "inspect drum \"cracks\"; calculate rest = length - 1 mm\n",
        "inspect drum \"cracks\"\n    if cracked: calculate rest = length - 1 mm\n",
    ] {
        clean(&with_parts(&format!("{measured}{step}calculate double = rest * 2\n")));
        let twice = format!("{measured}{step}{step}");
        assert!(matches!(only_slip(&with_parts(&twice)), Slip::DuplicateName { .. }), "{step}");
    }
}

#[test]
fn a_step_above_the_head_is_misplaced_whatever_stands_above_it() {
    for above in ["", "\n", "# a comment\n\n"] {
        let text = format!("{above}stop \"Too early.\"\n{HEAD}{PARTS}");
        let document = Shop::new("").read(0, "ex-1.cotter", &text);
        let misplaced = |slip: &Slip| matches!(slip, Slip::UnusableStatement { .. });
        assert_eq!(document.slips.iter().filter(|slip| misplaced(slip)).count(), 1, "{text}");
    }
}

#[test]
fn a_lone_due_takes_no_number() {
    let document = clean(&with_parts("remove drum\ndue \"after 10 h\" \"Look again.\"\ninstall drum\n"));
    assert_eq!(step(&document, 2).actions.len(), 1);
    assert_eq!(step(&document, 1).dues.len(), 1);
    assert_eq!(document.procedure().expect("a procedure").dues.len(), 1);
}

#[test]
fn only_what_is_used_of_a_catalogue_is_taken() {
    let shop = Shop::new(
        "parts\n    cup \"Cup\"\n    cone \"Cone\"  set-with cup\n    spare \"Spare\"\nwarning fire as hot-work\n    hazard: Sparks.\n    harm: Burns.\n    avoid: Keep [cone] away.\n",
    );
    let document = shop.procedure("use \"shop/common.cotter\"\n\nwarning hot-work\nremove cone\n");
    assert_eq!(document.slips, []);
    let names: Vec<&str> = document.declarations.parts.iter().map(|part| part.thing.name.as_str()).collect();
    assert_eq!(names, ["cone", "cup"]);
    let cone = &document.declarations.parts[0];
    assert!(cone.thing.from_catalogue);
    assert_eq!(cone.set_with[0].value, Name::Part(1), "it leads to the copy");
    let message = &step(&document, 1).messages[0];
    assert_eq!(message.hazard.map(|hazard| hazard.value.name.as_str()), Some("fire"));
    let avoid = message.avoid.as_ref().expect("the standing message's words are here");
    assert_eq!(avoid.target("cone"), Some(Target::Thing(Name::Part(0))));
}

#[test]
fn a_long_chain_of_catalogue_parts_costs_no_stack() {
    let mut catalogue = String::from("parts\n");
    for n in 0..4_000 {
        catalogue.push_str(&format!("    p{n} \"Part {n}\"  holds p{}\n", n + 1));
    }
    catalogue.push_str("    p4000 \"Last\"\n");
    let shop = Shop::new(&catalogue);
    let document = shop.procedure("use \"shop/common.cotter\"\n\nremove p0\n");
    assert_eq!(document.declarations.parts.len(), 4_001);
}

#[test]
fn a_path_stays_in_the_workspace() {
    assert_eq!(join("pump/a.cotter", "../shop/common.cotter").as_deref(), Ok("shop/common.cotter"));
    assert_eq!(join("a.cotter", "./shop//x.cotter").as_deref(), Ok("shop/x.cotter"));
    for bad in ["../../x.cotter", "/etc/x.cotter", "c:/x.cotter", "..\\x.cotter", "", "..", "https://x/y"] {
        assert!(join("pump/a.cotter", bad).is_err(), "{bad}");
    }
}

/// A shop of ten thousand: few of them are looked at, and the one that was meant is among them.
#[test]
fn a_misspelt_number_finds_its_procedure_in_a_large_shop() {
    let mut shop = Shop::new("");
    for number in 0..10_000 {
        let kind = ["PMP", "GBX", "TRL", "GEN", "CMP"][number % 5];
        let entry = Entry {
            title: "T".to_owned(),
            file: format!("{number}.cotter"),
            leaves: String::new(),
            afterwards: None,
        };
        shop.register.add(&format!("FW-{kind}-{:04}", number / 5), entry);
    }
    for wrong in ["FV-PMP-0014", "FW-PNP-0014", "FW-PMP-014", "fw-pmp-0014", "FWPMP-0014", "FW-PMP-0014A"] {
        let looked_at = shop.register.like(wrong).count();
        assert!(looked_at <= 256, "{wrong}: {looked_at}");
        let slips = shop.procedure(&format!("follow {wrong}\n")).slips;
        let near = slips.iter().find_map(|slip| match slip {
            Slip::UnknownProcedure { near, .. } => Some(near.clone()),
            _ => None,
        });
        let near = near.unwrap_or_else(|| panic!("{wrong}: {slips:?}"));
        assert!(near.contains(&"FW-PMP-0014".to_owned()), "{wrong}: {near:?}");
    }
}

#[test]
fn other_procedures_have_their_titles() {
    let document = clean(&with_parts("follow EX-2\nfollow \"the maker's leaflet\"\n"));
    let Action::Follow(follow) = &step(&document, 1).actions[0] else { panic!("no follow") };
    let call = &follow.call;
    assert_eq!(call.title.as_deref(), Some("Title of EX-2"));
    assert!(matches!(
        only_slip("follow EX-3\n"),
        Slip::UnknownProcedure { near, .. } if near == ["EX-2"]
    ));
}

#[test]
fn sums_add_like_to_like() {
    let readings = "measure drum \"a\" max 3 mm as a\nmeasure drum \"b\" max 3 bar as b\n";
    let slip = |line: &str| only_slip(&with_parts(&format!("{readings}{line}\n")));
    clean(&with_parts(&format!("{readings}calculate c = (a + 2 mm) / 2 - 0.5 mm, 1 to 2 mm\n")));
    assert!(matches!(slip("calculate c = a + b"), Slip::WrongDimension { found: Dimension::Pressure, .. }));
    assert!(matches!(slip("calculate c = a - 3"), Slip::MissingUnit { .. }));
    assert!(matches!(slip("calculate c = a, 1 to 2 bar"), Slip::WrongDimension { .. }));
    assert!(
        matches!(slip("calculate c = a - x"), Slip::DanglingReference { label, .. } if label.value == "x")
    );
}

#[test]
fn a_calculation_of_many_terms_costs_no_stack() {
    for terms in [50, 99, 150, 2_000] {
        let document = read(&format!("calculate c = 1 mm{}\n", " + 1 mm".repeat(terms)));
        assert!(document.slips.len() <= 1, "{terms} terms make {} slips", document.slips.len());
    }
}

/// One mistake, one slip.
#[test]
fn each_mistake_is_one_slip() {
    type Test = fn(&Slip) -> bool;
    let cases: [(&str, Test); 26] = [
        ("remove dram\n", |s| matches!(s, Slip::UndeclaredName { near, .. } if near == &["drum"])),
        ("remove list\n", |s| matches!(s, Slip::UndeclaredName { .. })),
        (
            "remove drum with hammer\n",
            |s| matches!(s, Slip::UndeclaredName { expected, .. } if expected.contains("tool")),
        ),
        ("remove drum\n    Lay [dram] down.\n", |s| matches!(s, Slip::DanglingReference { .. })),
        ("remove drum \"Lay [dram] down.\"\n", |s| matches!(s, Slip::DanglingReference { .. })),
        ("tighten bolts by lost with wrench\n", |s| matches!(s, Slip::DanglingReference { .. })),
        ("skip to nowhere\n", |s| matches!(s, Slip::DanglingReference { .. })),
        ("skip drum\n", |s| matches!(s, Slip::MissingRole { .. })),
        ("remove drum\n    figure: fig-9\n", |s| matches!(s, Slip::DanglingReference { .. })),
        ("remove drum as drum\n", |s| matches!(s, Slip::DuplicateName { .. })),
        (
            "remov drum\n",
            |s| matches!(s, Slip::UnknownVerb { near, .. } if near.contains(&"remove".to_owned())),
        ),
        ("replace dram\n", |s| matches!(s, Slip::ReplaceIsAmbiguous { .. })),
        ("remove drum\n    becaus: It must.\n", |s| matches!(s, Slip::UnknownDetail { .. })),
        ("remove drum\n    harm: Eye injury.\n", |s| matches!(s, Slip::MisplacedDetail { .. })),
        ("remove drum\n    stage: 20 N.m\n", |s| matches!(s, Slip::MisplacedDetail { .. })),
        ("remove drum\n    answer: Yes.\n", |s| matches!(s, Slip::MisplacedDetail { .. })),
        ("remove drum\n    only: F41\n", |s| matches!(s, Slip::UnknownModel { .. })),
        ("remove\n", |s| matches!(s, Slip::MissingRole { .. })),
        ("wait 5 mm\n", |s| matches!(s, Slip::WrongDimension { .. })),
        ("wait 5\n", |s| matches!(s, Slip::MissingUnit { likely, .. } if likely.contains(&"min".to_owned()))),
        ("wait 5 minits\n", |s| matches!(s, Slip::UnknownUnit { .. })),
        ("measure drum \"wear\" 5 to 4 mm\n", |s| matches!(s, Slip::EmptyRange { .. })),
        ("tighten bolts 8 to 13 lb-ft (1.1 to 1.8 N.m) with wrench\n", |s| {
            matches!(s, Slip::UnitsDisagree { .. })
        }),
        ("remove drum\n    Use <b>force</b>.\n", |s| matches!(s, Slip::RefusedMarkup { .. })),
        (
            "warning ejecton\n    hazard: It flies.\n    harm: Eyes.\n    avoid: Duck.\nremove drum\n",
            |s| matches!(s, Slip::UnknownHazard { near, .. } if near == &["ejection"]),
        ),
        ("use \"none.cotter\"\nremove what-it-holds\n", |s| matches!(s, Slip::UnusableCatalogue { .. })),
    ];
    for (body, expected) in cases {
        let slip = only_slip(&with_parts(body));
        assert!(expected(&slip), "{body}{slip:#?}");
    }
}

/// Only units of what is wanted: a torque is never asked for in millimetres.
#[test]
fn a_bare_number_is_offered_the_units_that_fit() {
    let bound: [(&str, &[Dimension]); 4] = [
        ("tighten bolts 9 with wrench\n", &[Dimension::Torque]),
        ("tighten bolts 9 N.m then 90 with wrench\n", &[Dimension::Angle]),
        ("tighten bolts 9 N.m align slot by tightening, not above 20 with wrench\n", &[Dimension::Torque]),
        ("wait 5\n", &[Dimension::Time]),
    ];
    for (body, wanted) in bound {
        let Slip::MissingUnit { likely, .. } = only_slip(&with_parts(body)) else { panic!("{body}") };
        let dimensions: Vec<_> = likely.iter().map(|unit| Unit::find(unit).unwrap().dimension).collect();
        assert!(
            !dimensions.is_empty() && dimensions.iter().all(|it| wanted.contains(it)),
            "{body}{likely:?}"
        );
    }
}

#[test]
fn mistakes_of_declarations_are_one_slip_each() {
    type Test = fn(&Slip) -> bool;
    let cases: [(&str, Test); 8] = [
        ("sprung", |s| matches!(s, Slip::UnknownAttribute { .. })),
        ("length 3 mm", |s| matches!(s, Slip::UnknownAttribute { on: "part", .. })),
        ("hot 50 mm", |s| matches!(s, Slip::WrongDimension { .. })),
        ("mass 3", |s| matches!(s, Slip::MissingUnit { .. })),
        ("holds nothing-known", |s| matches!(s, Slip::UndeclaredName { .. })),
        ("models F41", |s| matches!(s, Slip::UnknownModel { .. })),
        ("contains 3 L", |s| matches!(s, Slip::MalformedAttribute { .. })),
        ("callout 3 on fig-9", |s| matches!(s, Slip::DanglingReference { .. })),
    ];
    for (attribute, expected) in cases {
        // A faulty declaration still declares its name.
        let slip = only_slip(&format!("parts\n    gear \"Gear\"  {attribute}\n\nremove gear\n"));
        assert!(expected(&slip), "{attribute}: {slip:#?}");
    }
}

#[test]
fn a_line_that_cannot_be_read_makes_no_slips() {
    for body in [
        // A declaration, the steps that use it, and what it alone uses.
        "parts\n    gear \"Gear\" x4 x5 ) as one, two  holds drum\n    drum \"Drum\"\n\nremove gear, one, two\n",
        // A step whose label others need.
        "parts\n    drum \"Drum\"\n\nremove drum ) as off\nskip to off\n",
    ] {
        let document = read(body);
        assert_eq!(document.slips, [], "{body}");
        assert!(document.declarations.parts.iter().all(|part| part.thing.times_used > 0), "{body}");
    }
}

#[test]
fn slips_come_in_source_order() {
    let document = read("parts\n    gear \"Gear\"  sprung\n\nremove geer\nwait 5\ngo gear\n");
    let places: Vec<u32> = document.slips.iter().map(|slip| slip.span().start).collect();
    assert_eq!(places.len(), 4);
    assert!(places.is_sorted());
}
