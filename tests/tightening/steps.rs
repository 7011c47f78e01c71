//! What each step tightens, to what, on which thread.
use cotter::model::catalogues::Catalogues;
use cotter::model::quantity::Quantity;
use cotter::model::tightening::{self, WantedKind};
use cotter::model::{Action, Document, Register, Settings, Surroundings, resolve::resolve};
use cotter::source::{FileId, SourceFile};

const PARTS: &str = "
    screws \"Cover screw\"  x4  torque 8 to 10 N.m crosswise
    nut    \"Clamp nut\"        torque 40 N.m oiled
    bolts  \"Rod bolt\"     x2 as first-bolt, second-bolt  dry, torque rod-stages
    stud   \"Stud\"
";

const TORQUES: &str = "
torques
    rod-stages
        stage: 20 N.m
        stage: 30 N.m
        stage: 90 deg

supplies
    locker \"Thread locker\"  thread-locker
    oil    \"Clean oil\"      lubricant
    fluid  \"Cleaner\"

";

pub fn document(tools: &str, steps: &str) -> Document {
    let text = format!("procedure EX-1 \"Try\"\n\nparts{PARTS}\ntools\n{tools}{TORQUES}{steps}");
    let source = SourceFile::new(FileId(0), "try.cotter", text);
    let (settings, register) = (Settings::default(), Register::default());
    let catalogues = Catalogues::default();
    let around = Surroundings { settings: &settings, register: &register, catalogues: &catalogues };
    let resolved = resolve(&source, &around);
    assert!(resolved.unread.is_empty(), "{:?}", resolved.unread);
    assert!(resolved.document.slips.is_empty(), "{:?}", resolved.document.slips);
    resolved.document
}

/// "screws 8–10 N·m", fastener by fastener: the torque in the end, and what is on the thread.
fn tightened(steps: &str) -> Vec<String> {
    let document = document("    wrench \"Torque wrench\" range 2 to 50 N.m\n", steps);
    let procedure = document.procedure().expect("a procedure");
    let works = procedure.steps().flat_map(|step| &step.actions).filter_map(Action::work);
    let found = tightening::of(works, &document.declarations);
    found
        .iter()
        .map(|it| {
            let fastener = it.fastener.expect("a part");
            let name = fastener.piece.unwrap_or(&fastener.part.thing.name);
            let end = it.end().map(Quantity::print).unwrap_or_default();
            let stated = it.stated.map(|it| format!(" {:?}", it.value)).unwrap_or_default();
            let applied =
                it.applied.map(|it| if it.is_locker { " locker" } else { " oil" }).unwrap_or_default();
            format!("{} × {} {end}{stated}{applied}", it.count(), name.value)
        })
        .collect()
}

#[test]
fn each_part_has_its_own_torque() {
    assert_eq!(
        tightened("tighten screws, nut with wrench\n"),
        ["4 × screws 8–10 N·m", "1 × nut 40 N·m Oiled"]
    );
    assert_eq!(
        tightened("tighten nut, screws crosswise with wrench\n"),
        ["1 × nut 40 N·m Oiled", "4 × screws 8–10 N·m"]
    );
    assert_eq!(tightened("tighten screws, nut 12 N.m\n"), ["4 × screws 12 N·m", "1 × nut 12 N·m"]);
    // Of a part without a torque nothing can be said.
    assert_eq!(tightened("tighten screws, stud\n"), ["4 × screws 8–10 N·m"]);
    assert_eq!(tightened("tighten 2 of screws\n"), ["2 × screws 8–10 N·m"]);
}

#[test]
fn exceptions_are_for_their_piece() {
    let all = ["2 × bolts 30 N·m Dry", "1 × second-bolt 33 N·m Dry"];
    assert_eq!(tightened("tighten bolts except stage 2 33 N.m on second-bolt\n"), all);
    assert_eq!(tightened("tighten bolts except stage 2 33 N.m\n"), ["2 × bolts 33 N·m Dry"]);
    assert_eq!(tightened("tighten second-bolt\n"), ["1 × second-bolt 30 N·m Dry"]);
}

#[test]
fn what_was_put_on_a_thread_stays_until_it_is_cleaned() {
    let steps = "apply locker to screws\ntighten screws\nclean screws using fluid\ntighten screws\n\
                 lubricate nut using oil\ntighten nut\ninstall screws using locker\ntighten screws\n";
    let found = [
        "4 × screws 8–10 N·m locker",
        "4 × screws 8–10 N·m",
        "1 × nut 40 N·m Oiled oil",
        "4 × screws 8–10 N·m locker",
    ];
    assert_eq!(tightened(steps), found);
}

#[test]
fn every_torque_on_the_way_wants_a_wrench() {
    let document = document(
        "    wrench \"Torque wrench\" range 2 to 50 N.m\n",
        "tighten screws in 50 % 100 % with wrench\n\
        tighten bolts with wrench\ntighten nut must not turn below 30 N.m\ntighten nut new 30 N.m, reused 25 N.m\n",
    );
    let procedure = document.procedure().expect("a procedure");
    let works = procedure.steps().flat_map(|step| &step.actions).filter_map(Action::work);
    let wanted: Vec<(WantedKind, String)> = tightening::of(works, &document.declarations)
        .iter()
        .flat_map(|it| it.wanted())
        .map(|wanted| (wanted.kind, wanted.value.print()))
        .collect();
    let expected = [
        (WantedKind::Pass(0), "4–5 N·m"),
        (WantedKind::End, "8–10 N·m"),
        (WantedKind::Pass(0), "20 N·m"),
        (WantedKind::End, "30 N·m"),
        (WantedKind::Check, "30 N·m"),
        (WantedKind::New, "30 N·m"),
        (WantedKind::Reused, "25 N·m"),
    ];
    assert_eq!(wanted, expected.map(|(kind, value)| (kind, value.to_owned())));
}
