//! What the steps leave open, in the order they opened it.
use crate::model::action::{Action, Object, PlaceTarget, Work};
use crate::model::declarations::Applies;
use crate::model::verb::Effect;
use crate::model::{Declarations, Name, Procedure};

/// One thing to be put right.
#[derive(Debug, Clone)]
pub(super) struct Owed<'a> {
    pub kind: Kind<'a>,
    /// The machines that the step was for which opened it.
    pub applies: &'a Applies,
    /// Counts the actions; what one action opened has the same.
    pub action: usize,
}

#[derive(Debug, Clone)]
pub(super) enum Kind<'a> {
    Fit(Part<'a>),
    /// A part that the work starts with in hand.
    FitFirst(u32),
    Connect(Line<'a>),
    Tighten(u32),
    /// A temporary tool, by the words before its name: `2 of`.
    Withdraw {
        tool: u32,
        word: &'a str,
        count: Option<u32>,
        from: Where<'a>,
        attached: bool,
        /// What was let down on it, and how that was raised before: it has to go up again first.
        bears: Option<(u32, &'a Work)>,
    },
    Fill(u32),
    Unlock(u32),
    Untag(u32),
    TurnOn {
        part: u32,
        verb: &'static str,
    },
    /// With the step that raised it.
    Lower(u32, &'a Work),
    Close(u32),
    Release(u32),
}

/// A line, hose or lead that was parted.
#[derive(Debug, Clone)]
pub(super) struct Line<'a> {
    pub id: u32,
    pub from: Where<'a>,
    /// Its other ends, parted by the same action.
    pub ends: Vec<&'a str>,
    pub discarded: bool,
}

/// A part that came off.
#[derive(Debug, Clone)]
pub(super) struct Part<'a> {
    pub id: u32,
    pub word: &'a str,
    pub count: Option<u32>,
    pub from: Where<'a>,
    /// The word that led the place it left: `from`, `off`, `out of`.
    pub led: &'a str,
    /// Pressed, pushed or slid off: with what, and by which verb.
    pub by: Option<&'a Work>,
    pub discarded: bool,
    /// Looked at since it came off.
    pub checked: bool,
    pub mark: Option<Mark<'a>>,
}

/// Marks that parts go back by.
#[derive(Debug, Clone)]
pub(super) struct Mark<'a> {
    pub label: &'a str,
    pub parts: Vec<u32>,
}

