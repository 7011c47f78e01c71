//! What is done, typed and as it reads.
use super::shape::{self, Tightens};
use super::{Maker, call, text};
use crate::model::Action;
use crate::model::action::{Jump, Object, Place, PlaceTarget, Repeat, Work};
use crate::sheets::wording;

impl Maker<'_> {
    pub(super) fn actions(&self, actions: &[Action]) -> Vec<shape::Action> {
        actions.iter().map(|action| self.action(action)).collect()
    }

    fn action(&self, action: &Action) -> shape::Action {
        let typed = match action {
            Action::Work(work) => self.work(work),
            Action::Repeat(repeat) => repeated(repeat),
            _ => self.control(action),
        };
        shape::Action { sentence: wording::action(action, &self.sheet.words).plain(), ..typed }
    }

    fn control(&self, action: &Action) -> shape::Action {
        let of = |kind| shape::Action { kind, ..shape::Action::default() };
        match action {
            Action::Hold(hold) => shape::Action {
                role: Some(text(&hold.role)),
                what: hold.statement.as_ref().map(text),
                ..of("hold")
            },
            Action::Wait(wait) => shape::Action {
                lasting: self.perhaps(wait.time.as_ref()),
                until: wait.until.as_ref().map(text),
                ..of("wait")
            },
            Action::Follow(follow) => shape::Action { call: Some(call(&follow.call)), ..of("follow") },
            Action::Choose(choose) => shape::Action { what: Some(text(&choose.question)), ..of("choose") },
            Action::Calculate(sum) => shape::Action {
                what: Some(text(&sum.name)),
                quantity: self.perhaps(sum.limits.as_ref()),
                ..of("calculate")
            },
            Action::Stop(stop) => shape::Action { what: stop.why.as_ref().map(text), ..of("stop") },
            Action::Skip(skip) => shape::Action { to_step: skip.to.step, ..of("skip") },
            Action::Report(report) => shape::Action {
                role: Some(text(&report.role)),
                what: report.what.as_ref().map(text),
                ..of("report")
            },
            // Both have a shape of their own.
            Action::Work(_) | Action::Repeat(_) => of("work"),
        }
    }

    fn work(&self, work: &Work) -> shape::Action {
        let tightens = self.sheet.tightenings_of(work).filter(|it| it.torque.says_something());
        let tightens = tightens.map(|it| Tightens {
            part: it.fastener.map(|fastener| text(&fastener.part.thing.name)),
            torque: self.torque(&it.torque),
        });
        shape::Action {
            kind: "work",
            verb: Some(&work.verb.name),
            objects: objects(&work.objects),
            places: work.places.iter().map(|it| self.place(it)).collect(),
            tools: objects(&work.tools),
            supplies: objects(&work.supplies),
            quantity: self.perhaps(work.quantity.as_ref()),
            what: work.what.as_ref().map(|it| text(it)),
            facing: work.facing.as_ref().map(text),
            until: work.until.as_ref().map(text),
            during: work.during.as_ref().map(text),
            lasting: self.perhaps(work.lasting.as_ref()),
            by: self.perhaps(work.by.as_ref()),
            times: work.times.as_ref().map(|it| it.count),
            at_most: work.times.as_ref().is_some_and(|it| it.at_most),
            tightens: tightens.collect(),
            ..shape::Action::default()
        }
    }

    fn place(&self, place: &Place) -> shape::Place {
        let preposition = text(&place.preposition);
        let empty = shape::Place { preposition, objects: Vec::new(), distance: None, text: None };
        match &place.what {
            PlaceTarget::Objects(all) => shape::Place { objects: objects(all), ..empty },
            PlaceTarget::Quantity(quantity) => {
                shape::Place { distance: Some(self.amount(quantity)), ..empty }
            }
            PlaceTarget::Text(words) => shape::Place { text: Some(text(words)), ..empty },
        }
    }
}

fn repeated(repeat: &Repeat) -> shape::Action {
    let step = |jump: &Jump| jump.step;
    shape::Action {
        kind: "repeat",
        from_step: step(&repeat.from),
        to_step: repeat.to.as_ref().and_then(step),
        for_each: repeat.for_each.iter().map(text).collect(),
        until: repeat.until.as_ref().map(text),
        times: repeat.times.as_ref().map(|it| it.count),
        at_most: repeat.times.as_ref().is_some_and(|it| it.at_most),
        ..shape::Action::default()
    }
}

fn objects(objects: &[Object]) -> Vec<shape::Object> {
    let one = |it: &Object| shape::Object {
        name: text(&it.word),
        new: it.new.is_some(),
        each: it.each,
        count: it.count,
    };
    objects.iter().map(one).collect()
}
