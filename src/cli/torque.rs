//! `cotter torque`: one torque in another unit, on a wrench with an adapter, and held against its fastener.
use super::Format;
use super::amounts::{self, Read, Written};
use super::terminal::Terminal;
use super::trouble::Trouble;
use crate::model::declarations::{Part, Thread};
use crate::model::fastener::friction::{Friction, Surface};
use crate::model::fastener::preload::{Fastener, Judgement, Spread, Verdict, figures, force, share_of};
use crate::model::fastener::{strength, thread, wrench};
use crate::model::quantity::{Dimension, Quantity, Unit, UnitPreferences, as_float};
use crate::model::torque::PassTarget;
use clap::{Args, ValueEnum};
use serde::Serialize;

#[derive(Debug, Args)]
pub struct TorqueArguments {
    /// As in a source: `20 to 30 in-lb`, `9 ± 1 N.m`, `20 N.m then 90 deg`
    torque: String,
    /// The unit to show it in too
    #[arg(long, value_name = "UNIT")]
    show: Option<String>,
    /// The fastener's thread: `M10`, `M24x2`, `3/8-24 UNF`, `#10-24 UNC`
    #[arg(long)]
    thread: Option<String>,
    /// Its property class: 8.8, 10.9, A2-70
    #[arg(long, conflicts_with = "grade", requires = "thread")]
    class: Option<String>,
    /// Its strength grade: 2, 5, 8
    #[arg(long, requires = "thread")]
    grade: Option<String>,
    /// What is on the thread
    #[arg(long, value_enum, requires = "thread")]
    condition: Option<Condition>,
    /// The wrench's lever, from the drive's centre to the grip's: `250mm`
    #[arg(long, value_name = "LENGTH", requires = "adapter")]
    wrench: Option<String>,
    /// How far an adapter sets the drive off: `40mm`
    #[arg(long, value_name = "OFFSET", requires = "wrench")]
    adapter: Option<String>,
    /// The adapter's angle to the lever: `90deg` needs no correction, `180deg` is turned back
    #[arg(long, requires = "adapter")]
    angle: Option<String>,
    /// How the answer is printed
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Condition {
    Dry,
    Oiled,
    Plated,
    Locker,
    AntiSeize,
}

impl From<Condition> for Surface {
    fn from(condition: Condition) -> Surface {
        match condition {
            Condition::Dry => Surface::Dry,
            Condition::Oiled => Surface::Oiled,
            Condition::Plated => Surface::Plated,
            Condition::Locker => Surface::Locker,
            Condition::AntiSeize => Surface::AntiSeize,
        }
    }
}

/// Prints the answer: 0 where nothing is wrong with the torque, 1 where it cannot be used as it is, 2 where an
/// argument could not be read.
pub fn run(arguments: &TorqueArguments, terminal: &mut Terminal) -> u8 {
    match answer(arguments) {
        Ok(answer) => {
            terminal.print(&match arguments.format {
                Format::Text => answer.text(),
                Format::Json => answer.json(),
            });
            u8::from(answer.held.is_some_and(|held| held.judgement.verdict.is_bad()))
        }
        Err(troubles) => {
            troubles.iter().for_each(|trouble| terminal.trouble(trouble));
            2
        }
    }
}

/// All that was worked out.
struct Answer {
    wanted: Quantity,
    shown: Option<Quantity>,
    /// What the wrench is set to, in both units, and the sum.
    set: Option<(Quantity, Option<Quantity>, String)>,
    held: Option<Held>,
}

struct Held {
    /// "#10-24 grade 5"
    name: String,
    judgement: Judgement,
}

fn answer(arguments: &TorqueArguments) -> Result<Answer, Vec<Trouble>> {
    let one = |trouble| vec![trouble];
    let show = arguments.show.as_deref().map(unit).transpose().map_err(one)?;
    if !arguments.torque.contains(|letter: char| letter.is_ascii_digit()) {
        let trouble =
            Trouble::new("torque", format!("there is no value to set a wrench to in `{}`", arguments.torque));
        return Err(one(trouble.help("write a value or a range with its unit: `20 to 30 in-lb`")));
    }
    let read = amounts::read(&Written {
        torque: &arguments.torque,
        thread: arguments.thread.as_deref(),
        class: arguments.class.as_deref(),
        grade: arguments.grade.as_deref(),
        wrench: arguments.wrench.as_deref(),
        adapter: arguments.adapter.as_deref(),
        angle: arguments.angle.as_deref(),
    })?;
    let value = read.torque.value.clone().filter(|value| value.dimension() == Dimension::Torque);
    let wanted = value.ok_or_else(|| one(Trouble::new("torque", "there is no value to set a wrench to")))?;
    let unit = show.or_else(|| wanted.counterpart(&UnitPreferences::default()));
    let shown = unit.filter(|unit| *unit != wanted.unit()).and_then(|unit| wanted.converted(unit).ok());
    let set = setting(&read, &wanted, shown.as_ref()).map_err(one)?;
    let surface = arguments.condition.map(Surface::from);
    let surface = surface.or(read.torque.condition.map(|stated| stated.value.into()));
    let held = read.fastener.as_ref().and_then(|part| held(part, &read, &wanted, surface));
    Ok(Answer { wanted, shown, set, held })
}

fn unit(written: &str) -> Result<&'static Unit, Trouble> {
    let found = Unit::find(written).filter(|unit| unit.dimension == Dimension::Torque);
    found.ok_or_else(|| {
        let trouble = Trouble::new("--show", format!("`{written}` is no unit of torque"));
        match Unit::suggest(written).first() {
            Some(near) => trouble.help(format!("did you mean `{near}`?")),
            None => trouble.help("write `N.m`, `lbf.ft`, `lbf.in`, `kgf.m`"),
        }
    })
}