/// A place, as the step named it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Where<'a> {
    Nowhere,
    Of(u32, &'a str),
    Words(&'a str),
}

/// Walks the main line of the steps; what only follows from a finding is left out.
pub(super) fn of<'a>(procedure: &'a Procedure, declarations: &'a Declarations) -> Vec<Owed<'a>> {
    let mut walk = Walk { declarations, owed: Vec::new(), marks: Vec::new(), action: 0, fitted: Vec::new() };
    for step in procedure.steps() {
        for action in &step.actions {
            walk.action += 1;
            if let Action::Work(work) = action {
                walk.work(work, &step.applies);
            }
        }
    }
    walk.in_hand();
    walk.owed
}

/// The part of an obligation, where it is of one kind.
type OfKind = fn(&Kind<'_>) -> Option<u32>;

struct Walk<'a> {
    declarations: &'a Declarations,
    owed: Vec<Owed<'a>>,
    marks: Vec<Mark<'a>>,
    action: usize,
    /// Parts that went on, and are on.
    fitted: Vec<u32>,
}

impl<'a> Walk<'a> {
    fn work(&mut self, work: &'a Work, applies: &'a Applies) {
        let does = |effect| work.verb.does(effect);
        let parts: Vec<(&'a Object, u32)> = parts_of(&work.objects).collect();
        if does(Effect::Marks) {
            let ids: Vec<u32> = parts.iter().map(|(_, id)| *id).collect();
            self.marks.extend(work.labels.first().map(|label| Mark { label: label.as_str(), parts: ids }));
        }
        for (object, id) in parts {
            self.part(work, object, id, applies);
        }
        let supports = does(Effect::Supports);
        let places = work.places.iter().filter(|_| supports).flat_map(|place| match &place.what {
            PlaceTarget::Objects(objects) => objects.as_slice(),
            _ => &[],
        });
        // `plug hose with caps`, `support axle with stand`.
        let by_the_way = work.tools.iter().filter(|_| supports || does(Effect::Inserts));
        for object in work.objects.iter().chain(places).chain(by_the_way) {
            if let Some(Name::Tool(id)) = object.name {
                self.tool(work, object, id, applies);
            }
        }
        // `drain oil from casing`: what it is drained from stands as the place.
        if let (true, Where::Of(id, _)) = (does(Effect::Drains) && work.objects.is_empty(), place_of(work)) {
            self.open(Kind::Fill(id), applies);
        }
    }

    fn part(&mut self, work: &'a Work, object: &'a Object, id: u32, applies: &'a Applies) {
        let does = |effect| work.verb.does(effect);
        if does(Effect::Renews) {
            return;
        }
        if does(Effect::Disconnects) {
            self.settle(|kind| matches!(kind, Kind::Tighten(it) if *it == id));
            let line = Line { id, from: place_of(work), ends: other_ends(work), discarded: false };
            self.open(Kind::Connect(line), applies);
        } else if work.takes_off() {
            self.came_off(work, object, id, applies);
        } else if work.fits() {
            self.settle(|kind| matches!(kind, Kind::Fit(part) if part.id == id));
            self.fitted.push(id);
        } else if does(Effect::Loosens) {
            self.open(Kind::Tighten(id), applies);
        }
        if does(Effect::Discards) {
            self.known(id, |part| part.discarded = true);
            let line = self.owed.iter_mut().rev().find_map(|owed| match &mut owed.kind {
                Kind::Connect(line) if line.id == id => Some(line),
                _ => None,
            });
            if let Some(line) = line {
                line.discarded = true;
            }
        }
        if [Effect::Inspects, Effect::Measures, Effect::Checks].into_iter().any(does) {
            self.known(id, |part| part.checked = true);
        }
        let opens: [(Effect, Kind<'a>); 7] = [
            (Effect::Drains, Kind::Fill(id)),
            (Effect::LocksOut, Kind::Unlock(id)),
            (Effect::Tags, Kind::Untag(id)),
            (Effect::Isolates, Kind::TurnOn { part: id, verb: back_on(&work.verb.name) }),
            (Effect::Raises, Kind::Lower(id, work)),
            (Effect::Opens, Kind::Close(id)),
            (Effect::Supports, Kind::Release(id)),
        ];
        for (effect, kind) in opens {
            // What stands on a temporary tool is free again when the tool comes out.
            let on_tool = effect == Effect::Supports && self.names_temporary(work);
            if does(effect) && !on_tool {
                self.open(kind, applies);
            }
        }
        if does(Effect::Lowers) {
            self.set_down(id);
        }
        let settles: [(Effect, OfKind); 9] = [
            (Effect::Connects, |it| if let Kind::Connect(line) = it { Some(line.id) } else { None }),
            (Effect::Tightens, |it| if let Kind::Tighten(id) = it { Some(*id) } else { None }),
            (Effect::Fills, |it| if let Kind::Fill(id) = it { Some(*id) } else { None }),
            (Effect::Restores, |it| if let Kind::TurnOn { part, .. } = it { Some(*part) } else { None }),
            (Effect::Lowers, |it| if let Kind::Lower(id, _) = it { Some(*id) } else { None }),
            (Effect::Closes, |it| if let Kind::Close(id) = it { Some(*id) } else { None }),
            (Effect::Unlocks, |it| if let Kind::Unlock(id) = it { Some(*id) } else { None }),
            (Effect::Untags, |it| if let Kind::Untag(id) = it { Some(*id) } else { None }),
            (Effect::ReleasesSupport, |it| if let Kind::Release(id) = it { Some(*id) } else { None }),
        ];
        for (effect, of) in settles {
            if does(effect) {
                self.settle(|kind| of(kind) == Some(id));
            }
        }
    }

    fn came_off(&mut self, work: &'a Work, object: &'a Object, id: u32, applies: &'a Applies) {
        self.settle(|kind| matches!(kind, Kind::Tighten(it) if *it == id));
        let stays = self.declarations.part(id).is_none_or(|part| part.stays_off || part.made_from.is_some());
        let before = self.fitted.len();
        self.fitted.retain(|it| *it != id);
        // In hand from the start, fitted for the time of the work, and off again.
        let passing =
            before != self.fitted.len() && self.declarations.part(id).is_some_and(|it| it.starts_off);
        if stays || passing {
            return;
        }
        let mark = self.marks.iter().rev().find(|mark| mark.parts.contains(&id)).cloned();
        let by = work.verb.does(Effect::ByPlace).then_some(work);
        let (word, count) = (object.word.as_str(), object.count);
        let led = work.places.first().map_or("", |place| place.preposition.as_str());
        let part =
            Part { id, word, count, from: place_of(work), led, by, discarded: false, checked: false, mark };
        self.open(Kind::Fit(part), applies);
    }

    fn tool(&mut self, work: &'a Work, object: &'a Object, id: u32, applies: &'a Applies) {
        if self.declarations.tool(id).is_none_or(|tool| tool.temporary.is_none()) {
            return;
        }
        let does = |effect| work.verb.does(effect);
        if work.takes_off() || does(Effect::Withdraws) {
            self.settle(|kind| matches!(kind, Kind::Withdraw { tool, .. } if *tool == id));
        } else if work.fits() || does(Effect::Inserts) || does(Effect::Supports) {
            let (word, count) = (object.word.as_str(), object.count);
            let attached = does(Effect::Connects) || work.verb.name == "attach";
            let by_the_way = work.tools.iter().any(|tool| std::ptr::eq(tool, object));
            let from = match parts_of(&work.objects).next() {
                _ if does(Effect::Supports) => Where::Nowhere,
                Some((part, id)) if by_the_way => Where::Of(id, part.word.as_str()),
                _ => place_of(work),
            };
            self.open(Kind::Withdraw { tool: id, word, count, from, attached, bears: None }, applies);
        }
    }

    /// What was put in place while the part was up now bears it.
    fn set_down(&mut self, id: u32) {
        let raised = |owed: &Owed<'a>| match owed.kind {
            Kind::Lower(part, by) if part == id => Some(by),
            _ => None,
        };
        let Some((at, by)) = self.owed.iter().enumerate().find_map(|(at, it)| Some((at, raised(it)?))) else {
            return;
        };
        for owed in self.owed.iter_mut().skip(at) {
            if let Kind::Withdraw { bears, attached: false, .. } = &mut owed.kind {
                *bears = Some((id, by));
            }
        }
    }

    fn names_temporary(&self, work: &Work) -> bool {
        let temporary = |object: &Object| match object.name {
            Some(Name::Tool(id)) => self.declarations.tool(id).is_some_and(|it| it.temporary.is_some()),
            _ => false,
        };
        let placed = work.places.iter().any(|place| match &place.what {
            PlaceTarget::Objects(objects) => objects.iter().any(temporary),
            _ => false,
        });
        placed || work.tools.iter().any(temporary)
    }

    fn open(&mut self, kind: Kind<'a>, applies: &'a Applies) {
        self.owed.push(Owed { kind, applies, action: self.action });
    }

    fn settle(&mut self, such: impl Fn(&Kind<'a>) -> bool) {
        self.owed.retain(|owed| !such(&owed.kind));
    }

    fn known(&mut self, id: u32, change: impl Fn(&mut Part<'a>)) {
        for owed in &mut self.owed {
            match &mut owed.kind {
                Kind::Fit(part) if part.id == id => change(part),
                _ => {}
            }
        }
    }

    /// Parts that are in hand from the start and did not go on yet: before what holds them, which stands earlier in
    /// the list since the list is read from its end.
    fn in_hand(&mut self) {
        for (id, part) in (0..).zip(&self.declarations.parts) {
            let waits =
                part.starts_off && !part.stays_off && !self.fitted.contains(&id) && part.made_from.is_none();
            if !waits || part.thing.from_catalogue {
                continue;
            }
            self.action += 1;
            let owed = Owed { kind: Kind::FitFirst(id), applies: &part.applies, action: self.action };
            let holds = |other: u32| part.holds.iter().any(|it| it.value == Name::Part(other));
            let held = self.owed.iter().position(|it| it.part().is_some_and(holds));
            self.owed.insert(held.unwrap_or(self.owed.len()), owed);
        }
    }
}

impl Owed<'_> {
    /// The part that goes on.
    pub(super) fn part(&self) -> Option<u32> {
        match &self.kind {
            Kind::Fit(part) => Some(part.id),
            Kind::FitFirst(id) => Some(*id),
            _ => None,
        }
    }
}

fn back_on(verb: &str) -> &'static str {
    if verb == "turn off" { "turn on" } else { "restore" }
}

fn parts_of(objects: &[Object]) -> impl Iterator<Item = (&Object, u32)> {
    objects.iter().filter_map(|object| match object.name {
        Some(Name::Part(id)) => Some((object, id)),
        _ => None,
    })
}

/// What else than the first place the work names.
fn other_ends(work: &Work) -> Vec<&str> {
    let named = work.places.iter().filter_map(|place| match &place.what {
        PlaceTarget::Objects(objects) => Some(objects),
        _ => None,
    });
    named.flatten().skip(1).map(|object| object.word.as_str()).collect()
}

/// The first place of the work.
fn place_of(work: &Work) -> Where<'_> {
    match work.places.first().map(|place| &place.what) {
        Some(PlaceTarget::Text(text)) => Where::Words(text.as_str()),
        Some(PlaceTarget::Objects(objects)) => match parts_of(objects).next() {
            Some((object, id)) => Where::Of(id, object.word.as_str()),
            None => Where::Nowhere,
        },
        _ => Where::Nowhere,
    }
}
