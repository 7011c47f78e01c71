//! Along the steps of a procedure, down every branch.
use super::breach::{Breach, Kind, Way};
use super::groups::Group;
use super::life::{Event, Watch};
use super::seen::Seen;
use super::state::State;
use super::worlds::{Question, Questions, World};
use super::{effects, end, excuse, followed};
use crate::model::action::Action;
use crate::model::step::Outcome;
use crate::model::{Declarations, Name, Procedure, Register, Step};
use crate::source::Span;
use std::cell::OnceCell;

/// What is known for one group of models.
pub(super) struct Book<'a> {
    pub procedure: &'a Procedure,
    pub declarations: &'a Declarations,
    pub group: &'a Group<'a>,
    pub register: &'a Register,
    pub seen: &'a Seen,
    /// How earlier findings came out, in the world that is walked just now.
    pub only_if: Vec<Way>,
    /// Of the step that is walked just now.
    pub extent: Span,
    pub breaches: &'a mut Vec<Breach>,
    /// The last step that tightens each part; worked out when a branch asks.
    pub tightened: OnceCell<Vec<u32>>,
    /// Who looks on, where the life of a part is asked for.
    watch: Option<Watch<'a>>,
}

impl<'a> Book<'a> {
    /// At the start of a walk that nobody watches.
    fn new(
        procedure: &'a Procedure,
        declarations: &'a Declarations,
        group: &'a Group<'a>,
        register: &'a Register,
        seen: &'a Seen,
        breaches: &'a mut Vec<Breach>,
    ) -> Book<'a> {
        Book {
            procedure,
            declarations,
            group,
            register,
            seen,
            only_if: Vec::new(),
            extent: procedure.span,
            breaches,
            tightened: OnceCell::new(),
            watch: None,
        }
    }
}

impl Book<'_> {
    #[cold]
    pub(super) fn breach(&mut self, kind: Kind, what: Name, at: Span) -> &mut Breach {
        self.breaches.push(Breach {
            kind,
            what,
            at,
            other: None,
            since: None,
            models: self.group.models.clone(),
            only_if: self.only_if.clone(),
        });
        let last = self.breaches.len() - 1;
        self.breaches.get_mut(last).expect("one was pushed just now")
    }

    /// Whether it was said on these models that the part went on where another belongs.
    pub(super) fn is_substitute(&self, part: u32) -> bool {
        self.said(|it| it.kind == Kind::Substitute && it.what == Name::Part(part))
    }

    /// Whether it was said on these models that another part went on in its place.
    pub(super) fn is_substituted(&self, part: u32) -> bool {
        self.said(|it| it.kind == Kind::Substitute && it.other == Some(Name::Part(part)))
    }

    /// Whether such a thing was said on these models already.
    pub(super) fn said(&self, such: impl Fn(&Breach) -> bool) -> bool {
        self.breaches.iter().any(|it| it.models == self.group.models && such(it))
    }

    /// Whether the models of the group have the part.
    pub(super) fn has(&self, part: u32) -> bool {
        self.declarations.part(part).is_some_and(|part| self.group.has(&part.applies))
    }
}

/// Walks the procedure for one group of models.
pub(super) fn along<'a>(
    procedure: &'a Procedure,
    declarations: &'a Declarations,
    group: &'a Group<'a>,
    register: &'a Register,
    breaches: &mut Vec<Breach>,
) {
    let start = followed::required(procedure, declarations, group, register);
    let seen = Seen::of(declarations);
    let mut book = Book::new(procedure, declarations, group, register, &seen, breaches);
    for world in walk(&mut book, start) {
        book.only_if = world.ways();
        let state = followed::settled_afterwards(&book, world.state);
        end::of(&mut book, procedure, &state);
    }
}

/// From this state on: how things stand at the end of every way. None where the work ends before.
pub(super) fn to_end<'a>(
    procedure: &'a Procedure,
    declarations: &'a Declarations,
    group: &'a Group<'a>,
    register: &'a Register,
    start: State,
    breaches: &mut Vec<Breach>,
) -> Vec<State> {
    let seen = Seen::of(declarations);
    let mut book = Book::new(procedure, declarations, group, register, &seen, breaches);
    walk(&mut book, start).into_iter().map(|world| world.state).collect()
}

/// The same for what becomes of one part.
pub(super) fn watched<'a>(
    procedure: &'a Procedure,
    declarations: &'a Declarations,
    group: &'a Group<'a>,
    register: &'a Register,
    watch: Watch<'a>,
) -> Vec<Event> {
    let seen = Seen::of(declarations);
    let mut breaches = Vec::new();
    let mut book = Book {
        watch: Some(watch),
        ..Book::new(procedure, declarations, group, register, &seen, &mut breaches)
    };
    let start = followed::required(procedure, declarations, group, register);
    walk(&mut book, start);
    book.watch.map(Watch::events).unwrap_or_default()
}

