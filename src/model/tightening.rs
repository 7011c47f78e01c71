//! What the steps tighten: each fastener with the torque and the state of its thread in force there.
use super::action::{Object, TorqueException, TorqueSource, Work};
use super::declarations::{Condition, Declarations, Name, Part, Tool};
use super::fastener::wrench;
use super::quantity::{Dimension, Quantity};
use super::torque::{PassTarget, Torque, percent_of};
use super::verb::Effect;
use crate::source::{Span, Spanned, Text};
use std::borrow::Cow;

/// One fastener, or one set of them, tightened by one step.
#[derive(Debug, Clone)]
pub struct Tightening<'a> {
    pub work: &'a Work,
    /// `None` where the step states a torque and names nothing that is declared.
    pub fastener: Option<Fastener<'a>>,
    /// In force: the step's, its list's or the part's, with the step's exceptions for this fastener.
    pub torque: Cow<'a, Torque>,
    /// What the torque is stated for: by the step or the list, else by the part.
    pub stated: Option<Spanned<Condition>>,
    /// What an earlier step has put on the thread and none has taken off.
    pub applied: Option<Applied>,
}

#[derive(Debug, Clone, Copy)]
pub struct Fastener<'a> {
    pub object: &'a Object,
    /// Indexes [`Declarations::parts`].
    pub id: u32,
    pub part: &'a Part,
    /// One piece of a set, by its own name.
    pub piece: Option<&'a Text>,
}

/// A thread locker or a lubricant on a thread.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Applied {
    /// Indexes [`Declarations::supplies`].
    pub supply: u32,
    pub is_locker: bool,
    /// The supply's name in the step that puts it on.
    pub span: Span,
}

/// A torque that has to be read off a wrench.
#[derive(Debug, Clone, PartialEq)]
pub struct Wanted {
    pub kind: WantedKind,
    pub value: Quantity,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WantedKind {
    /// The value in the end.
    End,
    /// As [`WantedKind::End`], of a new and of a reused fastener where they differ.
    New,
    Reused,
    /// Of the pass at that place of the list, from 0, where it is not that in the end.
    Pass(usize),
    LoosenTo(usize),
    /// Must not turn below it.
    Check,
}

impl<'a> Tightening<'a> {
    /// Where the step names the fastener; else its verb.
    pub fn span(&self) -> Span {
        self.fastener.map_or(self.work.verb_span, |fastener| fastener.object.word.span)
    }

    /// How many are tightened.
    pub fn count(&self) -> u32 {
        self.fastener.map_or(1, |it| match it.piece {
            Some(_) => 1,
            None => it.object.count.unwrap_or(it.part.count),
        })
    }

    /// The torque in the end, where one value says it for all.
    pub fn end(&self) -> Option<&Quantity> {
        self.torque.value.as_ref().filter(|value| value.dimension() == Dimension::Torque)
    }

    /// Every torque that has to be read off a wrench, in the order they are gone through.
    pub fn wanted(&self) -> Vec<Wanted> {
        let torque = &*self.torque;
        let mut wanted = Vec::new();
        let mut push = |kind, value: Option<Quantity>| {
            if let Some(value) = value.filter(|value| value.dimension() == Dimension::Torque) {
                wanted.push(Wanted { kind, value });
            }
        };
        let wholes = [&torque.value, &torque.new, &torque.reused];
        for (at, pass) in torque.passes.iter().enumerate() {
            match &pass.target {
                PassTarget::Torque(value) if Some(value) != torque.value.as_ref() => {
                    push(WantedKind::Pass(at), Some(value.clone()));
                }
                PassTarget::LoosenTo(value) => push(WantedKind::LoosenTo(at), Some(value.clone())),
                PassTarget::Percent(percent)
                    if percent.value() != super::quantity::Exact::from_integer(100) =>
                {
                    for whole in wholes.into_iter().flatten() {
                        push(WantedKind::Pass(at), percent_of(whole, percent));
                    }
                }
                _ => {}
            }
        }
        push(WantedKind::End, torque.value.clone());
        push(WantedKind::New, torque.new.clone());
        push(WantedKind::Reused, torque.reused.clone());
        push(WantedKind::Check, torque.check.clone());
        wanted
    }

    /// The torque wrenches that the step names: their number and declaration.
    pub fn wrenches(&self, declarations: &'a Declarations) -> impl Iterator<Item = (u32, &'a Tool)> {
        wrenches(self.work, declarations)
    }

