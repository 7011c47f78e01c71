//! The benchmark's corpus: procedures made from a fixed seed. It is frozen, since every ratio depends on its
//! share of prose; a test holds its checksum.

/// How many files the corpus has.
pub const FILES: usize = 2_000;

/// A small fixed generator (the constants of Numerical Recipes' quick LCG), so that no library's change moves the corpus.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, below: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33) as usize) % below
    }
    fn pick<'a>(&mut self, of: &[&'a str]) -> &'a str {
        of[self.roll(of.len())]
    }
}

const PROSE: [&str; 12] = [
    "Keep the mating faces flat on the bench and turn them over only by hand.",
    "The dowel at the lower edge sets the position, so start there and work round.",
    "Wipe the bore with a lint-free cloth before the next part goes in.",
    "Light from the side shows a score that light from the front hides.",
    "A part that needs more than hand force here stands askew: take it out and look.",
    "Lay the parts out in the order in which they come off, from left to right.",
    "The oil film should be thin and even; a drop that runs is too much.",
    "Turn the shaft by hand through two full turns and feel for a tight place.",
    "Hold the housing so that its weight rests on the blocks and not on the studs.",
    "The mark on the rim must stand at the top, where the learner can see it.",
    "Compare both ends: the longer shoulder belongs on the side of the drive.",
    "Let the part cool to room temperature, because a warm part measures large.",
];

/// The steps after which nothing lies open: whole rounds of twelve, and eight to close the cover again.
const ROUND: usize = 12;
const CLOSED: usize = 8;

/// One clean procedure of 7 KB and 56 steps, three fifths of it prose.
pub fn procedure(number: usize) -> String {
    rounds(number, 4)
}

/// The same with a number of rounds of the caller's choice.
pub fn rounds(number: usize, rounds: usize) -> String {
    let mut dice = Dice(number as u64 + 1);
    let mut text = header(number);
    text.push_str(FIRE);
    let steps = rounds * ROUND + CLOSED;
    for step in 0..steps {
        if step % ROUND == 0 && step > 0 {
            text.push_str(&format!("\nsection \"Part {}\"\n\n", step / ROUND + 1));
        }
        let label = if step == rounds * ROUND { " as last-wash" } else { "" };
        text.push_str(&one_step(&mut dice, step, label));
    }
    text
}

/// Guards every step up to the last that uses the solvent.
const FIRE: &str = "
section \"Part 1\"

warning fire until last-wash
    hazard: The vapour is heavier than air and catches fire from a spark.
    harm:   Severe burns.
    avoid:  Keep flames and running motors away.
    wear:   gloves
";

pub fn header(number: usize) -> String {
    format!(
        "procedure FW-BEN-{number:05} \"Overhaul transfer unit {number}\"
    revision: A, 2026-01-15
    equipment: F40 pump
    models: F40
    source: manual \"F40, issue 7\"
    time: 90 min
    people: 1
    requires: none
    afterwards: none

parts
    screws \"Cover screw, M6 x 20\"  x4  thread M6, class 8.8, dry, torque 8 to 10 N.m crosswise
    cover \"Bearing cover\"
    gasket \"Cover gasket\" single-use
    shaft \"Pump shaft\"
    housing \"Pump housing\"

tools
    wrench \"Torque wrench S\" range 2 to 12 N.m
    caliper \"Vernier caliper\"
    brush \"Nylon brush\"

supplies
    solvent \"Degreasing solvent\" hazards H225
"
    )
}

fn one_step(dice: &mut Dice, step: usize, label: &str) -> String {
    let line = match step % ROUND {
        0 => "clean cover using solvent with brush".to_owned(),
        1 => format!("measure shaft \"seat\" {}.00 to {}.02 mm with caliper", 20 + dice.roll(9), 29),
        2 => "remove screws, cover, gasket; discard gasket".to_owned(),
        3 => "inspect shaft \"splines\"".to_owned(),
        4 => "turn shaft 2 times".to_owned(),
        5 => "install cover, new gasket on housing".to_owned(),
        6 => "install screws".to_owned(),
        7 => "tighten screws with wrench".to_owned(),
        8 => "clean shaft using solvent".to_owned(),
        9 => "inspect housing \"bore\"".to_owned(),
        10 => "clean housing".to_owned(),
        _ => format!("wait {} min", 5 + dice.roll(20)),
    };
    let mut text = format!("{line}{label}\n");
    if step % ROUND == 1 {
        text.push_str("    if outside: stop \"Scrap the shaft.\"\n");
    }
    if step % ROUND == 3 || step % ROUND == 9 {
        text.push_str("    if scored: stop \"Scrap it.\"\n");
    }
    if step % ROUND != 11 {
        text.push_str(&format!("    {}\n", dice.pick(&PROSE)));
    }
    text
}

/// FNV-1a over the whole corpus: small, stable, and enough to notice a change.
#[allow(dead_code)]
pub fn checksum() -> u64 {
    (0..FILES).fold(0xcbf2_9ce4_8422_2325, |sum, number| {
        procedure(number)
            .bytes()
            .fold(sum, |sum, byte| (sum ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3))
    })
}