type Setting = Option<(Quantity, Option<Quantity>, String)>;

/// S = T·L / (L + E·cos α).
fn setting(read: &Read, wanted: &Quantity, shown: Option<&Quantity>) -> Result<Setting, Trouble> {
    let (Some(length), Some(offset)) = (&read.wrench, &read.adapter) else { return Ok(None) };
    let set = |torque: &Quantity| wrench::set_value(torque, length, offset, read.angle.as_ref());
    let Some(own) = set(wanted) else {
        return Err(Trouble::new("--adapter", "nothing of the lever is left with that adapter"));
    };
    let angle = read.angle.as_ref().map_or_else(String::new, |angle| format!(" at {}", angle.print()));
    let sum = format!("S = T·L / (L + E), L {}, E {}{angle}", length.print(), offset.print());
    Ok(Some((own, shown.and_then(set), sum)))
}

fn held(part: &Part, read: &Read, wanted: &Quantity, surface: Option<Surface>) -> Option<Held> {
    let Thread { designation, series } = part.thread.as_ref()?;
    let thread = thread::thread(designation.as_str(), series.as_ref().map(|it| it.as_str())).ok()?;
    let named = part.strength.as_ref();
    let strength = named.and_then(|it| strength::strength(it.system, it.value.as_str(), &thread).ok());
    let goes_on = |target: &PassTarget| matches!(target, PassTarget::Angle(_) | PassTarget::Length(_));
    let goes_on = read.torque.passes.iter().any(|pass| goes_on(&pass.target));
    let judgement = Fastener { thread, strength, surface }.judge(wanted, goes_on)?;
    let name = match named {
        Some(it) => format!("{} {} {}", designation.value, strength::word(it.system), it.value.value),
        None => designation.value.to_string(),
    };
    Some(Held { name, judgement })
}

impl Answer {
    fn text(&self) -> String {
        let beside = |own: &Quantity, other: Option<&Quantity>| match other {
            Some(other) => format!("{} ({})", own.print(), other.print()),
            None => own.print(),
        };
        let mut lines = vec![("wanted", beside(&self.wanted, self.shown.as_ref()))];
        if let Some((own, other, sum)) = &self.set {
            lines.push(("set", format!("{}: {sum}", beside(own, other.as_ref()))));
        }
        if let Some(held) = &self.held {
            held.tell(&self.wanted, &mut lines);
        }
        lines.iter().map(|(name, text)| format!("{name:9} {text}\n")).collect()
    }

    fn json(&self) -> String {
        let print = |quantity: Option<&Quantity>| quantity.map(Quantity::print);
        let json = Json {
            version: 1,
            wanted: self.wanted.print(),
            shown: print(self.shown.as_ref()),
            set: print(self.set.as_ref().map(|set| &set.0)),
            set_shown: print(self.set.as_ref().and_then(|set| set.1.as_ref())),
            fastener: self.held.as_ref().map(|held| held.json(&self.wanted)),
        };
        let mut text = serde_json::to_string_pretty(&json).expect("every key of the answer is text");
        text.push('\n');
        text
    }
}

