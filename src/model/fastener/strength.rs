//! Strength of fasteners by property class or grade, in MPa.
//!
//! ISO 898-1:2013 tables 3, 5 and 6; SAE J429; ISO 3506-1 (values from memory, proof strengths of ISO 898-1 and J429
//! checked against published proof loads). A nut's class of ISO 898-2 is that of the bolt it goes with.
use super::thread::Thread;
use crate::model::declarations::StrengthSystem;

/// What a fastener's material bears, in MPa.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strength {
    /// No permanent set up to here.
    pub proof: f64,
    /// ReL, Rp0.2 or Rpf.
    pub limit: f64,
    pub ultimate: f64,
}

/// A class or grade nobody lists, and those nearest to it (`class 8.8`).
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoStrength {
    pub why: Why,
    pub near: Vec<String>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Why {
    Unknown,
    /// Not made in that diameter.
    Size,
    /// `grade 8.8`, `class 8` on an inch thread, `grade 5` on a metric one: the other word is meant.
    Word,
}

/// Name, diameters it covers (over the first, to the second; mm), and proof, yield and ultimate strength.
type Row = (&'static str, f64, f64, [f64; 3]);

/// Past the last diameter of a table.
const ANY: f64 = f64::INFINITY;

#[rustfmt::skip]
static CLASSES: &[Row] = &[
    ("4.6", 0.0, ANY, [225.0, 240.0, 400.0]),
    ("4.8", 0.0, ANY, [310.0, 340.0, 420.0]),
    ("5.6", 0.0, ANY, [280.0, 300.0, 500.0]),
    ("5.8", 0.0, ANY, [380.0, 420.0, 520.0]),
    ("6.8", 0.0, ANY, [440.0, 480.0, 600.0]),
    ("8.8", 0.0, 16.0, [580.0, 640.0, 800.0]),
    ("8.8", 16.0, ANY, [600.0, 660.0, 830.0]),
    ("9.8", 0.0, 16.0, [650.0, 720.0, 900.0]),
    ("10.9", 0.0, ANY, [830.0, 940.0, 1040.0]),
    ("12.9", 0.0, ANY, [970.0, 1100.0, 1220.0]),
    // Nuts, ISO 898-2.
    ("4", 0.0, ANY, [310.0, 340.0, 420.0]),
    ("5", 0.0, ANY, [380.0, 420.0, 520.0]),
    ("6", 0.0, ANY, [440.0, 480.0, 600.0]),
    ("8", 0.0, 16.0, [580.0, 640.0, 800.0]),
    ("8", 16.0, ANY, [600.0, 660.0, 830.0]),
    ("9", 0.0, 16.0, [650.0, 720.0, 900.0]),
    ("10", 0.0, ANY, [830.0, 940.0, 1040.0]),
    ("12", 0.0, ANY, [970.0, 1100.0, 1220.0]),
    // Stainless has no proof strength of its own in ISO 3506-1: its Rp0.2 stands for both.
    ("A2-50", 0.0, ANY, [210.0, 210.0, 500.0]),
    ("A4-50", 0.0, ANY, [210.0, 210.0, 500.0]),
    ("A2-70", 0.0, ANY, [450.0, 450.0, 700.0]),
    ("A4-70", 0.0, ANY, [450.0, 450.0, 700.0]),
    ("A2-80", 0.0, ANY, [600.0, 600.0, 800.0]),
    ("A4-80", 0.0, ANY, [600.0, 600.0, 800.0]),
];

/// Inches in mm, as the table of J429 is split.
const THREE_QUARTERS: f64 = 19.05;
const ONE: f64 = 25.4;

/// In ksi, as J429 has them.
#[rustfmt::skip]
static GRADES: &[Row] = &[
    ("1", 0.0, ANY, [33.0, 36.0, 60.0]),
    ("2", 0.0, THREE_QUARTERS, [55.0, 57.0, 74.0]),
    ("2", THREE_QUARTERS, ANY, [33.0, 36.0, 60.0]),
    ("4", 0.0, ANY, [65.0, 100.0, 115.0]),
    ("5", 0.0, ONE, [85.0, 92.0, 120.0]),
    ("5", ONE, ANY, [74.0, 81.0, 105.0]),
    ("5.2", 0.0, ONE, [85.0, 92.0, 120.0]),
    ("7", 0.0, ANY, [105.0, 115.0, 133.0]),
    ("8", 0.0, ANY, [120.0, 130.0, 150.0]),
    ("8.2", 0.0, ONE, [120.0, 130.0, 150.0]),
];

/// 1000 psi, by NIST SP 811.
const KSI: f64 = 6.894_757;
/// Diameters are compared a hair above, for 1 in is not quite 25.4 in binary.
const HAIR: f64 = 1e-6;

/// The strongest a shop meets: what a torque is held against where no class is stated.
pub const STRONGEST: Strength = Strength { proof: 970.0, limit: 1100.0, ultimate: 1220.0 };

/// The strength of a class or grade on that thread.
///
/// # Errors
/// Where there is none of that name, or not in that diameter.
pub fn strength(system: StrengthSystem, value: &str, thread: &Thread) -> Result<Strength, NoStrength> {
    let fits = |row: &&Row| {
        row.0.eq_ignore_ascii_case(value) && thread.diameter > row.1 && thread.diameter <= row.2 + HAIR
    };
    let (own, other) = tables(system);
    let named = |table: &[Row]| table.iter().any(|row| row.0.eq_ignore_ascii_case(value));
    let of_other_threads = thread.unified == (system == StrengthSystem::Class);
    if of_other_threads && named(own) && (named(other) || system == StrengthSystem::Grade) {
        return Err(NoStrength { why: Why::Word, near: of_those_threads(system, value) });
    }
    if let Some(row) = own.iter().find(fits) {
        let [proof, limit, ultimate] = row.3.map(|value| value * scale(system));
        return Ok(Strength { proof, limit, ultimate });
    }
    let why = match (named(own), named(other)) {
        (true, _) => Why::Size,
        (false, true) => Why::Word,
        (false, false) => Why::Unknown,
    };
    let near = match why {
        Why::Word => vec![format!("{} {value}", word(opposite(system)))],
        Why::Size | Why::Unknown => near(own, value, thread, word(system)),
    };
    Err(NoStrength { why, near })
}

fn tables(system: StrengthSystem) -> (&'static [Row], &'static [Row]) {
    match system {
        StrengthSystem::Class => (CLASSES, GRADES),
        StrengthSystem::Grade => (GRADES, CLASSES),
    }
}

fn scale(system: StrengthSystem) -> f64 {
    match system {
        StrengthSystem::Class => 1.0,
        StrengthSystem::Grade => KSI,
    }
}

/// What is bought in the other system for it (common practice, no source).
fn of_those_threads(system: StrengthSystem, value: &str) -> Vec<String> {
    let near = match (system, value) {
        (StrengthSystem::Class, _) => format!("grade {value}"),
        (StrengthSystem::Grade, "2") => "class 5.8".to_owned(),
        (StrengthSystem::Grade, "5" | "5.2") => "class 8.8".to_owned(),
        (StrengthSystem::Grade, "8" | "8.2") => "class 10.9".to_owned(),
        (StrengthSystem::Grade, _) => return Vec::new(),
    };
    vec![near]
}

fn opposite(system: StrengthSystem) -> StrengthSystem {
    match system {
        StrengthSystem::Class => StrengthSystem::Grade,
        StrengthSystem::Grade => StrengthSystem::Class,
    }
}

/// The word it is declared with.
pub fn word(system: StrengthSystem) -> &'static str {
    match system {
        StrengthSystem::Class => "class",
        StrengthSystem::Grade => "grade",
    }
}

/// Those a slip of one or two keys away, of that diameter; the strongest first where none is near.
fn near(table: &[Row], value: &str, thread: &Thread, word: &str) -> Vec<String> {
    let made = |row: &&Row| thread.diameter > row.1 && thread.diameter <= row.2 + HAIR;
    let mut all: Vec<(usize, &str)> =
        table.iter().filter(made).map(|row| (strsim::damerau_levenshtein(value, row.0), row.0)).collect();
    all.sort_by_key(|(distance, name)| (*distance, usize::MAX - name.len()));
    all.into_iter()
        .filter(|(distance, _)| *distance <= 2)
        .take(2)
        .map(|(_, name)| format!("{word} {name}"))
        .collect()
}
