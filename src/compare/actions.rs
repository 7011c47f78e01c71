//! Facts of one action: its verb, what it is done to, with what, where, how much.
use super::change::Kind;
use super::fact::{Aliases, Fact, one_line, plainly};
use super::values;
use crate::model::action::{Expression, Object, PlaceTarget, Repeat, Times, TorqueSource, Work};
use crate::model::verb::Quantities;
use crate::model::{Action, Declarations};
use crate::source::Text;

/// What reading an action needs to know of its side.
#[derive(Clone, Copy)]
pub struct Reader<'a> {
    pub declarations: &'a Declarations,
    pub aliases: &'a Aliases,
}

/// What an action is recognised by, though its details change.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Key {
    pub verb: String,
    /// Sorted.
    pub objects: Vec<String>,
}

impl Reader<'_> {
    fn name(&self, object: &Object) -> String {
        self.aliases.name(object.word.as_str()).to_owned()
    }

    fn names(&self, objects: &[Object]) -> Vec<String> {
        objects.iter().map(|object| self.name(object)).collect()
    }

    pub fn key(&self, action: &Action) -> Key {
        let (verb, mut objects) = match action {
            Action::Work(work) => (work.verb.name.as_str(), self.names(&work.objects)),
            Action::Hold(_) => ("hold", Vec::new()),
            Action::Wait(it) => ("wait", it.until.iter().map(|it| plainly(it.as_str())).collect()),
            Action::Follow(it) => {
                let called = it.call.number.as_ref().or(it.call.text.as_ref());
                ("follow", called.iter().map(|it| it.value.to_string()).collect())
            }
            Action::Repeat(it) => ("repeat", vec![self.aliases.of_label(it.from.label.as_str()).to_owned()]),
            Action::Choose(it) => ("choose", vec![plainly(it.question.as_str())]),
            Action::Calculate(it) => ("calculate", vec![self.aliases.of_label(it.name.as_str()).to_owned()]),
            Action::Stop(_) => ("stop", Vec::new()),
            Action::Skip(_) => ("skip", Vec::new()),
            Action::Report(it) => ("report", vec![it.role.value.to_string()]),
        };
        if let (true, Action::Work(work)) = (objects.is_empty(), action) {
            objects.extend(work.what.as_ref().map(|it| plainly(it.as_str())));
        }
        objects.sort_unstable();
        Key { verb: verb.to_owned(), objects }
    }

    /// All of it as one text that is equal where it means the same.
    pub fn meaning(&self, action: &Action) -> String {
        let key = self.key(action);
        let facts = self.facts(action);
        let mut parts = vec![format!("{} {}", key.verb, key.objects.join(" "))];
        let named = |fact: &&Fact| fact.kind.class() == super::Class::Meaning;
        parts.extend(facts.iter().filter(named).map(|fact| format!("{}={}", fact.aspect, fact.meaning)));
        parts.join("; ")
    }

    pub fn facts(&self, action: &Action) -> Vec<Fact> {
        let said = |kind, aspect: &str, text: &Option<Text>| {
            text.as_ref().map(|it| Fact::said(kind, aspect, it.as_str()))
        };
        let step = Kind::Step;
        match action {
            Action::Work(work) => self.work(work),
            Action::Hold(it) => {
                let role = Fact::said(Kind::Hold, "signer", it.role.as_str());
                let statement = it.statement.as_ref().map(|it| Fact::free("statement", it.as_str()));
                [Some(role), statement, labels(&it.labels)].into_iter().flatten().collect()
            }
            Action::Wait(it) => {
                let time = it.time.as_ref().map(|it| values::fact(Kind::Amount, "time", it));
                [time, said(step, "until", &it.until), labels(&it.labels)].into_iter().flatten().collect()
            }
            Action::Follow(it) => {
                let called = it.call.number.as_ref().or(it.call.text.as_ref());
                let called = called.map(|it| Fact::said(step, "procedure", it.as_str()));
                [called, labels(&it.labels)].into_iter().flatten().collect()
            }
            Action::Repeat(it) => self.repeat(it),
            Action::Choose(it) => {
                let question = Fact::said(step, "question", it.question.as_str());
                [Some(question), labels(&it.labels)].into_iter().flatten().collect()
            }
            Action::Calculate(it) => {
                let formula = self.formula(&it.expression);
                let limits = it.limits.as_ref().map(|it| values::fact(Kind::Limit, "limits", it));
                let text = it.text.as_ref().map(|it| Fact::free("text", it.as_str()));
                [Some(Fact::new(step, "formula", formula.0, formula.1)), limits, text]
                    .into_iter()
                    .flatten()
                    .collect()
            }
            Action::Stop(it) => it.why.iter().map(|it| Fact::free("reason", it.as_str())).collect(),
            Action::Skip(it) => {
                let label = self.aliases.of_label(it.to.label.as_str());
                vec![Fact::new(step, "goes on at", label, it.to.label.as_str())]
            }
            Action::Report(it) => {
                let role = Fact::said(step, "told", it.role.as_str());
                let what = it.what.as_ref().map(|it| Fact::free("what is told", it.as_str()));
                [Some(role), what].into_iter().flatten().collect()
            }
        }
    }

    fn work(&self, work: &Work) -> Vec<Fact> {
        let kind = Kind::Step;
        let mut facts = vec![Fact::new(kind, "verb", work.verb.name.as_str(), work.verb.name.as_str())];
        let mut list = |aspect: &str, objects: &[Object], sorted: bool| {
            let mut names: Vec<String> = objects.iter().map(|it| self.counted(it)).collect();
            if sorted {
                names.sort_unstable();
            }
            let words = names.join(", ");
            facts.extend((!words.is_empty()).then(|| Fact::new(kind, aspect, words.clone(), words)));
        };
        list("what it is done to", &work.objects, false);
        list("with", &work.tools, true);
        list("using", &work.supplies, true);
        let new = work.objects.iter().filter(|it| it.new.is_some());
        facts.extend(new.map(|it| Fact::new(Kind::SingleUse, &new_aspect(&self.name(it)), "new", "new")));
        let places = work.places.iter().map(|it| self.place(&it.what, it.preposition.as_str()));
        let (meant, said): (Vec<String>, Vec<String>) = places.unzip();
        facts.extend((!said.is_empty()).then(|| Fact::new(kind, "where", meant.join("; "), said.join(" "))));
        facts.extend(amount(work));
        facts.extend(work.what.as_ref().map(|it| Fact::said(kind, "what", it.as_str())));
        facts.extend(times(work.times));
        let said = [("facing", &work.facing), ("until", &work.until), ("while", &work.during)];
        facts.extend(
            said.into_iter().filter_map(|(it, text)| Some(Fact::said(kind, it, text.as_ref()?.as_str()))),
        );
        let amounts = [("for", &work.lasting), ("by", &work.by), ("adapter at", &work.adapter_angle)];
        facts.extend(
            amounts
                .into_iter()
                .filter_map(|(it, value)| Some(values::fact(Kind::Amount, it, value.as_ref()?))),
        );
        facts.extend(work.sentence.as_ref().map(|it| Fact::free("sentence", it.as_str())));
        facts.extend(self.torques(work));
        facts.extend(labels(&work.labels));
        facts
    }

    /// What the step itself says of the torque; what a part or a list says is told there.
    fn torques(&self, work: &Work) -> Vec<Fact> {
        let mut facts = Vec::new();
        if let TorqueSource::Named(list) = work.torque_source {
            let list = self.declarations.torques.get(list as usize);
            let name = list.map_or("", |it| self.aliases.name(it.thing.name.as_str()));
            facts.push(Fact::new(Kind::Torque, "tightening list", name, name));
        }
        let own =
            work.torque.as_ref().map(|torque| values::torque("torque", &values::within(torque, work.span)));
        facts.extend(own.filter(|fact| !fact.meaning.is_empty()));
        for exception in &work.exceptions {
            let on = exception.on.as_ref().map(|it| format!(" on {}", it.value)).unwrap_or_default();
            let aspect = format!("exception at stage {}{on}", exception.stage.value);
            facts.push(values::fact(Kind::Torque, &aspect, &exception.value));
        }
        facts
    }

    fn repeat(&self, repeat: &Repeat) -> Vec<Fact> {
        let kind = Kind::Step;
        let mut facts = Vec::new();
        let jumps = [("from", Some(&repeat.from)), ("to", repeat.to.as_ref())];
        for (aspect, jump) in jumps {
            facts.extend(jump.map(|jump| {
                Fact::new(kind, aspect, self.aliases.of_label(jump.label.as_str()), jump.label.as_str())
            }));
        }
        let places = repeat.for_each.iter().map(Text::as_str).collect::<Vec<_>>().join(", ");
        facts.extend((!places.is_empty()).then(|| Fact::said(kind, "for", &places)));
        facts.extend(repeat.until.as_ref().map(|it| Fact::said(kind, "until", it.as_str())));
        facts.extend(times(repeat.times));
        facts.extend(labels(&repeat.labels));
        facts
    }

    fn counted(&self, object: &Object) -> String {
        let count = object.count.map(|count| format!("{count} of ")).unwrap_or_default();
        let each = if object.each { "each " } else { "" };
        format!("{each}{count}{}", self.name(object))
    }

    fn place(&self, target: &PlaceTarget, preposition: &str) -> (String, String) {
        let (meant, said) = match target {
            PlaceTarget::Objects(objects) => {
                let names = self.names(objects).join(", ");
                (names.clone(), names)
            }
            PlaceTarget::Quantity(quantity) => (values::meaning(quantity), values::words(quantity)),
            PlaceTarget::Text(text) => (plainly(text.as_str()), one_line(text.as_str())),
        };
        (format!("{preposition} {meant}"), format!("{preposition} {said}"))
    }

    /// What it means, and as readers see it.
    fn formula(&self, expression: &Expression) -> (String, String) {
        match expression {
            Expression::Quantity(it) => (values::meaning(it), values::words(it)),
            Expression::Number(it) => (format!("{:?}", it.value()), it.to_string()),
            Expression::Reading { label, .. } => {
                (self.aliases.of_label(label.as_str()).to_owned(), label.value.to_string())
            }
            Expression::Binary { operator, left, right } => {
                let (left, right) = (self.formula(left), self.formula(right));
                (format!("({} {operator} {})", left.0, right.0), format!("{} {operator} {}", left.1, right.1))
            }
        }
    }
}

/// A limit where the verb measures; a torque is told as a torque.
fn amount(work: &Work) -> Option<Fact> {
    let quantity = work.quantity.as_ref()?;
    match work.verb.quantity {
        Quantities::Limit => Some(values::fact(Kind::Limit, "limit", quantity)),
        Quantities::Torque if work.torque.is_some() => None,
        Quantities::Torque => Some(values::fact(Kind::Torque, "torque", quantity)),
        Quantities::Amount | Quantities::Refused => Some(values::fact(Kind::Amount, "amount", quantity)),
    }
}

fn times(times: Option<Times>) -> Option<Fact> {
    let Times { count, at_most } = times?;
    let words = if at_most { format!("at most {count} times") } else { format!("{count} times") };
    Some(Fact::new(Kind::Amount, "times", words.clone(), words))
}

fn labels(labels: &[Text]) -> Option<Fact> {
    let words = labels.iter().map(Text::as_str).collect::<Vec<_>>().join(", ");
    (!words.is_empty()).then(|| Fact::new(Kind::Naming, "step's name", words.clone(), words))
}

/// Under which name it stands that an object is fitted new.
pub fn new_aspect(name: &str) -> String {
    format!("{name} fitted new")
}
