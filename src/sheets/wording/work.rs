//! The sentence of work: the verb's template filled with what the line gives.
use super::objects::{self, are_many, is_mentioned, separate};
use super::sentence::{Line, Sentence};
use super::written::{self, Reading};
use super::{Cx, free_text, tightening, verbs};
use crate::model::Language;
use crate::model::action::{Object, Place, PlaceTarget, Work};
use crate::model::quantity::{Form, Quantity};
use crate::model::template::{Piece, Slot, Template};
use crate::model::verb::{Effect, Quantities, Verb};

/// The author's own sentence where there is one, else the generated; a torque and limits are said in both.
pub(super) fn work(work: &Work, cx: &Cx<'_>) -> Sentence {
    let mut line = Line::new(cx);
    match &work.sentence {
        Some(own) => {
            free_text::write(&mut line, own.as_str(), cx);
            tightening::after_own_words(&mut line, work, cx);
        }
        None => generated(&mut line, work, cx),
    }
    limits(&mut line, work, cx);
    line.finish()
}

fn generated(line: &mut Line, work: &Work, cx: &Cx<'_>) {
    let verb = said_verb(work);
    let template = verbs::template(verb, work.objects.is_empty(), cx.tongue.language);
    let filler = Filler { work, cx, template };
    let fill = |line: &mut Line| template.pieces.iter().for_each(|piece| filler.piece(line, piece));
    match template.pieces.first() {
        // The sentence is the author's, so what is added to it is in the author's language too.
        Some(Piece::Slot(Slot::What)) if verb.effects.is_empty() => line.author(cx, fill),
        _ => fill(line),
    }
    // A line at fault may leave all slots empty; no step may print as nothing.
    if line.is_empty() {
        line.text(&work.verb.name);
        line.text(" ");
        objects::objects(line, &work.objects, cx);
    }
    if !filler.says_what()
        && let Some(what) = &work.what
    {
        line.next_sentence();
        free_text::write(line, what.as_str(), cx);
    }
    tightening::afterwards(line, work, cx);
}

/// The verb whose sentence is written: a torque that is only tried reads like a check.
fn said_verb(work: &Work) -> &'static Verb {
    let check = Some("check").filter(|_| tightening::only_checks(work)).and_then(Verb::find);
    check.unwrap_or(work.verb)
}

struct Filler<'a> {
    work: &'a Work,
    cx: &'a Cx<'a>,
    template: &'a Template,
}