impl Held {
    fn tell(&self, wanted: &Quantity, lines: &mut Vec<(&'static str, String)>) {
        let Judgement { fastener, preload, shares, .. } = &self.judgement;
        let area = figures(fastener.thread.stress_area());
        let loads = match (fastener.proof_load(), fastener.yield_load()) {
            (Some(proof), Some(limit)) => format!(", proof load {}, yield at {}", force(proof), force(limit)),
            _ => String::new(),
        };
        lines.push(("fastener", format!("{}: stress area {area} mm²{loads}", self.name)));
        let Friction { low, usual, high, source, .. } = fastener.friction();
        let state = fastener.surface.map_or("state of the thread not given", Surface::name);
        lines.push(("friction", format!("K {low:.2} to {high:.2}, usually {usual:.2}; {state} ({source})")));
        let spread = |spread: &Spread, say: &dyn Fn(f64) -> String| {
            format!("{} to {}, usually {}", say(spread.least), say(spread.most), say(spread.usual))
        };
        lines.push(("preload", format!("{}, by F = T / (K·d)", spread(preload, &force))));
        if let Some(shares) = shares {
            let percent = |share: f64| format!("{:.0} %", share * 100.0);
            lines.push(("share", format!("{} of the proof load", spread(shares, &percent))));
        }
        lines.push(("verdict", self.sentence(wanted)));
    }

    fn sentence(&self, wanted: &Quantity) -> String {
        let Judgement { fastener, preload, verdict, .. } = &self.judgement;
        let name = &self.name;
        match verdict {
            Verdict::Holds => "fine".to_owned(),
            Verdict::High => {
                "high: past the proof load at the usual friction; fine only on a rougher thread".to_owned()
            }
            Verdict::Yields => {
                let limit = fastener.yield_load().map_or_else(String::new, |it| format!(" at {}", force(it)));
                format!("too much: {} at the least, and {name} yields{limit}", force(preload.least))
            }
            Verdict::Low => {
                "too little: under a fifth of the proof load even on the smoothest thread".to_owned()
            }
            Verdict::OtherUnit(units) => {
                let share = self.judgement.shares.map_or(0.0, |it| it.usual);
                let written = as_float(wanted.unit().factor);
                let fits = |unit: &&'static Unit| match fastener.strength {
                    Some(_) => {
                        let in_unit = share * as_float(unit.factor) / written;
                        format!("{} ({})", unit.source, share_of(in_unit, "the proof load"))
                    }
                    None => unit.source.to_owned(),
                };
                let units: Vec<String> = units.iter().map(fits).collect();
                format!("the wrong unit: {name} takes that in {}", units.join(" or "))
            }
            Verdict::Unknown => "not judged: no class given".to_owned(),
        }
    }

    fn json(&self, wanted: &Quantity) -> JsonFastener<'_> {
        let Judgement { fastener, preload, shares, verdict } = &self.judgement;
        let (verdict, units) = match verdict {
            Verdict::Holds => ("fine", Vec::new()),
            Verdict::High => ("high", Vec::new()),
            Verdict::Yields => ("too-much", Vec::new()),
            Verdict::Low => ("too-little", Vec::new()),
            Verdict::OtherUnit(units) => ("wrong-unit", units.iter().map(|unit| unit.source).collect()),
            Verdict::Unknown => ("not-judged", Vec::new()),
        };
        let Friction { low, usual, high, source, .. } = *fastener.friction();
        JsonFastener {
            name: &self.name,
            stress_area_mm2: fastener.thread.stress_area(),
            proof_load_n: fastener.proof_load(),
            yield_load_n: fastener.yield_load(),
            k: JsonSpread { least: low, usual, most: high },
            k_source: source,
            preload_n: (*preload).into(),
            share_of_proof: shares.map(JsonSpread::from),
            verdict,
            sentence: self.sentence(wanted),
            fits_in: units,
        }
    }
}

#[derive(Serialize)]
struct Json<'a> {
    version: u32,
    wanted: String,
    shown: Option<String>,
    set: Option<String>,
    set_shown: Option<String>,
    fastener: Option<JsonFastener<'a>>,
}

#[derive(Serialize)]
struct JsonFastener<'a> {
    name: &'a str,
    stress_area_mm2: f64,
    proof_load_n: Option<f64>,
    yield_load_n: Option<f64>,
    k: JsonSpread,
    k_source: &'static str,
    preload_n: JsonSpread,
    share_of_proof: Option<JsonSpread>,
    verdict: &'static str,
    sentence: String,
    fits_in: Vec<&'static str>,
}

#[derive(Serialize)]
struct JsonSpread {
    least: f64,
    usual: f64,
    most: f64,
}

impl From<Spread> for JsonSpread {
    fn from(Spread { least, usual, most }: Spread) -> JsonSpread {
        JsonSpread { least, usual, most }
    }
}
