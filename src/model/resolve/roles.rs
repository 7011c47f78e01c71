//! Work: each phrase of a line to the role it plays for its verb.
use super::Resolver;
use super::actions::Found;
use super::objects::{is_thing, named};
use super::quantities::Want;
use super::{make_room, taken};
use crate::model::action::{Object, Objects, Place, Times, TorqueException, Work};
use crate::model::declarations::Name;
use crate::model::placeholder::stands_for_words;
use crate::model::quantity::{Dimension, Unit};
use crate::model::rare::Rare;
use crate::model::slip::{BARE_SUPPLY, BARE_TOOL, Slip};
use crate::model::verb::{Effect, Need, Quantities, Verb};
use crate::source::{Span, Text};
use crate::syntax::ast::{self, Amount, Phrase, PhraseKind, QuantityForm, Stage, Target, TorqueItem};

const TIME: Want<'static> = Want { dimensions: &[Dimension::Time], context: "`for`" };

const ANGLE: Want<'static> = Want { dimensions: &[Dimension::Angle], context: "how an adapter stands" };

/// What stands where no limit is asked.
const NONE: &str = "the limit `none`";

/// A line as it fills up.
pub(super) struct Filling<'t> {
    pub(super) work: Box<Work>,
    /// What says how tight, in the order written.
    pub(super) items: Vec<TorqueItem>,
    /// `by NAME`.
    pub(super) list: Option<&'t Text>,
}

