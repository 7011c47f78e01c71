//! The few actions that steer: hold, wait, follow, repeat, choose, stop, skip, report, and `due`.
use super::Resolver;
use super::quantities::Want;
use crate::model::action::{Action, Choose, Follow, Hold, Jump, Repeat, Report, Skip, Stop, Times, Wait};
use crate::model::document::{Call, Due};
use crate::model::quantity::{Dimension, Quantity};
use crate::model::slip::Slip;
use crate::source::Text;
use crate::syntax::ast::{self, Object, Phrase, PhraseKind, Target};

const TIME: Want<'static> = Want { dimensions: &[Dimension::Time], context: "`wait`" };
const A_STEP: &str = "a labelled step";

/// The phrases of a line, taken one by one; what is left has no use.
pub(super) struct Phrases<'t> {
    left: Vec<&'t Phrase>,
    /// Names behind the one that there is room for.
    more: Vec<&'t Object>,
}

impl<'t> Phrases<'t> {
    pub(super) fn of(written: &'t ast::Action) -> Phrases<'t> {
        Phrases { left: written.phrases.iter().collect(), more: Vec::new() }
    }

    fn take<T>(&mut self, pick: impl Fn(&'t Phrase) -> Option<T>) -> Option<T> {
        let (at, found) = self.left.iter().enumerate().find_map(|(at, phrase)| Some((at, pick(phrase)?)))?;
        self.left.remove(at);
        Some(found)
    }

    fn objects(&mut self) -> Option<&'t [Object]> {
        self.take(objects_of)
    }

    /// One bare word, as a role, a number or a label; there is room for no other beside it.
    fn word(&mut self) -> Option<&'t Text> {
        let (first, more) = self.objects()?.split_first()?;
        self.more.extend(more);
        Some(&first.name)
    }

    pub(super) fn text(&mut self) -> Option<Text> {
        self.take(|phrase| if let PhraseKind::Text(text) = &phrase.kind { Some(text.clone()) } else { None })
    }

    pub(super) fn labels(&mut self) -> Vec<Text> {
        self.take(|phrase| match &phrase.kind {
            PhraseKind::Label(labels) => Some(labels.clone()),
            _ => None,
        })
        .unwrap_or_default()
    }

    /// The word behind `from` or `to`.
    fn place(&mut self, wanted: &str) -> Option<&'t Text> {
        self.take(|phrase| match &phrase.kind {
            PhraseKind::Place(place) if place.preposition.as_str() == wanted => match &place.what {
                Target::Objects(objects) => objects.first().map(|object| &object.name),
                _ => None,
            },
            _ => None,
        })
    }

    fn until(&mut self) -> Option<Text> {
        self.take(|phrase| if let PhraseKind::Until(text) = &phrase.kind { Some(text.clone()) } else { None })
    }

    fn times(&mut self) -> Option<Times> {
        self.take(|phrase| match phrase.kind {
            PhraseKind::Times { count, at_most } => Some(Times { count, at_most }),
            _ => None,
        })
    }

    fn time(&mut self) -> Option<&'t ast::Quantity> {
        self.take(|phrase| match &phrase.kind {
            PhraseKind::Quantity(quantity) | PhraseKind::For(Target::Quantity(quantity)) => Some(&**quantity),
            _ => None,
        })
    }

    fn for_each(&mut self) -> Vec<Text> {
        let objects = self.take(|phrase| match &phrase.kind {
            PhraseKind::For(Target::Objects(objects)) => Some(objects),
            _ => None,
        });
        objects.into_iter().flatten().map(|object| object.name.clone()).collect()
    }
}

/// The objects of a phrase that has some.
pub(super) fn objects_of(phrase: &Phrase) -> Option<&[Object]> {
    match &phrase.kind {
        PhraseKind::Objects(objects) => Some(objects),
        _ => None,
    }
}