    /// The adapters that the step names.
    pub fn adapters(&self, declarations: &'a Declarations) -> impl Iterator<Item = (u32, &'a Tool)> {
        adapters(self.work, declarations)
    }
}

/// What one wrench of a step shows when a fastener gets its torque.
#[derive(Debug, Clone, PartialEq)]
pub struct Setting<'a> {
    pub wrench: &'a Tool,
    /// Of the torque at the fastener; 1 where no adapter changes it.
    pub share: super::quantity::Exact,
    /// What the wrench is set to.
    pub value: Quantity,
}

/// How `wanted` is set on the first wrench of the step that can show it, or else on the first. `None` where the step
/// names no wrench, or an adapter whose effect is not known.
pub fn setting<'a>(work: &'a Work, wanted: &Quantity, declarations: &'a Declarations) -> Option<Setting<'a>> {
    let mut settings = wrenches(work, declarations).filter_map(|(_, wrench)| {
        let adapters = adapters(work, declarations).map(|(_, tool)| tool);
        let share = wrench::share_with(wrench, adapters, work.adapter_angle.as_ref())?;
        let fit = wrench::fit(wrench::scale(wrench)?, wanted, share);
        Some((fit, wrench, share))
    });
    let first = settings.next()?;
    let best = settings.fold(first, |best, next| if next.0 < best.0 { next } else { best });
    let (_, wrench, share) = best;
    Some(Setting { wrench, share, value: wanted.scaled(share).ok()? })
}

/// The torque wrenches that the step names: their number and declaration.
pub fn wrenches<'a>(work: &'a Work, declarations: &'a Declarations) -> impl Iterator<Item = (u32, &'a Tool)> {
    tools(work, declarations).filter(|(_, tool)| wrench::scale(tool).is_some())
}

/// The adapters that the step names.
pub fn adapters<'a>(work: &'a Work, declarations: &'a Declarations) -> impl Iterator<Item = (u32, &'a Tool)> {
    tools(work, declarations).filter(|(_, tool)| tool.adapter.is_some())
}

fn tools<'a>(work: &'a Work, declarations: &'a Declarations) -> impl Iterator<Item = (u32, &'a Tool)> {
    work.tools.iter().filter_map(|object| match object.name {
        Some(Name::Tool(id)) => declarations.tool(id).map(|tool| (id, tool)),
        _ => None,
    })
}

/// Every tightening of `works`, in order. Of a part without a torque in force there is none.
pub fn of<'a>(
    works: impl IntoIterator<Item = &'a Work>,
    declarations: &'a Declarations,
) -> Vec<Tightening<'a>> {
    let mut found = Vec::new();
    let mut threads = Threads::of(declarations);
    for work in works {
        threads.before(work);
        let tightens = |torque: &&Torque| {
            work.verb.tightens() || torque.says_something() && !work.verb.does(Effect::Loosens)
        };
        if let Some(torque) = work.torque.as_ref().filter(tightens) {
            each(work, torque, declarations, &threads, &mut found);
        }
        threads.after(work);
    }
    found
}

fn each<'a>(
    work: &'a Work,
    torque: &'a Torque,
    declarations: &'a Declarations,
    threads: &Threads<'_>,
    found: &mut Vec<Tightening<'a>>,
) {
    let from = found.len();
    let alone = match work.torque_source {
        TorqueSource::Step => true,
        TorqueSource::Named(id) => {
            let list = declarations.torques.get(id as usize).map(|list| &list.torque);
            list.is_some_and(|list| list.says_how_tight() || list.is_check())
        }
        TorqueSource::Part(_) | TorqueSource::None => false,
    };
    let mut push = |fastener: Option<Fastener<'a>>, torque: Cow<'a, Torque>| {
        let stated = torque.condition.or(fastener.and_then(|it| it.part.condition));
        let applied = fastener.and_then(|it| threads.on(it.id));
        found.push(Tightening { work, fastener, torque, stated, applied });
    };
    for (at, object) in work.objects.iter().enumerate() {
        let Some(Name::Part(id)) = object.name else { continue };
        let Some(part) = declarations.part(id).filter(|part| alone || part.torque.is_some()) else {
            continue;
        };
        let own = work.other_torques.iter().find(|(place, _)| *place == at).map_or(torque, |(_, own)| own);
        let piece = part.pieces.iter().find(|piece| piece.value == object.word.value);
        let fastener = Fastener { object, id, part, piece };
        match piece {
            Some(piece) => push(Some(fastener), excepting(own, &work.exceptions, &piece.value)),
            None => {
                push(Some(fastener), excepting(own, &work.exceptions, &part.thing.name.value));
                for piece in part.pieces.iter().filter(|piece| is_excepted(work, &piece.value)) {
                    let fastener = Fastener { piece: Some(piece), ..fastener };
                    push(Some(fastener), excepting(own, &work.exceptions, &piece.value));
                }
            }
        }
    }
    if found.len() == from && alone {
        found.push(Tightening {
            work,
            fastener: None,
            torque: Cow::Borrowed(torque),
            stated: torque.condition,
            applied: None,
        });
    }
}