impl Resolver<'_> {
    pub(super) fn work(&mut self, written: &mut ast::Action, found: Found, stages: &[Stage]) -> Box<Work> {
        let with_brackets = self.with_brackets(written);
        // Written where it stays: it is large.
        let work = Box::write(Box::new_uninit(), blank(found, written.span));
        let mut filling = Filling { work, items: Vec::new(), list: None };
        let mut phrases = written.phrases.iter_mut();
        if let (true, Some(particle)) = (found.particle_leads, &written.particle)
            && let Some(Phrase { kind: PhraseKind::Objects(objects), .. }) = phrases.next()
        {
            let what = crate::model::action::PlaceTarget::Objects(self.objects_or_labels(objects));
            filling.work.places.push(Place { preposition: (**particle).clone(), what });
        }
        for phrase in phrases {
            self.phrase(&mut filling, phrase);
        }
        self.check_texts(&with_brackets);
        self.tightness(&mut filling, stages, written.span);
        self.needs(&filling);
        self.look_for_wrench(&filling.work);
        self.remember_reading(&filling.work);
        filling.work
    }

    /// Tools and supplies behind a part without the word that says what they are for (`remove screws wrench`) are taken as
    /// what they must be, so that the rest of the work is followed; what is left of the objects.
    fn without_bare_tools(&mut self, work: &mut Work, objects: Objects) -> Vec<Object> {
        let is_part = |object: &Object| matches!(object.name, Some(Name::Part(_)));
        // A name that nobody declared may be the misspelt word.
        if !work.objects.iter().any(is_part) || work.objects.iter().any(|object| object.name.is_none()) {
            return objects.into_iter().collect();
        }
        let mut left = Vec::new();
        for object in objects {
            let (given, mine) = match object.name {
                Some(Name::Tool(_)) => (BARE_TOOL, &mut work.tools),
                Some(Name::Supply(_)) => (BARE_SUPPLY, &mut work.supplies),
                _ => {
                    left.push(object);
                    continue;
                }
            };
            self.slip(Slip::UnusedRole { verb: object.word.clone(), span: object.word.span, given });
            mine.push(object);
        }
        left
    }

    fn phrase<'t>(&mut self, filling: &mut Filling<'t>, phrase: &'t mut Phrase) {
        let (verb, span) = (filling.work.verb, phrase.span);
        match &mut phrase.kind {
            PhraseKind::Objects(objects) => {
                let objects =
                    if names_results(verb) { self.objects_or_labels(objects) } else { self.objects(objects) };
                // Nearly always the first, whose table then needs no copy.
                if filling.work.objects.is_empty() {
                    filling.work.objects = objects;
                } else {
                    let objects = self.without_bare_tools(&mut filling.work, objects);
                    filling.work.objects.extend(objects);
                }
            }
            PhraseKind::Place(place) => match &mut place.what {
                Target::Quantity(angle)
                    if verb.tightens() && place.preposition.value == "at" && is_angle(angle) =>
                {
                    let typed = self.quantity(angle, ANGLE);
                    let free = filling.work.adapter_angle.is_none();
                    self.place_once(filling, free, span, "a second angle", |work| {
                        work.extras.make().adapter_angle = typed
                    });
                }
                Target::Quantity(quantity) if verb.tightens() => {
                    filling.items.push(Resolver::as_item(quantity));
                }
                what => {
                    if let Some(what) = self.place(what) {
                        make_room(&mut filling.work.places, 1);
                        let preposition = taken(&mut place.preposition);
                        filling.work.places.push(Place { preposition, what });
                    }
                }
            },
            PhraseKind::Tools(objects) => self.with(filling, objects),
            PhraseKind::Text(text) => self.said(filling, text),
            PhraseKind::Label(labels) => {
                filling.work.extras.make().labels.extend(std::mem::take(labels));
            }
            PhraseKind::Facing(text) => {
                let free = filling.work.facing.is_none();
                self.place_once(filling, free, span, "a second `facing`", |work| {
                    work.extras.make().facing = Some(taken(text))
                });
            }
            PhraseKind::Until(text) => {
                self.use_plain_words(text);
                let free = filling.work.until.is_none();
                self.place_once(filling, free, span, "a second `until`", |work| {
                    work.extras.make().until = Some(taken(text))
                });
            }
            PhraseKind::While(text) => {
                self.use_plain_words(text);
                let free = filling.work.during.is_none();
                self.place_once(filling, free, span, "a second `while`", |work| {
                    work.extras.make().during = Some(taken(text))
                });
            }
            PhraseKind::Times { count, at_most } => {
                let free = filling.work.times.is_none();
                let times = Times { count: *count, at_most: *at_most };
                self.place_once(filling, free, span, "a second count", |work| work.times = Some(times));
            }
            PhraseKind::For(Target::Quantity(quantity)) => {
                let lasting = self.quantity(quantity, TIME);
                let free = filling.work.lasting.is_none();
                self.place_once(filling, free, span, "a second `for`", |work| {
                    work.extras.make().lasting = lasting
                });
            }
            PhraseKind::For(_) => self.unused(filling.work.verb_span, span, "`for` without a time"),
            PhraseKind::By(target) => self.by(filling, target, span),
            PhraseKind::Quantity(quantity) => self.amount(filling, quantity),
            PhraseKind::Torque(item) => self.rule(filling, item),
            PhraseKind::Except(except) => {
                let ast::Except { stage, value, on } = &**except;
                self.torque_exception(filling, *stage, value, on.as_ref())
            }
        }
    }

    /// Fills a role that takes one thing.
    fn place_once(
        &mut self,
        filling: &mut Filling<'_>,
        free: bool,
        span: Span,
        given: &'static str,
        fill: impl FnOnce(&mut Work),
    ) {
        if free {
            fill(&mut filling.work);
        } else {
            self.unused(filling.work.verb_span, span, given);
        }
    }

    #[cold]
    fn unused(&mut self, verb: Span, span: Span, given: &'static str) {
        let verb = self.written(verb);
        self.slip(Slip::UnusedRole { verb, span, given });
    }

    #[cold]
    fn missing(&mut self, work: &Work, wanted: &'static str) {
        let verb = self.written(work.verb_span);
        self.slip(Slip::MissingRole { verb, span: work.span, wanted });
    }

    /// What the source has there.
    fn written(&self, span: Span) -> Text {
        Text::new(self.source.slice(span).to_owned(), span)
    }

    /// Tools and supplies come behind `with` and `using` alike: what the name is decides.
    fn with(&mut self, filling: &mut Filling<'_>, written: &mut [ast::Object]) {
        let most = written.len();
        for object in written {
            let name = self.reference(&object.name, "a tool or a supply", is_thing);
            let object = named(name, object);
            let list = if matches!(name, Some(Name::Supply(_))) {
                &mut filling.work.supplies
            } else {
                &mut filling.work.tools
            };
            make_room(list, most);
            list.push(object);
        }
    }

    fn by<'t>(&mut self, filling: &mut Filling<'t>, target: &'t Target, span: Span) {
        match target {
            Target::Quantity(quantity) => {
                let by = self.quantity(quantity, Want::ANYTHING);
                let free = filling.work.by.is_none();
                self.place_once(filling, free, span, "a second `by`", |work| work.extras.make().by = by);
            }
            Target::Objects(objects) => match objects.as_slice() {
                [one] if filling.work.verb.tightens() && filling.list.is_none() => {
                    filling.list = Some(&one.name)
                }
                _ => self.unused(filling.work.verb_span, span, "the name of a tightening list"),
            },
            Target::Text(_) => self.unused(filling.work.verb_span, span, "`by` with a text"),
        }
    }

    fn amount(&mut self, filling: &mut Filling<'_>, quantity: &ast::Quantity) {
        let verb = filling.work.verb;
        if quantity.form == QuantityForm::None && verb.quantity != Quantities::Limit {
            self.unused(filling.work.verb_span, quantity.span, NONE);
        } else if verb.tightens() || verb.quantity == Quantities::Torque {
            filling.items.push(Resolver::as_item(quantity));
        } else if verb.quantity == Quantities::Refused {
            self.unused(filling.work.verb_span, quantity.span, "a quantity");
        } else {
            let typed = self.quantity(quantity, Want::ANYTHING);
            let free = filling.work.quantity.is_none();
            self.place_once(filling, free, quantity.span, "a second quantity", |work| work.quantity = typed);
        }
    }

    fn rule(&mut self, filling: &mut Filling<'_>, item: &TorqueItem) {
        let verb = filling.work.verb;
        let fits = verb.tightens() || verb.finds || verb.does(Effect::Loosens) || verb.does(Effect::Fits);
        if fits {
            filling.items.push(item.clone());
        } else {
            self.unused(filling.work.verb_span, item.span, "a tightening rule");
        }
    }

    fn torque_exception(
        &mut self,
        filling: &mut Filling<'_>,
        stage: crate::source::Spanned<u32>,
        value: &ast::Quantity,
        on: Option<&Text>,
    ) {
        let dimensions = &[Dimension::Torque, Dimension::Angle];
        let Some(value) = self.quantity(value, Want { dimensions, context: "`except stage`" }) else {
            return;
        };
        if let Some(on) = on {
            self.reference(on, "a part or one of its pieces", |name| matches!(name, Name::Part(_)));
        }
        filling.work.extras.make().exceptions.push(TorqueException { stage, value, on: on.cloned() });
    }

    /// A verb that finds something out is told what by the first text; else a text is the author's sentence.
    fn said(&mut self, filling: &mut Filling<'_>, text: &mut Text) {
        let work = &mut filling.work;
        // A text without a word says nothing: without it the sentence is generated, or its absence is a slip. What
        // keeps the place of words is told of.
        if !text.value.contains(char::is_alphanumeric) && !stands_for_words(&text.value) {
            return;
        }
        if takes_what(work.verb) && work.what.is_none() {
            work.what = Some(Box::new(taken(text)));
        } else if work.sentence.is_none() {
            work.extras.make().sentence = Some(taken(text));
        } else {
            self.unused(work.verb_span, text.span, "one text more than it has a use for");
        }
    }

    /// Names an adapter, or what may be one.
    fn has_adapter(&self, work: &Work) -> bool {
        work.tools.iter().any(|tool| match tool.name {
            Some(Name::Tool(id)) => self.declarations.tool(id).is_some_and(|tool| tool.adapter.is_some()),
            Some(_) => false,
            None => true,
        })
    }

    /// What the verb cannot do without, and what it has no use for.
    fn needs(&mut self, filling: &Filling<'_>) {
        let work = &filling.work;
        match (work.verb.objects, work.objects.first()) {
            (Need::Required, None) => self.missing(work, "what it is done to"),
            (Need::Refused, Some(first)) => self.unused(filling.work.verb_span, first.word.span, "a name"),
            _ => {}
        }
        let stages = work.torque.as_ref().map_or(0, |torque| torque.passes.len().max(1));
        for exception in &work.exceptions {
            if !(1..=stages).contains(&(exception.stage.value as usize)) {
                let given = "an exception to a stage that its list does not have";
                self.unused(work.verb_span, exception.stage.span, given);
            }
        }
        if let Some(angle) = work.adapter_angle.as_ref().filter(|_| !self.has_adapter(work)) {
            self.unused(work.verb_span, angle.span(), "an angle without an adapter");
        }
        if work.verb.what == Need::Required && work.what.is_none() {
            self.missing(work, "a text in quotes that says what");
        }
    }
}

/// Whether what stands behind `at` is how an adapter stands, not a torque.
fn is_angle(quantity: &ast::Quantity) -> bool {
    match &quantity.form {
        QuantityForm::Exact(Amount { unit: Some(unit), .. }) => {
            Unit::find(unit.as_str()).is_some_and(|unit| unit.dimension == Dimension::Angle)
        }
        _ => false,
    }
}

fn takes_what(verb: &Verb) -> bool {
    verb.what != Need::Refused
}

/// Whether the label of a reading or a mark may be its object.
fn names_results(verb: &Verb) -> bool {
    verb.finds || verb.does(Effect::Records) || verb.does(Effect::Aligns)
}

fn blank(found: Found, span: Span) -> Work {
    Work {
        verb: found.verb,
        verb_span: found.span,
        span,
        objects: Objects::new(),
        places: Vec::new(),
        tools: Vec::new(),
        supplies: Vec::new(),
        quantity: None,
        what: None,
        times: None,
        extras: Rare::default(),
    }
}
