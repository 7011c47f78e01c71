//! What is owed, as steps of source text: the last that was opened comes first.
use super::BLANK;
use super::owed::{Kind, Line, Owed, Part, Where};
use crate::ledger;
use crate::model::action::Work;
use crate::model::declarations::{Applies, Condition, Part as Declared};
use crate::model::fastener::wrench;
use crate::model::quantity::{Dimension, Exact, Quantity};
use crate::model::torque::{PassTarget, Torque, percent_of};
use crate::model::{Declarations, Procedure, Register};
use crate::source::quotes::quoted;
use std::collections::BTreeSet;

/// A step before it is put into words: the same place, machines and verb go into one line.
struct Writer<'a> {
    declarations: &'a Declarations,
    /// Where tools and supplies are looked for.
    known: &'a Declarations,
    /// Parts that are still off.
    off: BTreeSet<u32>,
    locked: BTreeSet<u32>,
    tagged: BTreeSet<u32>,
    text: String,
    /// The last part that went on, for the test in the end.
    last: Option<&'a str>,
    marks: BTreeSet<(&'a str, u32)>,
}

/// The steps that put right what is owed; empty where nothing is. `back` brings the machine back, before it is tested.
pub(super) fn steps(
    owed: &[Owed<'_>],
    declarations: &Declarations,
    known: &Declarations,
    back: &str,
) -> String {
    let off = owed.iter().filter_map(Owed::part).collect();
    let ids = |of: fn(&Kind<'_>) -> Option<u32>| owed.iter().filter_map(|it| of(&it.kind)).collect();
    let mut writer = Writer {
        declarations,
        known,
        off,
        locked: ids(|kind| if let Kind::Unlock(id) = kind { Some(*id) } else { None }),
        tagged: ids(|kind| if let Kind::Untag(id) = kind { Some(*id) } else { None }),
        text: String::new(),
        last: None,
        marks: BTreeSet::new(),
    };
    // Energy comes back, and fluid goes in, when all is closed.
    for late in [false, true] {
        let mut open: Vec<&Owed<'_>> = Vec::new();
        for it in owed.iter().rev().filter(|it| is_late(&it.kind) == late) {
            if open.last().is_some_and(|last| last.action != it.action) {
                writer.group(&std::mem::take(&mut open));
            }
            open.push(it);
        }
        writer.group(&open);
    }
    writer.text.push_str(back);
    writer.closing_test();
    writer.text
}

/// The steps that bring back a machine that another procedure has cut off or emptied, where nothing does yet.
pub(super) fn restored(procedure: &Procedure, register: &Register) -> String {
    let mut text = String::new();
    for call in ledger::never_restored(procedure) {
        let entry = call.number.as_ref().and_then(|number| register.find(number.as_str()).first());
        let line = match entry.and_then(|entry| entry.afterwards.as_ref()) {
            Some(number) => format!("follow {number}\n"),
            None => format!(
                "# Bring the machine back from \"{}\": with steps of your own, or `follow` what does it.\n",
                ledger::told(call).unwrap_or("").replace('\n', " ")
            ),
        };
        if !text.contains(&line) {
            text.push_str(&line);
        }
    }
    text
}

/// What an author has to decide about supplies that hold or seal: nothing that was declared says where they go.
pub(super) fn bonding(declarations: &Declarations) -> String {
    let mut text = String::new();
    for supply in declarations.supplies.iter().filter(|it| it.thread_locker.is_some() || it.cure.is_some()) {
        let surface = match (supply.needs_clean, supply.needs_dry) {
            (Some(_), Some(_)) => "clean and dry the surfaces first, then ",
            (Some(_), None) => "clean the surfaces first, then ",
            (None, Some(_)) => "dry the surfaces first, then ",
            (None, None) => "",
        };
        let wait = if supply.cure.is_some() { ", and `wait` while it cures" } else { "" };
        let name = supply.thing.name.as_str();
        text.push_str(&format!(
            "# Where {name} goes on: {surface}`apply {name} to …` before the part is fitted{wait}.\n"
        ));
    }
    text
}

fn is_late(kind: &Kind<'_>) -> bool {
    matches!(kind, Kind::Fill(_) | Kind::Unlock(_) | Kind::Untag(_) | Kind::TurnOn { .. })
}

impl<'a> Writer<'a> {
    /// What one action opened, the last first.
    fn group(&mut self, owed: &[&Owed<'a>]) {
        let mut line: Vec<&Owed<'a>> = Vec::new();
        for it in owed {
            match it.part() {
                Some(part) if self.alone(part) => {
                    self.fit(&std::mem::take(&mut line));
                    self.fit(&[it]);
                }
                Some(_) => line.push(it),
                None => {
                    self.fit(&std::mem::take(&mut line));
                    self.other(it);
                }
            }
        }
        self.fit(&line);
    }

    /// A sided part has a line of its own, since only it faces that way.
    fn alone(&self, part: u32) -> bool {
        self.declarations.part(part).is_some_and(|it| it.sided.is_some())
    }

    fn statement(&mut self, code: &str, applies: &Applies) {
        self.text.push_str(code);
        self.text.push('\n');
        if let Some(only) = only(applies) {
            self.text.push_str(&format!("    only: {only}\n"));
        }
    }

    fn name(&self, part: u32) -> &'a str {
        self.declarations.part(part).map_or("", |it| it.thing.name.as_str())
    }

    /// Parts of one action go on together, then what is torqued of them is tightened.
    fn fit(&mut self, owed: &[&Owed<'a>]) {
        let Some(first) = owed.first() else { return };
        let ids: Vec<u32> = owed.iter().filter_map(|it| it.part()).collect();
        for it in owed {
            self.before(it);
        }
        self.off.retain(|part| !ids.contains(part));
        let aligned: String = owed.iter().filter_map(|it| self.align(it)).collect();
        let objects: Vec<String> = owed.iter().filter_map(|it| self.object(it)).collect();
        let (verb, tail) = self.verb_and_place(first);
        let facing =
            if ids.iter().any(|id| self.alone(*id)) { format!(" facing {BLANK}") } else { String::new() };
        let code = format!("{aligned}{verb} {}{}{facing}{}", objects.join(", "), tail.0, tail.1);
        self.statement(&code, first.applies);
        for id in ids {
            self.last = Some(self.name(id));
            self.tighten(id, first.applies);
        }
    }

    /// What makes sure that the right, sound part goes on.
    fn before(&mut self, owed: &Owed<'a>) {
        let Some((id, part)) = owed.part().and_then(|id| Some((id, self.declarations.part(id)?))) else {
            return;
        };
        let name = self.name(id);
        self.identify(id, owed.applies);
        let fresh = self.is_new(owed, part);
        let checked = matches!(&owed.kind, Kind::Fit(part) if part.checked);
        if let (Some(condition), false, false) = (&part.reuse_if, fresh, checked) {
            self.statement(
                &format!("inspect {name} {} as {name}-sound", quoted(condition.as_str())),
                owed.applies,
            );
            self.text.push_str(&format!("    if not ok: stop {BLANK}\n"));
        }
    }

    /// Of parts that look alike each is told from the others before it goes on.
    fn identify(&mut self, id: u32, applies: &Applies) {
        let likes = self.declarations.part(id).map_or(&[][..], |part| &part.looks_like);
        for like in likes {
            let by = like.by.as_ref().map_or(BLANK.to_owned(), |by| quoted(by.as_str()));
            self.statement(&format!("identify {} {by}", self.name(id)), applies);
        }
    }

    fn is_new(&self, owed: &Owed<'_>, part: &Declared) -> bool {
        part.single_use.is_some() || matches!(&owed.kind, Kind::Fit(part) if part.discarded)
    }

    fn object(&self, owed: &Owed<'a>) -> Option<String> {
        let id = owed.part()?;
        let part = self.declarations.part(id)?;
        let new = if self.is_new(owed, part) { "new " } else { "" };
        Some(match &owed.kind {
            Kind::Fit(Part { word, count: Some(count), .. }) => format!("{count} of {new}{word}"),
            Kind::Fit(Part { word, .. }) => format!("{new}{word}"),
            _ => format!("{new}{}", part.thing.name.as_str()),
        })
    }

    /// The verb; then the place, and what stands behind it.
    fn verb_and_place(&self, owed: &Owed<'a>) -> (&'a str, (String, String)) {
        let Kind::Fit(part) = &owed.kind else { return ("install", Default::default()) };
        let place = part.from.behind(match part.led {
            "out of" => "into",
            "off" => "onto",
            _ => "on",
        });
        let Some(work) = part.by else { return ("install", (place, String::new())) };
        (work.verb.name.as_str(), (place, format!("{} until seated", tools(work))))
    }

    /// By its mark, as soon as another of the marked parts is on; the action stands before the one that fits it.
    fn align(&mut self, owed: &Owed<'a>) -> Option<String> {
        let Kind::Fit(Part { id, mark: Some(mark), .. }) = &owed.kind else { return None };
        let other = mark.parts.iter().find(|it| *it != id && !self.off.contains(it)).copied()?;
        let first = self.marks.insert((mark.label, *id));
        first.then(|| format!("align {}, {} at {}; ", self.name(*id), self.name(other), mark.label))
    }

    fn tighten(&mut self, id: u32, applies: &Applies) {
        let Some(part) = self.declarations.part(id) else { return };
        let Some(torque) = part.torque.as_ref() else { return };
        let name = self.name(id);
        if part.condition.is_some_and(|it| it.value == Condition::Oiled) || torque_is_oiled(torque) {
            let oil = self.known.supplies.iter().find(|it| it.lubricant.is_some());
            let using =
                oil.map_or_else(|| format!(" {BLANK}"), |oil| format!(" using {}", oil.thing.name.as_str()));
            self.statement(&format!("lubricate {name}{using}"), applies);
        }
        let with = self.wrench(torque).map_or_else(String::new, |wrench| format!(" with {wrench}"));
        self.statement(&format!("tighten {name}{with}"), applies);
    }

    /// The declared wrench that suits the torque best.
    fn wrench(&self, torque: &Torque) -> Option<&'a str> {
        let values: Vec<Quantity> = readings(torque).into_iter().filter(wrench_reads).collect();
        let tools = self.known.tools.iter().chain(&self.known.other_wrenches);
        let scaled = tools.filter(|tool| wrench::scale(tool).is_some());
        let best = wrench::best(scaled, &values, |_| Some(Exact::from_integer(1)))?;
        Some(best.thing.name.as_str())
    }

    /// What is no part going on.
    fn other(&mut self, owed: &Owed<'a>) {
        let declarations = self.declarations;
        let name = |id: u32| declarations.part(id).map_or("", |it| it.thing.name.as_str());
        let code = match &owed.kind {
            Kind::Fit(_) | Kind::FitFirst(_) => return,
            Kind::Connect(Line { id, from, ends, discarded }) => {
                self.identify(*id, owed.applies);
                let once = self.declarations.part(*id).is_some_and(|part| part.single_use.is_some());
                let new = if *discarded || once { "new " } else { "" };
                let to: String = ends.iter().map(|end| format!(", {end}")).collect();
                let line = format!("connect {new}{}{}{to}", name(*id), from.behind("to"));
                self.statement(&line, owed.applies);
                return self.tighten(*id, owed.applies);
            }
            Kind::Tighten(id) => return self.tighten_again(*id, owed.applies),
            Kind::Withdraw { word, count, from, attached, bears, .. } => {
                let verb = if *attached { "detach" } else { "remove" };
                let count = count.map_or_else(String::new, |count| format!("{count} of "));
                let away = format!("{verb} {count}{word}{}", from.behind("from"));
                let Some((part, by)) = bears else { return self.statement(&away, owed.applies) };
                let (part, with) = (name(*part), tools(by));
                self.statement(&format!("raise {part}{with}; {away}"), owed.applies);
                format!("lower {part}{with}")
            }
            Kind::Fill(id) => format!("fill {} until {BLANK}", name(*id)),
            Kind::Unlock(id) if self.tagged.contains(id) => {
                format!("unlock {}\n    Take the tag off with the lock.", name(*id))
            }
            Kind::Unlock(id) => format!("unlock {}", name(*id)),
            // The tag goes with the lock, not before it.
            Kind::Untag(id) if self.locked.contains(id) => return,
            Kind::Untag(id) => format!("untag {}", name(*id)),
            Kind::TurnOn { part, verb } => format!("{verb} {}", name(*part)),
            Kind::Lower(id, by) => format!("lower {}{} until {BLANK}", name(*id), tools(by)),
            Kind::Close(id) => format!("close {}", name(*id)),
            Kind::Release(id) => format!("release {}", name(*id)),
        };
        self.statement(&code, owed.applies);
    }

    fn tighten_again(&mut self, id: u32, applies: &Applies) {
        if self.declarations.part(id).is_some_and(|part| part.torque.is_some()) {
            return self.tighten(id, applies);
        }
        self.statement(&format!("tighten {} {BLANK}", self.name(id)), applies);
    }

    fn closing_test(&mut self) {
        if let Some(last) = self.last {
            let step = format!("test {last} {BLANK} as put-together\n    if not ok: stop {BLANK}\n");
            self.text.push_str(&step);
        }
    }
}

impl Where<'_> {
    /// The place behind its preposition, with a blank before it.
    fn behind(&self, preposition: &str) -> String {
        match self {
            Where::Nowhere => String::new(),
            Where::Of(_, word) => format!(" {preposition} {word}"),
            Where::Words(words) => format!(" {preposition} {}", quoted(words)),
        }
    }
}

/// What the work is done with.
fn tools(work: &Work) -> String {
    let tools: Vec<&str> = work.tools.iter().map(|tool| tool.word.as_str()).collect();
    if tools.is_empty() { String::new() } else { format!(" with {}", tools.join(", ")) }
}

/// Every value that is read off the wrench, the one in the end last.
fn readings(torque: &Torque) -> Vec<Quantity> {
    let wholes: Vec<&Quantity> = [&torque.value, &torque.new, &torque.reused].into_iter().flatten().collect();
    let mut values = Vec::new();
    for pass in &torque.passes {
        match &pass.target {
            PassTarget::Torque(value) | PassTarget::LoosenTo(value) => values.push(value.clone()),
            PassTarget::Percent(percent) => {
                values.extend(wholes.iter().filter_map(|whole| percent_of(whole, percent)));
            }
            _ => {}
        }
    }
    values.extend(wholes.into_iter().cloned());
    values
}

fn wrench_reads(value: &Quantity) -> bool {
    value.dimension() == Dimension::Torque
}

fn torque_is_oiled(torque: &Torque) -> bool {
    torque.condition.as_ref().is_some_and(|it| it.value == Condition::Oiled)
}

/// As `only:` says it; none where it is for all.
fn only(applies: &Applies) -> Option<String> {
    let mut said: Vec<String> = applies.models.iter().map(|model| model.value.to_string()).collect();
    said.extend(applies.serials.iter().map(|serials| format!("serial {}", serials.value)));
    said.extend(applies.if_fitted.map(|_| "if fitted".to_owned()));
    (!said.is_empty()).then(|| said.join(", "))
}