impl Resolver<'_> {
    /// The action, or `None` after a slip about what it lacks.
    pub(super) fn control(&mut self, written: &ast::Action) -> Option<Action> {
        let mut phrases = Phrases::of(written);
        let texts = self.with_brackets(written);
        let action = match written.verb.as_str() {
            "hold" => self.hold(written, &mut phrases),
            "wait" => self.wait(written, &mut phrases),
            "follow" => self.follow(written, &mut phrases),
            "repeat" => self.repeat(written, &mut phrases),
            "choose" => self.choose(written, &mut phrases),
            "skip" => self.skip(written, &mut phrases),
            "report" => self.report(written, &mut phrases),
            "stop" => Some(Action::Stop(Box::new(Stop { why: phrases.text(), span: written.span }))),
            // A lone `due` is no step; inside an outcome there is nothing to hang it on.
            _ => {
                self.unusable(written.span, "`due` stands in a step's own line");
                return None;
            }
        };
        // A line that lacks something has its slip; what is left over may be what should have stood there.
        if action.is_some() {
            self.left_over(written, &phrases);
        }
        self.check_texts(&texts);
        action
    }

    pub(super) fn left_over(&mut self, written: &ast::Action, phrases: &Phrases<'_>) {
        for phrase in &phrases.left {
            let given = given(&phrase.kind);
            self.slip(Slip::UnusedRole { verb: written.verb.clone(), span: phrase.span, given });
        }
        let given = if matches!(written.verb.as_str(), "hold" | "report") {
            "a second role"
        } else {
            "a second name"
        };
        for object in &phrases.more {
            let (verb, span) = (written.verb.clone(), object.name.span);
            self.slip(Slip::UnusedRole { verb, span, given });
        }
    }

    /// What is there, or the slip that it lacks.
    fn wanted<T>(&mut self, written: &ast::Action, found: Option<T>, wanted: &'static str) -> Option<T> {
        if found.is_none() {
            self.slip(Slip::MissingRole { verb: written.verb.clone(), span: written.span, wanted });
        }
        found
    }

    fn hold(&mut self, written: &ast::Action, phrases: &mut Phrases<'_>) -> Option<Action> {
        let role = self.wanted(written, phrases.word(), "who signs: `hold instructor`")?.clone();
        let statement = phrases.text();
        Some(Action::Hold(Box::new(Hold { role, statement, labels: phrases.labels(), span: written.span })))
    }

    fn wait(&mut self, written: &ast::Action, phrases: &mut Phrases<'_>) -> Option<Action> {
        let time = phrases.time();
        let until = phrases.until();
        until.iter().for_each(|words| self.use_plain_words(words));
        self.wanted(written, time.map(|_| ()).or(until.as_ref().map(|_| ())), "a time, or `until`")?;
        let time: Option<Quantity> = time.and_then(|time| self.quantity(time, TIME));
        Some(Action::Wait(Box::new(Wait { time, until, labels: phrases.labels(), span: written.span })))
    }

    fn follow(&mut self, written: &ast::Action, phrases: &mut Phrases<'_>) -> Option<Action> {
        let number = phrases.word().cloned();
        let text = phrases.text();
        let either = number.as_ref().or(text.as_ref()).map(|text| text.span);
        let span = self.wanted(written, either, "a procedure's number, or a document's title in quotes")?;
        let title = number.as_ref().and_then(|number| self.title_of(number));
        if let Some(number) = &number {
            self.take_in_what_is_left(number);
        }
        let leaves = number.as_ref().and_then(|number| self.left_by(number));
        let call = Call { number, text, title, leaves, span };
        Some(Action::Follow(Box::new(Follow { call, labels: phrases.labels(), span: written.span })))
    }

    fn repeat(&mut self, written: &ast::Action, phrases: &mut Phrases<'_>) -> Option<Action> {
        let from = phrases.place("from").or_else(|| phrases.word());
        let from = self.wanted(written, from, "the label of the step it starts from")?;
        let from = self.jump(from, A_STEP);
        let to = phrases.place("to").map(|label| self.jump(label, A_STEP));
        let until = phrases.until();
        until.iter().for_each(|words| self.use_plain_words(words));
        Some(Action::Repeat(Box::new(Repeat {
            from,
            to,
            for_each: phrases.for_each(),
            until,
            times: phrases.times(),
            labels: phrases.labels(),
            span: written.span,
        })))
    }

    fn choose(&mut self, written: &ast::Action, phrases: &mut Phrases<'_>) -> Option<Action> {
        let question = self.wanted(written, phrases.text(), "the question in quotes")?;
        Some(Action::Choose(Box::new(Choose { question, labels: phrases.labels(), span: written.span })))
    }

    fn skip(&mut self, written: &ast::Action, phrases: &mut Phrases<'_>) -> Option<Action> {
        let label = self.wanted(written, phrases.place("to"), "`to` and the label of a step")?;
        let to: Jump = self.jump(label, A_STEP);
        Some(Action::Skip(Box::new(Skip { to, span: written.span })))
    }

    fn report(&mut self, written: &ast::Action, phrases: &mut Phrases<'_>) -> Option<Action> {
        let role = self.wanted(written, phrases.word(), "who is told: `report supervisor`")?.clone();
        Some(Action::Report(Box::new(Report { role, what: phrases.text(), span: written.span })))
    }

    /// `due "after 10 h running" "tighten again"`.
    pub(super) fn due(&mut self, written: &ast::Action) -> Option<Due> {
        let mut phrases = Phrases::of(written);
        let texts = phrases.text().zip(phrases.text());
        let (when, what) = self.wanted(written, texts, "two texts in quotes: when, and what")?;
        self.left_over(written, &phrases);
        Some(Due { when, what, span: written.span })
    }
}

fn given(kind: &PhraseKind) -> &'static str {
    match kind {
        PhraseKind::Objects(_) => "a name",
        PhraseKind::Place(_) => "a place",
        PhraseKind::Tools(_) => "a tool or a supply",
        PhraseKind::Text(_) => "a text",
        PhraseKind::Label(_) => "a label",
        PhraseKind::Facing(_) => "`facing`",
        PhraseKind::Until(_) => "`until`",
        PhraseKind::While(_) => "`while`",
        PhraseKind::Times { .. } => "a count",
        PhraseKind::For(_) => "`for`",
        PhraseKind::By(_) => "`by`",
        PhraseKind::Quantity(_) => "a quantity",
        PhraseKind::Torque(_) => "a tightening rule",
        PhraseKind::Except { .. } => "`except stage`",
    }
}