fn is_excepted(work: &Work, piece: &str) -> bool {
    work.exceptions.iter().any(|it| it.on.as_ref().is_some_and(|on| on.value == piece))
}

/// The list with what differs for `name` put in; an exception to a stage that it does not have changes nothing.
fn excepting<'a>(torque: &'a Torque, exceptions: &[TorqueException], name: &str) -> Cow<'a, Torque> {
    let mut changed = Cow::Borrowed(torque);
    for exception in exceptions.iter().filter(|it| it.on.as_ref().is_none_or(|on| on.value == name)) {
        let at = (exception.stage.value as usize).saturating_sub(1);
        let target = match exception.value.dimension() {
            Dimension::Angle => PassTarget::Angle(exception.value.clone()),
            _ => PassTarget::Torque(exception.value.clone()),
        };
        let list = changed.to_mut();
        let Some(pass) = list.passes.get_mut(at) else { continue };
        pass.target = target;
        let last = list.passes.iter().rev().find_map(|pass| match &pass.target {
            PassTarget::Torque(value) => Some(value.clone()),
            _ => None,
        });
        list.value = last.or(list.value.take());
    }
    changed
}

/// What has been put on which part's thread so far.
struct Threads<'a> {
    declarations: &'a Declarations,
    /// Nothing that goes on a thread is declared: nothing has to be followed.
    idle: bool,
    on: Vec<(u32, Applied)>,
}

impl<'a> Threads<'a> {
    fn of(declarations: &'a Declarations) -> Threads<'a> {
        let goes_on = |it: &super::declarations::Supply| it.thread_locker.is_some() || it.lubricant.is_some();
        Threads { declarations, idle: !declarations.supplies.iter().any(goes_on), on: Vec::new() }
    }

    fn on(&self, part: u32) -> Option<Applied> {
        self.on.iter().find(|(id, _)| *id == part).map(|(_, applied)| *applied)
    }

    /// What the step itself puts on counts for the torque in the same line.
    fn before(&mut self, work: &Work) {
        let puts_on = || work.verb.does(Effect::Applies) || work.verb.tightens() || work.fits();
        if self.idle || !puts_on() {
            return;
        }
        let Some(applied) = work.supplies.iter().chain(&work.objects).find_map(|it| self.applied(it)) else {
            return;
        };
        let places = work.places.iter().filter_map(|place| match &place.what {
            super::action::PlaceTarget::Objects(objects) => Some(objects),
            _ => None,
        });
        // Parts fitted somewhere do not get on the place what they have on their own threads.
        let places = places.filter(|_| !work.fits()).flatten();
        for part in work.objects.iter().chain(places).filter_map(part_of) {
            self.on.retain(|(id, _)| *id != part);
            self.on.push((part, applied));
        }
    }

    fn after(&mut self, work: &Work) {
        if !self.on.is_empty() && (work.verb.does(Effect::Cleans) || work.takes_off()) {
            self.on.retain(|(id, _)| !work.objects.iter().any(|object| part_of(object) == Some(*id)));
        }
    }

    fn applied(&self, object: &Object) -> Option<Applied> {
        let Some(Name::Supply(id)) = object.name else { return None };
        let supply = self.declarations.supply(id)?;
        let is_locker = supply.thread_locker.is_some();
        (is_locker || supply.lubricant.is_some()).then_some(Applied {
            supply: id,
            is_locker,
            span: object.word.span,
        })
    }
}

fn part_of(object: &Object) -> Option<u32> {
    match object.name {
        Some(Name::Part(id)) => Some(id),
        _ => None,
    }
}