impl Filler<'_> {
    fn piece(&self, line: &mut Line, piece: &Piece) {
        match piece {
            Piece::Words(words) => line.text(words),
            Piece::Slot(slot) => self.slot(line, *slot),
            Piece::Group(inner) => {
                if piece.slots().all(|slot| self.is_filled(slot)) {
                    for piece in inner {
                        self.piece(line, piece);
                    }
                }
            }
        }
    }

    fn is_filled(&self, slot: Slot) -> bool {
        let work = self.work;
        match slot {
            Slot::Objects => !work.objects.is_empty(),
            Slot::What | Slot::About | Slot::How | Slot::Claim => work.what.is_some(),
            Slot::Reading => work.what.is_some() || !work.objects.is_empty(),
            Slot::Quantity => self.amount().is_some(),
            Slot::Places => !work.places.is_empty(),
            Slot::Supplies => !work.supplies.is_empty(),
            Slot::Tools => !work.tools.is_empty(),
            Slot::Torque => tightening::says_something(work),
            Slot::Clauses | Slot::Rest => true,
        }
    }

    fn slot(&self, line: &mut Line, slot: Slot) {
        let (work, cx) = (self.work, self.cx);
        let what = work.what.as_ref().map_or("", |it| it.as_str());
        match slot {
            Slot::Objects => objects::objects(line, &work.objects, cx),
            Slot::What => free_text::write(line, what, cx),
            Slot::How => free_text::write(line, written::without_with(what), cx),
            Slot::Claim => claim(line, what, cx),
            Slot::About => self.about(line, what),
            Slot::Reading => self.reading(line, what),
            Slot::Quantity => self.amount().into_iter().for_each(|it| line.value(&cx.quantity(it))),
            Slot::Places => self.places(line),
            Slot::Supplies => with(line, work.supplies.iter(), cx),
            Slot::Tools => objects::objects(line, &work.tools, cx),
            Slot::Torque => tightening::to_torque(line, work, cx),
            Slot::Clauses => self.clauses(line),
            Slot::Rest => self.rest(line),
        }
    }

    fn says_what(&self) -> bool {
        const SAY_IT: [Slot; 5] = [Slot::What, Slot::About, Slot::How, Slot::Claim, Slot::Reading];
        SAY_IT.into_iter().any(|slot| self.template.has(slot))
    }

    /// A bare quantity that is neither a limit nor a torque.
    fn amount(&self) -> Option<&Quantity> {
        let is_amount = self.work.verb.quantity == Quantities::Amount;
        self.work.quantity.as_ref().filter(|_| is_amount)
    }

    fn about(&self, line: &mut Line, what: &str) {
        if !what.is_empty() {
            let leads_on = line.tongue.language == self.cx.written.language && written::leads_on(what);
            line.text(if leads_on { " " } else { line.tongue.colon });
            free_text::write(line, what, self.cx);
        }
    }

    fn reading(&self, line: &mut Line, what: &str) {
        let (work, cx) = (self.work, self.cx);
        if what.is_empty() {
            return objects::objects(line, &work.objects, cx);
        }
        line.text(if line.tongue.articles { written::article_for(what) } else { "" });
        let (head, joint, tail) = match written::reading(what) {
            Reading::Of { head, tail } => (head, line.tongue.of, tail),
            Reading::On(what) => (what, line.tongue.on, ""),
        };
        free_text::write(line, head, cx);
        if !work.objects.is_empty() {
            line.text(joint);
            objects::objects(line, &work.objects, cx);
        }
        if !tail.is_empty() {
            line.text(if tail.starts_with(',') { "" } else { " " });
            free_text::write(line, tail, cx);
            if written::tail_wants_comma(tail) {
                line.end_set_off();
            }
        }
    }

    fn places(&self, line: &mut Line) {
        let shown = self.work.places.iter().filter(|place| !self.is_said(place));
        for (index, it) in shown.enumerate() {
            if index > 0 {
                line.text(" ");
            }
            place(line, it, self.work.verb, self.cx);
        }
    }

    /// Where the text of the action names the thing itself, its place is for the ledger alone.
    fn is_said(&self, place: &Place) -> bool {
        let PlaceTarget::Objects(objects) = &place.what else { return false };
        objects.iter().all(|object| self.is_in_words(object))
    }

    fn is_in_words(&self, object: &Object) -> bool {
        let free = self.template.has(Slot::What).then_some(self.work.what.as_ref()).flatten();
        free.is_some_and(|what| is_mentioned(object, what.as_str(), self.cx))
    }

    /// Everything that the template has no slot for, in the order of the trade's sentences.
    fn rest(&self, line: &mut Line) {
        let (work, cx) = (self.work, self.cx);
        if let Some(by) = &work.by {
            line.text(line.tongue.by);
            let words = cx.quantity(by);
            if work.verb.tightens() { line.torque(&words) } else { line.value(&words) }
        }
        if !self.template.has(Slot::Torque) && tightening::says_something(work) {
            line.text(" ");
            tightening::to_torque(line, work, cx);
        }
        if !self.template.has(Slot::Places) && !work.places.is_empty() {
            line.text(" ");
            self.places(line);
        }
        with(line, self.helpers(), cx);
        if let Some(amount) = self.amount().filter(|_| !self.template.has(Slot::Quantity)) {
            line.set_off();
            line.value(&cx.quantity(amount));
            line.end_set_off();
        }
        if !self.template.has(Slot::Clauses) {
            self.facing(line);
        }
        self.timing(line);
        if !self.template.has(Slot::Clauses) {
            self.meanwhile(line);
        }
    }

    fn clauses(&self, line: &mut Line) {
        self.facing(line);
        self.meanwhile(line);
    }

    fn facing(&self, line: &mut Line) {
        if let Some(facing) = &self.work.facing {
            line.set_off();
            free_text::write(line, facing.as_str(), self.cx);
            line.end_set_off();
        }
    }

    /// Tools and supplies that have no slot of their own.
    fn helpers(&self) -> impl Iterator<Item = &Object> + Clone {
        let supplies = self.work.supplies.iter().filter(|_| !self.template.has(Slot::Supplies));
        let tools = self.work.tools.iter().filter(|_| !self.template.has(Slot::Tools));
        supplies.chain(tools).filter(|object| !self.is_in_words(object))
    }

    /// How often and how long.
    fn timing(&self, line: &mut Line) {
        let (work, cx) = (self.work, self.cx);
        if let Some(times) = work.times {
            line.text(" ");
            line.text(&line.tongue.times(times.count, times.at_most));
        }
        if let Some(lasting) = &work.lasting {
            let [before, after] = line.tongue.lasting;
            line.text(before);
            line.value(&cx.quantity(lasting));
            line.text(after);
        }
    }

    /// While what and until when.
    fn meanwhile(&self, line: &mut Line) {
        let (work, cx) = (self.work, self.cx);
        if let Some(during) = &work.during {
            line.text(line.tongue.during);
            meanwhile(line, during.as_str(), cx);
        }
        if let Some(until) = &work.until {
            line.text(line.tongue.until);
            let many = are_many(&work.objects, cx);
            let english = cx.written.language == Language::English;
            let words = if english { written::until(until.as_str(), many) } else { until.value.to_string() };
            free_text::write(line, &words, cx);
        }
    }
}

