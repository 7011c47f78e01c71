//! Screw threads by their designation: nominal diameter, pitch, and the area that bears tension.
//!
//! Metric sizes and pitches are those of ISO 261, unified ones those of ASME B1.1 (both from memory). The tables hold
//! what a designation may leave out; areas are worked out.

/// A screw thread, in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Thread {
    pub diameter: f64,
    pub pitch: f64,
    /// Inch thread, not metric.
    pub unified: bool,
}

impl Thread {
    /// Tensile stress area in mm². Metric: ISO 898-1, 9.1.6.1, `π/4·((d₂ + d₃)/2)²` with the d₂ and d₃ of ISO 68-1;
    /// unified: ASME B1.1, `π/4·(D − 0.9743/n)²`.
    pub fn stress_area(&self) -> f64 {
        let less = if self.unified { 0.9743 } else { 0.938_194 };
        std::f64::consts::FRAC_PI_4 * (self.diameter - less * self.pitch).powi(2)
    }

    pub fn inches(&self) -> f64 {
        self.diameter / INCH
    }
}

/// Why a designation names no thread, and the ones nearest to it in full.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoThread {
    pub why: Why,
    pub near: Vec<String>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Why {
    /// `M13`, `#9-24`
    Size,
    /// `M10x1.4`, `1/4-22`
    Pitch,
    /// `1/4-20 UNF`
    Series,
}

const INCH: f64 = 25.4;

