//! What sentences read like: every row of the verb table, tightening, findings, steering, and laws over all.
mod control;
mod counts;
mod findings;
mod languages;
mod laws;
mod nouns;
mod tightening;
mod verbs;

use cotter::model::catalogues::Catalogues;
use cotter::model::settings::Units;
use cotter::model::{Document, Register, Settings, Surroundings, resolve};
use cotter::sheets::wording::{self, Cx};
use cotter::source::{FileId, SourceFile};
use std::fs;
use std::path::Path;
use std::sync::Arc;

/// One thing of each kind that the sentences below speak of.
const WORKSHOP: &str = r#"procedure FW-TST-001 "Try the sentences"
    models: F40, F40S

parts
    screws    "Cover screw, M6 x 20" x4  torque 8 to 10 N.m crosswise
    cover     "Bearing cover"
    gasket    "Cover gasket"
    ring      "Retaining ring, 30 mm"
    bearing   "Drive-end bearing, 6306"
    coupling  "Coupling half"
    shaft     "Pump shaft"
    housing   "Pump housing"
    hub       "Hub"
    nut       "Castle nut"
    tie-nut   "Tie nut"              torque 6 to 8 N.m
    split-pin "Split pin"
    tab       "Tab washer"
    wire      "Locking wire"
    plug      "Drain plug"
    hose      "Drain hose"
    valve     "Suction valve"
    switch    "Main switch"
    motor     "Pump motor"
    belt      "Drive belt"
    spring    "Return spring"
    lever     "Lever"
    gauge     "Pressure gauge"
    shims     "Shim pack"
    lead      "Earth lead"
    terminal  "Cable terminal"
    lug       "Lifting lug"
    vessel    "Air receiver"
    trailer   "Trailer"
    hinge-pins "Hinge pin" x3
    bolts     "Rod bolt" x2 as first-bolt, second-bolt
    lead-plus "Exciter lead, plus"
    lead-minus "Exciter lead, minus"

tools
    wrench-s    "Torque wrench S"  range 2 to 12 N.m
    wrench-m    "Torque wrench M"  range 10 to 50 N.m
    wrench-k    "Torque wrench K"  range 10 to 50 N.m, length 360 mm
    crow-foot   "Crow-foot adapter, 24 mm"  adapter 40 mm
    press       "Arbor press"
    sleeve      "Bearing sleeve set"
    puller      "Two-leg puller"
    ring-pliers "Ring pliers"
    pliers      "Combination pliers"
    spanner     "Spanner"
    mallet      "Soft-faced mallet"
    drift       "Brass drift"
    pry-bar     "Pry bar"
    scraper     "Plastic scraper"
    brush       "Nylon brush"
    marker      "Paint marker"
    micrometer  "Micrometer"
    indicator   "Dial indicator"
    hoist       "Workshop hoist"
    sling       "Web sling"
    jack        "Trolley jack"
    stands      "Axle stand" x4  temporary
    drip-tray   "Drip tray"
    bench       "Bench"
    funnel      "Funnel"
    oil-can     "Oil can"
    packer      "Bearing packer"
    padlock     "Personal padlock"
    danger-tag  "Lockout tag"
    tester      "Voltage tester"
    test-kit    "Air test kit"
    stopper     "Stopper"
    air-gun     "Air gun"
    heater      "Induction heater"
    hacksaw     "Hacksaw"
    drill-tool  "Hand drill"
    reamer      "Hand reamer"
    thread-tap  "Hand tap"
    fine-file   "Fine file"
    grinder     "Angle grinder"
    iron        "Soldering iron"
    welder      "Arc welder"
    crimper     "Crimping tool"

supplies
    solvent  "Degreasing solvent"
    locker   "Thread locker"
    sealant  "Flange sealant"
    oil      "Clean machine oil, VG 46"
    grease   "Bearing grease"
    cloths   "Lint-free cloth"
    abrasive "Fine abrasive cloth, 400 grit"
    tin      "Soft solder"
    ties     "Cable tie" plural "cable ties"

torques
    in-passes  8 to 10 N.m in 50 % 100 %, crosswise
    by-shares  in 50 % 100 %
    hub-seat
        stage: 50 lb-ft while turning hub
        stage: loosen to finger tight
        stage: finger tight while turning hub
        stage: back off 1/8 to 1/6 turn

section "Work"

"#;

/// The workshop's procedure with these lines as its steps.
fn document(steps: &str) -> Document {
    let document = tolerant(steps);
    assert!(document.slips.is_empty(), "{steps}\n{:#?}", document.slips);
    document
}

/// The same where the lines may be at fault.
fn tolerant(steps: &str) -> Document {
    let source = SourceFile::new(FileId(0), "try.cotter", format!("{WORKSHOP}{steps}\n"));
    resolved(&source, &Catalogues::default())
}

fn resolved(source: &SourceFile, catalogues: &Catalogues) -> Document {
    let (settings, register) = (Settings::default(), Register::default());
    let around = Surroundings { settings: &settings, register: &register, catalogues };
    resolve::resolve(source, &around).document
}

/// Every procedure of the demo shop, with its catalogues.
fn demo_procedures() -> Vec<Document> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let files = crate::support::shop::sources(&root.join("procedures"));
    let sources: Vec<SourceFile> = files
        .iter()
        .map(|file| {
            let name = file.strip_prefix(root).unwrap().to_str().unwrap();
            SourceFile::new(FileId(0), name, fs::read_to_string(file).unwrap())
        })
        .collect();
    let mut catalogues = Catalogues::default();
    // Twice, since a catalogue may draw on another.
    for source in sources.iter().chain(&sources) {
        let document = resolved(source, &catalogues);
        if document.procedure().is_none() {
            catalogues.add(&*source.name, Ok(Arc::new(document)));
        }
    }
    sources.iter().map(|source| resolved(source, &catalogues)).collect()
}

/// All sentences of each step, in the author's units.
fn steps(lines: &str) -> Vec<Vec<String>> {
    let document = document(lines);
    let units = Units { single: true, ..Units::default() };
    let cx = Cx::new(&document, &units);
    let procedure = document.procedure().expect("the workshop is a procedure");
    let one = |step| wording::step(step, &cx).iter().map(wording::Sentence::plain).collect();
    procedure.steps().map(one).collect()
}

/// The sentences of the last step, joined by blanks.
#[track_caller]
fn last(lines: &str) -> String {
    steps(lines).pop().map(|sentences| sentences.join(" ")).unwrap_or_default()
}