/// "Make sure that …", unless the words are an order already.
fn claim(line: &mut Line, what: &str, cx: &Cx<'_>) {
    if !written::is_order(what) {
        line.text(line.tongue.make_sure_that);
    }
    free_text::write(line, what, cx);
}

fn with<'a>(line: &mut Line, helpers: impl Iterator<Item = &'a Object> + Clone, cx: &Cx<'_>) {
    let count = helpers.clone().count();
    for (index, it) in helpers.enumerate() {
        if index == 0 {
            line.text(line.tongue.with);
        }
        separate(line, index, count, line.tongue.and);
        objects::objects(line, std::slice::from_ref(it), cx);
    }
}

fn place(line: &mut Line, place: &Place, verb: &Verb, cx: &Cx<'_>) {
    let amount = matches!(place.what, PlaceTarget::Quantity(_));
    let written = place.preposition.as_str();
    let own = verbs::place(verb, written, line.tongue.language).filter(|_| !amount);
    line.text(own.unwrap_or_else(|| line.tongue.place(written, amount)));
    line.text(" ");
    match &place.what {
        PlaceTarget::Text(words) => free_text::write(line, words.as_str(), cx),
        PlaceTarget::Quantity(quantity) => line.value(&cx.quantity(quantity)),
        PlaceTarget::Objects(objects) => {
            if objects.iter().any(|object| is_mark(object, cx)) {
                line.text(line.tongue.marks_of);
            }
            objects::objects(line, objects, cx);
        }
    }
}

/// A label of a step that marks something stands for the marks.
fn is_mark(object: &Object, cx: &Cx<'_>) -> bool {
    let step = object.name.is_none().then(|| cx.labels.get(object.word.as_str())).flatten();
    let mut works = step.into_iter().flat_map(|step| step.actions.iter().filter_map(|action| action.work()));
    works
        .any(|work| work.verb.does(Effect::Marks) && work.labels.iter().any(|l| l.value == object.word.value))
}

/// "turning the hub" from `turning hub`; anything else as it stands.
pub(super) fn meanwhile(line: &mut Line, words: &str, cx: &Cx<'_>) {
    if let Some((verb, word)) = words.split_once(' ')
        && written::is_gerund(verb)
        && let Some(name) = cx.declarations.find(word)
        && let Some(thing) = cx.declarations.thing(name)
    {
        line.author(cx, |line| {
            line.text(verb);
            line.text(" ");
            objects::mention(line, name, thing, word, false, cx);
        });
    } else {
        free_text::write(line, words, cx);
    }
}

fn limits(line: &mut Line, work: &Work, cx: &Cx<'_>) {
    let is_limit = work.verb.quantity == Quantities::Limit;
    if let Some(limit) = work.quantity.as_ref().filter(|_| is_limit) {
        line.next_sentence();
        limit_sentence(line, limit, cx);
    }
}

fn limit_sentence(line: &mut Line, limit: &Quantity, cx: &Cx<'_>) {
    let words = match limit.form() {
        Form::None => return line.text(line.tongue.none_allowed),
        Form::Max(_) | Form::Min(_) | Form::Exact(_) => line.tongue.limit,
        Form::Between(..) | Form::Tolerance { .. } | Form::NewWorn { .. } => line.tongue.limits,
    };
    line.text(words);
    line.limit(&cx.quantity(limit));
}