/// Nominal diameter, coarse pitch (0: none), fine pitches, in mm.
type Metric = (f64, f64, &'static [f64]);

#[rustfmt::skip]
static METRIC: &[Metric] = &[
    (1.6, 0.35, &[0.2]), (1.8, 0.35, &[0.2]), (2.0, 0.4, &[0.25]), (2.2, 0.45, &[0.25]), (2.5, 0.45, &[0.35]),
    (3.0, 0.5, &[0.35]), (3.5, 0.6, &[0.35]), (4.0, 0.7, &[0.5]), (4.5, 0.75, &[0.5]), (5.0, 0.8, &[0.5]),
    (6.0, 1.0, &[0.75]), (7.0, 1.0, &[0.75]), (8.0, 1.25, &[1.0, 0.75]), (9.0, 1.25, &[1.0, 0.75]),
    (10.0, 1.5, &[1.25, 1.0, 0.75]), (11.0, 1.5, &[1.0, 0.75]), (12.0, 1.75, &[1.5, 1.25, 1.0]),
    (14.0, 2.0, &[1.5, 1.25, 1.0]), (15.0, 0.0, &[1.5, 1.0]), (16.0, 2.0, &[1.5, 1.0]), (17.0, 0.0, &[1.5, 1.0]),
    (18.0, 2.5, &[2.0, 1.5, 1.0]), (20.0, 2.5, &[2.0, 1.5, 1.0]), (22.0, 2.5, &[2.0, 1.5, 1.0]),
    (24.0, 3.0, &[2.0, 1.5, 1.0]), (25.0, 0.0, &[2.0, 1.5, 1.0]), (26.0, 0.0, &[1.5]),
    (27.0, 3.0, &[2.0, 1.5, 1.0]), (28.0, 0.0, &[2.0, 1.5, 1.0]), (30.0, 3.5, &[3.0, 2.0, 1.5, 1.0]),
    (32.0, 0.0, &[2.0, 1.5]), (33.0, 3.5, &[3.0, 2.0, 1.5]), (35.0, 0.0, &[1.5]), (36.0, 4.0, &[3.0, 2.0, 1.5]),
    (38.0, 0.0, &[1.5]), (39.0, 4.0, &[3.0, 2.0, 1.5]), (40.0, 0.0, &[3.0, 2.0, 1.5]),
    (42.0, 4.5, &[4.0, 3.0, 2.0, 1.5]), (45.0, 4.5, &[4.0, 3.0, 2.0, 1.5]), (48.0, 5.0, &[4.0, 3.0, 2.0, 1.5]),
    (50.0, 0.0, &[3.0, 2.0, 1.5]), (52.0, 5.0, &[4.0, 3.0, 2.0, 1.5]), (55.0, 0.0, &[4.0, 3.0, 2.0, 1.5]),
    (56.0, 5.5, &[4.0, 3.0, 2.0, 1.5]), (58.0, 0.0, &[4.0, 3.0, 2.0, 1.5]), (60.0, 5.5, &[4.0, 3.0, 2.0, 1.5]),
    (62.0, 0.0, &[4.0, 3.0, 2.0, 1.5]), (64.0, 6.0, &[4.0, 3.0, 2.0, 1.5]),
];

/// Name of the size, inches, and threads an inch: coarse and fine (0: none), and others in use without a series
/// of their own: 8-thread, and the 1-14 of older tables.
type Unified = (&'static str, f64, u32, u32, &'static [u32]);

#[rustfmt::skip]
static UNIFIED: &[Unified] = &[
    ("#0", 0.060, 0, 80, &[]), ("#1", 0.073, 64, 72, &[]), ("#2", 0.086, 56, 64, &[]), ("#3", 0.099, 48, 56, &[]),
    ("#4", 0.112, 40, 48, &[]), ("#5", 0.125, 40, 44, &[]), ("#6", 0.138, 32, 40, &[]), ("#8", 0.164, 32, 36, &[]),
    ("#10", 0.190, 24, 32, &[]), ("#12", 0.216, 24, 28, &[32]),
    ("1/4", 0.25, 20, 28, &[32]), ("5/16", 0.3125, 18, 24, &[32]), ("3/8", 0.375, 16, 24, &[32]),
    ("7/16", 0.4375, 14, 20, &[28]), ("1/2", 0.5, 13, 20, &[28]), ("9/16", 0.5625, 12, 18, &[24]),
    ("5/8", 0.625, 11, 18, &[24]), ("3/4", 0.75, 10, 16, &[20]), ("7/8", 0.875, 9, 14, &[20]),
    ("1", 1.0, 8, 12, &[14, 20]), ("1 1/8", 1.125, 7, 12, &[8, 18]), ("1 1/4", 1.25, 7, 12, &[8, 18]),
    ("1 3/8", 1.375, 6, 12, &[8, 18]), ("1 1/2", 1.5, 6, 12, &[8, 18]),
];

/// The thread of a designation: `M10`, `M24x2`, `3/8-24`, `#10-24`, with its series if it has one (`UNF`).
///
/// # Errors
/// Where no such thread is in the tables.
pub fn thread(designation: &str, series: Option<&str>) -> Result<Thread, NoThread> {
    match designation.strip_prefix('M') {
        Some(metric) => of_metric(metric),
        None => of_unified(designation, series),
    }
}

fn of_metric(written: &str) -> Result<Thread, NoThread> {
    let (size, pitch) = match written.split_once(['x', '×']) {
        Some((size, pitch)) => (size.trim(), Some(pitch.trim())),
        None => (written.trim(), None),
    };
    let number = |text: &str| text.parse::<f64>().ok();
    let wanted = number(size);
    let no_size = || {
        let sizes = METRIC.iter().filter(|row| row.1 > 0.0);
        let near = nearest(sizes.map(|row| (row.0, format!("M{}", row.0))), wanted.unwrap_or(0.0), 2);
        NoThread { why: Why::Size, near }
    };
    let row = METRIC.iter().find(|row| wanted == Some(row.0)).ok_or_else(no_size)?;
    let &(diameter, coarse, fine) = row;
    let found = match pitch {
        None => Some(coarse).filter(|coarse| *coarse > 0.0),
        Some(pitch) => {
            let wanted = number(pitch);
            [coarse].iter().chain(fine).copied().find(|known| wanted == Some(*known))
        }
    };
    found.map(|pitch| Thread { diameter, pitch, unified: false }).ok_or_else(|| {
        let wanted = pitch.and_then(number).unwrap_or(0.0);
        let coarse = (coarse > 0.0).then(|| (coarse, format!("M{diameter}")));
        let fine = fine.iter().map(|pitch| (*pitch, format!("M{diameter}x{pitch}")));
        NoThread { why: Why::Pitch, near: nearest(coarse.into_iter().chain(fine), wanted, 3) }
    })
}

fn of_unified(written: &str, series: Option<&str>) -> Result<Thread, NoThread> {
    let (size, threads) = written.rsplit_once('-').unwrap_or((written, ""));
    let threads: u32 = threads.parse().unwrap_or(0);
    let row = UNIFIED.iter().find(|row| row.0 == size).ok_or_else(|| no_unified_size(size))?;
    let &(_, inches, coarse, fine, more) = row;
    let known = |count: u32| count > 0 && (count == coarse || count == fine || more.contains(&count));
    let why = if !known(threads) {
        Why::Pitch
    } else if !in_series(row, threads, series) {
        Why::Series
    } else {
        let (diameter, pitch) = (inches * INCH, INCH / f64::from(threads));
        return Ok(Thread { diameter, pitch, unified: true });
    };
    let both = [(coarse, "UNC"), (fine, "UNF")].into_iter().filter(|(count, _)| *count > 0);
    let both = both.map(|(count, series)| (f64::from(count), format!("{size}-{count} {series}")));
    Err(NoThread { why, near: nearest(both, f64::from(threads), 2) })
}

/// Coarse and fine are held to the table; a thread of another series is known by its count alone.
fn in_series(row: &Unified, threads: u32, series: Option<&str>) -> bool {
    let &(_, inches, coarse, fine, _) = row;
    match series.map(str::to_ascii_uppercase).as_deref() {
        Some("UNC" | "UNRC" | "UNJC" | "NC") => threads == coarse,
        // Older tables, and the trade, call 1-14 fine.
        Some("UNF" | "UNRF" | "UNJF" | "NF") => threads == fine || (inches == 1.0 && threads == 14),
        None | Some("UNEF" | "UN" | "UNR" | "UNS" | "UNJ" | "8UN" | "8-UN" | "NEF" | "NS") => true,
        Some(_) => false,
    }
}

fn no_unified_size(size: &str) -> NoThread {
    let wanted = inches(size).unwrap_or(0.0);
    let coarse = UNIFIED.iter().filter(|row| row.2 > 0);
    let sizes = coarse.map(|row| (row.1, format!("{}-{} UNC", row.0, row.2)));
    NoThread { why: Why::Size, near: nearest(sizes, wanted, 2) }
}

/// `1 1/8`, `2/4`, `#9`.
fn inches(size: &str) -> Option<f64> {
    if let Some(number) = size.strip_prefix('#') {
        return Some(0.060 + 0.013 * number.parse::<f64>().ok()?);
    }
    let fraction = |text: &str| match text.split_once('/') {
        Some((top, bottom)) => Some(top.parse::<f64>().ok()? / bottom.parse::<f64>().ok()?),
        None => text.parse::<f64>().ok(),
    };
    size.split(' ').map(fraction).sum()
}

/// The names whose measure is nearest to `wanted`, the best first.
fn nearest(among: impl Iterator<Item = (f64, String)>, wanted: f64, most: usize) -> Vec<String> {
    let mut all: Vec<(f64, String)> = among.collect();
    all.sort_by(|a, b| (a.0 - wanted).abs().total_cmp(&(b.0 - wanted).abs()));
    all.truncate(most);
    all.into_iter().map(|(_, name)| name).collect()
}