/// The worlds at the end.
fn walk(book: &mut Book<'_>, start: State) -> Vec<World> {
    let (procedure, group) = (book.procedure, book.group);
    let questions = Questions::of(procedure);
    let mut worlds = vec![World::at_start(start)];
    let elsewhere = excuse::brought(procedure.header.requires.as_deref().unwrap_or(&[]));
    for world in &mut worlds {
        world.state.elsewhere.join(elsewhere);
    }
    for step in procedure.steps().filter(|step| group.has(&step.applies)) {
        book.extent = step.extent;
        if let ([world], true) = (worlds.as_mut_slice(), questions.is_empty()) {
            let goes_on = main_line(book, step, &mut world.state);
            branches(book, step, &mut world.state, None);
            if goes_on {
                continue;
            }
            return Vec::new();
        }
        let asked = questions.asked_at(step.number);
        let mut next = Vec::with_capacity(worlds.len());
        for mut world in worlds {
            if !world.meets(&step.conditions) {
                next.push(world);
                continue;
            }
            book.only_if = world.ways();
            let goes_on = main_line(book, step, &mut world.state);
            match asked {
                Some(question) if goes_on => {
                    branches(book, step, &mut world.state, asked);
                    for (mut split, found) in question.split(world) {
                        book.only_if = split.ways();
                        if answers(book, step, &mut split.state, found.as_deref()) {
                            next.push(split);
                        }
                    }
                }
                _ => {
                    branches(book, step, &mut world.state, None);
                    if goes_on {
                        next.push(world);
                    }
                }
            }
        }
        worlds = questions.merged(next, step.number);
    }
    worlds
}

/// The step's own line. Whether the work goes on after it.
fn main_line(book: &mut Book<'_>, step: &Step, state: &mut State) -> bool {
    let before = book.watch.as_ref().and_then(|watch| watch.part(state));
    let goes_on = run(book, &step.actions, state);
    if let Some(watch) = &mut book.watch {
        watch.look(step, before, state, Way::told(&book.only_if));
    }
    goes_on
}

/// Whether the work goes on after the actions.
fn run(book: &mut Book<'_>, actions: &[Action], state: &mut State) -> bool {
    for action in actions {
        match action {
            Action::Work(work) => effects::work(book, state, work),
            Action::Wait(wait) => state.wait(wait.time.as_ref()),
            Action::Follow(follow) => followed::follow(book, state, &follow.call),
            Action::Hold(_) => state.looked_at_all(),
            Action::Stop(_) => return false,
            Action::Skip(_) | Action::Repeat(_) => {}
            Action::Choose(_) | Action::Calculate(_) | Action::Report(_) => {}
        }
    }
    true
}

/// What an outcome leads to, where later steps hang on it. Whether the work goes on.
fn answers(book: &mut Book<'_>, step: &Step, state: &mut State, found: Option<&str>) -> bool {
    let Some(found) = found else { return true };
    let mine = |outcome: &&Outcome| found == "failed" || outcome.when.iter().any(|it| it.value.is(found));
    let mut outcomes = step.outcomes.iter().filter(mine).peekable();
    if outcomes.peek().is_none() {
        return true;
    }
    outcomes.any(|outcome| goes_on(&outcome.then) && run(book, &outcome.then, state))
}

/// Whether what follows an outcome comes back to the next step.
fn goes_on(actions: &[Action]) -> bool {
    !actions.iter().any(|action| matches!(action, Action::Stop(_) | Action::Skip(_) | Action::Repeat(_)))
}

/// Outcomes, options and exceptions: each from how things stand, and each must come out no more open than that. Not
/// the outcomes that later steps hang on, which are followed further than that.
fn branches(book: &mut Book<'_>, step: &Step, state: &mut State, asked: Option<&Question>) {
    let left = |outcome: &&Outcome| asked.is_none_or(|question| !question.asks_for(outcome));
    let outcomes = step.outcomes.iter().filter(left).map(|outcome| outcome.then.as_slice());
    let options = step.options.iter().map(|option| option.actions.as_slice());
    let exceptions = step.exceptions.iter().map(|exception| exception.actions.as_slice());
    for actions in outcomes.chain(options).chain(exceptions).filter(|actions| has_work(actions)) {
        let before = state.enter();
        let through = run(book, actions, state);
        let changed = state.parts.changed();
        if through {
            end::sets_of_branch(book, &changed, state);
            if goes_on(actions) {
                end::of_branch(book, step, (&changed, &before.tools), state);
            }
        }
        state.leave(before, changed);
    }
}

/// Untyped work settles and opens nothing; a procedure that is followed may do either.
fn has_work(actions: &[Action]) -> bool {
    actions.iter().any(|action| match action {
        Action::Work(work) => !work.verb.effects.is_empty(),
        Action::Follow(_) => true,
        _ => false,
    })
}
