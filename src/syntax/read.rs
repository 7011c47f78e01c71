//! Pest's pairs to the tree. Each function reads one kind of structured line; places are those of the file.
use super::ast::*;
use super::lines::Joined;
use crate::source::{FileId, Span, Spanned, Text};
use pest::Parser;
use pest::iterators::{Pair, Pairs};

#[derive(pest_derive::Parser)]
#[grammar = "../grammar/cotter.pest"]
struct Grammar;

/// Deepest nesting of brackets in a calculation; deeper is refused before the grammar sees it.
const DEEPEST: usize = 16;

/// Why a line could not be read: where reading stopped, in bytes of the file, and what could have stood there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unread {
    pub at: usize,
    pub expected: Vec<&'static str>,
    pub too_deep: bool,
}

/// Reads lines of one file.
#[derive(Debug, Clone, Copy)]
pub struct Reader {
    pub file: FileId,
}

type Node<'i> = Pair<'i, Rule>;

/// The pairs of one entry, with what is needed to make places of the file from them.
struct Pairing<'i> {
    file: FileId,
    base: usize,
    pairs: Pairs<'i, Rule>,
}

impl Reader {
    fn pair<'i>(self, rule: Rule, line: &'i Joined<'_>) -> Result<Pairing<'i>, Unread> {
        if nesting(&line.text) > DEEPEST {
            return Err(Unread { at: line.start, expected: Vec::new(), too_deep: true });
        }
        match Grammar::parse(rule, &line.text) {
            Ok(pairs) => Ok(Pairing { file: self.file, base: line.start, pairs }),
            Err(error) => Err(unread(&error, line.start)),
        }
    }

    pub fn procedure(self, line: &Joined<'_>) -> Result<Head, Unread> {
        let p = self.pair(Rule::entry_procedure, line)?;
        let at = p.places();
        let mut number = Text::default();
        let mut title = None;
        for pair in p.pairs {
            match pair.as_rule() {
                Rule::identifier => number = at.text(&pair),
                Rule::text => title = Some(at.quoted(pair)),
                _ => {}
            }
        }
        Ok(Head::Procedure { number, title })
    }

    /// The one text of `catalogue`, `use` and `section`.
    pub fn titled(self, keyword: &str, line: &Joined<'_>) -> Result<Text, Unread> {
        let rule = match keyword {
            "catalogue" => Rule::entry_catalogue,
            "use" => Rule::entry_use,
            _ => Rule::entry_section,
        };
        let mut p = self.pair(rule, line)?;
        let at = p.places();
        Ok(p.pairs.next().map(|pair| at.quoted(pair)).unwrap_or_default())
    }

    /// `parts`, or `parts none`.
    pub fn block(self, line: &Joined<'_>) -> Result<bool, Unread> {
        Ok(self.pair(Rule::entry_block, line)?.pairs.any(|pair| pair.as_rule() == Rule::none_word))
    }

    pub fn message(self, line: &Joined<'_>) -> Result<Message, Unread> {
        let p = self.pair(Rule::entry_message, line)?;
        let at = p.places();
        let mut message =
            Message { signal: Text::default(), hazard: None, scope: None, name: None, text: None };
        for pair in p.pairs.flat_map(Pair::into_inner) {
            match pair.as_rule() {
                Rule::signal => message.signal = at.text(&pair),
                Rule::hazard => message.hazard = Some(at.text(&pair)),
                Rule::scope => message.scope = Some(at.scope(pair)),
                Rule::message_name => message.name = pair.into_inner().next().map(|name| at.text(&name)),
                Rule::text => message.text = Some(at.quoted(pair)),
                _ => {}
            }
        }
        Ok(message)
    }

    pub fn actions(self, line: &Joined<'_>) -> Result<Vec<Action>, Unread> {
        let p = self.pair(Rule::entry_actions, line)?;
        let at = p.places();
        Ok(p.pairs.filter(|pair| pair.as_rule() == Rule::action).map(|pair| at.action(pair)).collect())
    }

    pub fn declaration(self, line: &Joined<'_>) -> Result<Declaration, Unread> {
        let p = self.pair(Rule::entry_declaration, line)?;
        let at = p.places();
        let mut declaration = blank_declaration(at.line_span(line));
        for pair in p.pairs.flat_map(Pair::into_inner) {
            match pair.as_rule() {
                Rule::name => declaration.name = at.text(&pair),
                Rule::text => declaration.text = Some(at.quoted(pair)),
                Rule::multiple => declaration.count = pair.into_inner().next().map(|count| at.count(&count)),
                Rule::pieces => declaration.pieces = pair.into_inner().map(|name| at.text(&name)).collect(),
                Rule::attribute => declaration.attributes.extend(at.attribute(pair)),
                _ => {}
            }
        }
        Ok(declaration)
    }

    /// An entry of `torques`.
    pub fn torque_entry(self, line: &Joined<'_>) -> Result<Declaration, Unread> {
        let p = self.pair(Rule::entry_torque, line)?;
        let at = p.places();
        let mut declaration = blank_declaration(at.line_span(line));
        for pair in p.pairs {
            match pair.as_rule() {
                Rule::name => declaration.name = at.text(&pair),
                Rule::text => declaration.text = Some(at.quoted(pair)),
                Rule::torque_item => declaration.torque.extend(at.torque_item(pair)),
                _ => {}
            }
        }
        Ok(declaration)
    }

    pub fn stage(self, line: &Joined<'_>) -> Result<Stage, Unread> {
        let p = self.pair(Rule::entry_stage, line)?;
        let at = p.places();
        let mut stage = Stage {
            kind: StageKind::Feel(Text::default()),
            during: None,
            pattern: None,
            condition: None,
            span: at.line_span(line),
        };
        for pair in p.pairs {
            match pair.as_rule() {
                Rule::stage_item => stage.kind = at.stage_kind(pair).unwrap_or(stage.kind),
                Rule::during => stage.during = pair.into_inner().next().map(|words| at.words(words)),
                Rule::pattern => stage.pattern = Some(at.text(&pair)),
                Rule::condition => stage.condition = Some(at.text(&pair)),
                _ => {}
            }
        }
        Ok(stage)
    }

    pub fn quantity(self, line: &Joined<'_>) -> Result<Option<Quantity>, Unread> {
        let mut p = self.pair(Rule::entry_quantity, line)?;
        let at = p.places();
        Ok(p.pairs.next().and_then(|pair| at.quantity(pair)))
    }

    pub fn calls(self, line: &Joined<'_>) -> Result<Vec<Call>, Unread> {
        let p = self.pair(Rule::entry_calls, line)?;
        let at = p.places();
        let call = |pair: Node<'_>| {
            let mut call = Call { number: None, text: None };
            for part in pair.into_inner() {
                match part.as_rule() {
                    Rule::identifier => call.number = Some(at.text(&part)),
                    _ => call.text = Some(at.quoted(part)),
                }
            }
            call
        };
        Ok(p.pairs.filter(|pair| pair.as_rule() == Rule::call).map(call).collect())
    }

    pub fn conditions(self, line: &Joined<'_>) -> Result<Vec<Vec<Text>>, Unread> {
        let p = self.pair(Rule::entry_only, line)?;
        let at = p.places();
        let words = |pair: Node<'_>| pair.into_inner().map(|word| at.text(&word)).collect();
        Ok(p.pairs.filter(|pair| pair.as_rule() == Rule::only_item).map(words).collect())
    }

    pub fn waive(self, line: &Joined<'_>) -> Result<(Text, Option<Text>), Unread> {
        let p = self.pair(Rule::entry_waive, line)?;
        let at = p.places();
        let (mut rule, mut why) = (Text::default(), None);
        for pair in p.pairs {
            match pair.as_rule() {
                Rule::word => rule = at.text(&pair),
                Rule::text => why = Some(at.quoted(pair)),
                _ => {}
            }
        }
        Ok((rule, why))
    }
}

fn blank_declaration(span: Span) -> Declaration {
    Declaration {
        name: Text::default(),
        text: None,
        count: None,
        pieces: Vec::new(),
        attributes: Vec::new(),
        torque: Vec::new(),
        stages: Vec::new(),
        details: Vec::new(),
        span,
    }
}

impl Pairing<'_> {
    fn places(&self) -> Places {
        Places { file: self.file, base: self.base }
    }
}

/// Deepest nesting of round brackets.
fn nesting(text: &str) -> usize {
    let mut depth = 0_usize;
    text.bytes().fold(0, |deepest, byte| {
        match byte {
            b'(' => depth += 1,
            b')' => depth = depth.saturating_sub(1),
            _ => {}
        }
        deepest.max(depth)
    })
}

fn unread(error: &pest::error::Error<Rule>, base: usize) -> Unread {
    let at = match error.location {
        pest::error::InputLocation::Pos(at) | pest::error::InputLocation::Span((at, _)) => base + at,
    };
    let mut expected: Vec<&'static str> = match &error.variant {
        pest::error::ErrorVariant::ParsingError { positives, .. } => {
            positives.iter().filter_map(|&rule| plain_name(rule)).collect()
        }
        pest::error::ErrorVariant::CustomError { .. } => Vec::new(),
    };
    expected.sort_unstable();
    expected.dedup();
    Unread { at, expected, too_deep: false }
}

/// What a person would call what the grammar was looking for.
fn plain_name(rule: Rule) -> Option<&'static str> {
    match rule {
        Rule::name | Rule::word | Rule::object | Rule::objects => Some("a name"),
        Rule::text => Some("a text in quotes"),
        Rule::quantity | Rule::amount | Rule::number => Some("a quantity"),
        Rule::identifier => Some("a procedure number"),
        Rule::action | Rule::verb => Some("a verb"),
        Rule::attribute => Some("an attribute"),
        _ => None,
    }
}

/// Makes places of the file from places of one parsed text.
#[derive(Clone, Copy)]
struct Places {
    file: FileId,
    base: usize,
}

impl Places {
    fn span(self, pair: &Node<'_>) -> Span {
        let span = pair.as_span();
        // The grammar may take trailing blanks into a rule that ends in optional parts.
        let end = span.start() + span.as_str().trim_end().len();
        Span::new(self.file, self.base + span.start(), self.base + end)
    }
    fn line_span(self, line: &Joined<'_>) -> Span {
        Span::new(self.file, line.start, line.start + line.text.len())
    }
    fn text(self, pair: &Node<'_>) -> Text {
        Text::new(pair.as_str().trim_end().to_owned(), self.span(pair))
    }
    /// What stands between the quotes, with `\"` and `\\` undone; the place includes the quotes.
    fn quoted(self, pair: Node<'_>) -> Text {
        let span = self.span(&pair);
        let inner = pair.into_inner().next().map_or("", |inner| inner.as_str());
        Text::new(unescape(inner), span)
    }
    fn words(self, pair: Node<'_>) -> Text {
        if pair.as_rule() == Rule::text { self.quoted(pair) } else { self.text(&pair) }
    }
    fn count(self, pair: &Node<'_>) -> Spanned<u32> {
        Spanned::new(number_of(pair), self.span(pair))
    }

    fn scope(self, pair: Node<'_>) -> Spanned<Scope> {
        let span = self.span(&pair);
        let scope = match pair.into_inner().next() {
            Some(inner) if inner.as_rule() == Rule::count => Scope::NextSteps(number_of(&inner)),
            Some(inner) => Scope::Until(self.text(&inner)),
            None => Scope::Section,
        };
        Spanned::new(scope, span)
    }

    fn attribute(self, pair: Node<'_>) -> Option<Attribute> {
        let span = self.span(&pair);
        let inner = pair.into_inner().next()?;
        let word = |len: usize| {
            Text::new(
                inner.as_str().get(..len).unwrap_or("").to_owned(),
                Span::new(self.file, span.start as usize, span.start as usize + len),
            )
        };
        match inner.as_rule() {
            Rule::torque_attribute => {
                let key = word("torque".len());
                let items = inner.into_inner().filter_map(|item| self.torque_item(item)).collect();
                Some(Attribute { key, values: vec![Value::Torque(items)], span })
            }
            Rule::thread_attribute => {
                let key = word("thread".len());
                let mut parts = inner.into_inner();
                let designation = self.text(&parts.next()?);
                let series = parts.next().map(|series| self.text(&series));
                Some(Attribute { key, values: vec![Value::Thread { designation, series }], span })
            }
            _ => {
                let mut values = inner.into_inner().filter_map(|term| self.value(term));
                let key = match values.next()? {
                    Value::Word(word) | Value::Text(word) => word,
                    Value::Quantity(quantity) => Text::new(String::new(), quantity.span),
                    Value::Thread { designation, .. } => designation,
                    Value::Torque(_) => return None,
                };
                Some(Attribute { key, values: values.collect(), span })
            }
        }
    }

    fn value(self, term: Node<'_>) -> Option<Value> {
        let inner = term.into_inner().next()?;
        Some(match inner.as_rule() {
            Rule::text => Value::Text(self.quoted(inner)),
            Rule::quantity => Value::Quantity(self.quantity(inner)?),
            _ => Value::Word(self.text(&inner)),
        })
    }

    fn action(self, pair: Node<'_>) -> Action {
        let span = self.span(&pair);
        let mut action =
            Action { verb: Text::default(), particle: None, phrases: Vec::new(), calculation: None, span };
        let Some(inner) = pair.into_inner().next() else { return action };
        if inner.as_rule() == Rule::calculate {
            let start = span.start as usize;
            let verb = Span::new(self.file, start, start + "calculate".len());
            action.verb = Text::new("calculate".to_owned(), verb);
            self.calculate(inner, &mut action);
            return action;
        }
        for part in inner.into_inner() {
            match part.as_rule() {
                Rule::verb => {
                    let mut words = part.into_inner();
                    action.verb = words.next().map(|word| self.text(&word)).unwrap_or_default();
                    action.particle = words.next().map(|word| self.text(&word));
                }
                _ => action.phrases.extend(self.phrase(part)),
            }
        }
        action
    }

    fn calculate(self, pair: Node<'_>, action: &mut Action) {
        let (mut name, mut expression, mut limits) = (Text::default(), None, None);
        for part in pair.into_inner() {
            let span = self.span(&part);
            match part.as_rule() {
                Rule::name => name = self.text(&part),
                Rule::expression => expression = self.expression(part),
                Rule::quantity => limits = self.quantity(part),
                Rule::label => action.phrases.push(Phrase { kind: self.label(part), span }),
                Rule::text => action.phrases.push(Phrase { kind: PhraseKind::Text(self.quoted(part)), span }),
                _ => {}
            }
        }
        action.calculation = expression.map(|expression| Calculation { name, expression, limits });
    }

    /// Folds `a + b * c` left to right, products first.
    fn expression(self, pair: Node<'_>) -> Option<Expression> {
        let mut sum: Option<(Expression, char)> = None;
        let mut product: Option<Expression> = None;
        let mut operator = ' ';
        for part in pair.into_inner() {
            if part.as_rule() == Rule::operator {
                operator = operator_of(part.as_str());
                if matches!(operator, '+' | '-') {
                    let done = fold(sum.take(), product.take())?;
                    sum = Some((done, operator));
                    operator = ' ';
                }
                continue;
            }
            let term = self.term(part)?;
            product = Some(match product.take() {
                Some(left) => binary(operator, left, term),
                None => term,
            });
        }
        fold(sum, product)
    }

    fn term(self, pair: Node<'_>) -> Option<Expression> {
        let inner = pair.into_inner().next()?;
        match inner.as_rule() {
            Rule::expression => self.expression(inner),
            Rule::amount => Some(Expression::Amount(self.amount(inner))),
            _ => Some(Expression::Reading(self.text(&inner))),
        }
    }

    fn phrase(self, pair: Node<'_>) -> Option<Phrase> {
        let span = self.span(&pair);
        let inner = pair.into_inner().next()?;
        let kind = match inner.as_rule() {
            Rule::text => PhraseKind::Text(self.quoted(inner)),
            Rule::label => self.label(inner),
            Rule::facing => PhraseKind::Facing(self.quoted(inner.into_inner().next()?)),
            Rule::until => PhraseKind::Until(self.words(inner.into_inner().next()?)),
            Rule::during => PhraseKind::While(self.words(inner.into_inner().next()?)),
            Rule::except => self.except(inner)?,
            Rule::times => self.times(inner),
            Rule::lasting => PhraseKind::For(self.target(inner.into_inner().next()?)?),
            Rule::by_turn => PhraseKind::By(self.target(inner.into_inner().next()?)?),
            Rule::torque_word => {
                let kind = self.torque_kind(inner.into_inner().next()?)?;
                PhraseKind::Torque(TorqueItem { kind, span })
            }
            Rule::place => {
                let mut parts = inner.into_inner();
                let preposition = self.text(&parts.next()?);
                PhraseKind::Place { preposition, what: self.target(parts.next()?)? }
            }
            Rule::tools => PhraseKind::Tools(self.objects(inner.into_inner().next()?)),
            Rule::quantity => PhraseKind::Quantity(self.quantity(inner)?),
            _ => PhraseKind::Objects(self.objects(inner)),
        };
        Some(Phrase { kind, span })
    }

    fn label(self, pair: Node<'_>) -> PhraseKind {
        PhraseKind::Label(pair.into_inner().map(|name| self.text(&name)).collect())
    }

    fn except(self, pair: Node<'_>) -> Option<PhraseKind> {
        let mut parts = pair.into_inner();
        let stage = self.count(&parts.next()?);
        let value = self.quantity(parts.next()?)?;
        Some(PhraseKind::Except { stage, value, on: parts.next().map(|name| self.text(&name)) })
    }

    fn times(self, pair: Node<'_>) -> PhraseKind {
        let at_most = pair.as_str().starts_with("at most");
        let twice = pair.as_str().ends_with("twice");
        let count = pair.into_inner().next().map_or(if twice { 2 } else { 1 }, |count| number_of(&count));
        PhraseKind::Times { count, at_most }
    }

    fn target(self, pair: Node<'_>) -> Option<Target> {
        Some(match pair.as_rule() {
            Rule::text => Target::Text(self.quoted(pair)),
            Rule::quantity => Target::Quantity(self.quantity(pair)?),
            Rule::objects => Target::Objects(self.objects(pair)),
            _ => {
                let name = self.text(&pair);
                let span = name.span;
                Target::Objects(vec![Object { name, new: None, each: false, count: None, span }])
            }
        })
    }

    fn objects(self, pair: Node<'_>) -> Vec<Object> {
        pair.into_inner().map(|object| self.object(object)).collect()
    }

    fn object(self, pair: Node<'_>) -> Object {
        let span = self.span(&pair);
        let mut object = Object { name: Text::default(), new: None, each: false, count: None, span };
        for part in pair.into_inner() {
            if part.as_rule() == Rule::name {
                object.name = self.text(&part);
            } else if part.as_str() == "new" {
                object.new = Some(self.span(&part));
            } else if part.as_str() == "each" {
                object.each = true;
            } else if let Some(count) = part.into_inner().next() {
                object.count = Some(self.count(&count));
            }
        }
        object
    }

    fn torque_item(self, pair: Node<'_>) -> Option<TorqueItem> {
        let span = self.span(&pair);
        Some(TorqueItem { kind: self.torque_kind(pair.into_inner().next()?)?, span })
    }

    fn torque_kind(self, pair: Node<'_>) -> Option<TorqueItemKind> {
        use TorqueItemKind as Kind;
        let rule = pair.as_rule();
        Some(match rule {
            Rule::plus_drag => Kind::PlusDrag,
            Rule::never_moved => Kind::NeverMoved,
            Rule::feel => Kind::Feel(pair.as_str().to_owned()),
            Rule::condition => Kind::Condition(pair.as_str().to_owned()),
            Rule::pattern => pattern_of(pair.as_str()),
            Rule::percents => Kind::Percents(pair.into_inner().filter_map(|p| self.percent(p)).collect()),
            Rule::align => {
                let mut parts = pair.into_inner();
                let feature = self.text(&parts.next()?);
                let way = parts.next()?.as_str().split_whitespace().collect::<Vec<_>>().join(" ");
                Kind::Align { feature, way }
            }
            Rule::quantity => Kind::Value(self.quantity(pair)?),
            _ => {
                let quantity = self.quantity(pair.into_inner().next()?)?;
                match rule {
                    Rule::check_torque => Kind::Check(quantity),
                    Rule::then_angle => Kind::Then(quantity),
                    Rule::new_variant => Kind::New(quantity),
                    Rule::reused_variant => Kind::Reused(quantity),
                    _ => Kind::NotAbove(quantity),
                }
            }
        })
    }

    /// `50 %`: the number and its sign.
    fn percent(self, pair: Node<'_>) -> Option<Amount> {
        let span = self.span(&pair);
        let number = self.text(&pair.into_inner().next()?);
        let unit = Text::new(
            "%".to_owned(),
            Span::new(self.file, (span.end as usize).saturating_sub(1), span.end as usize),
        );
        Some(Amount { number, unit: Some(unit), span })
    }

    fn stage_kind(self, pair: Node<'_>) -> Option<StageKind> {
        let inner = pair.into_inner().next()?;
        Some(match inner.as_rule() {
            Rule::feel => StageKind::Feel(self.text(&inner)),
            Rule::percent => StageKind::Percent(self.percent(inner)?),
            Rule::back_off => StageKind::BackOff(self.quantity(inner.into_inner().next()?)?),
            Rule::loosen_to => {
                let target = inner.into_inner().next()?;
                match target.as_rule() {
                    Rule::feel => StageKind::LoosenToFeel(self.text(&target)),
                    _ => StageKind::LoosenTo(self.quantity(target)?),
                }
            }
            _ => StageKind::Value(self.quantity(inner)?),
        })
    }

    fn quantity(self, pair: Node<'_>) -> Option<Quantity> {
        let span = self.span(&pair);
        let mut parts = pair.into_inner();
        let form = self.form(parts.next()?)?;
        let also = parts.next().and_then(|second| {
            let span = self.span(&second);
            let form = self.form(second.into_inner().next()?)?;
            Some(Box::new(Quantity { form, also: None, span }))
        });
        Some(Quantity { form, also, span })
    }

    fn form(self, pair: Node<'_>) -> Option<QuantityForm> {
        let rule = pair.as_rule();
        if rule == Rule::amount {
            return Some(QuantityForm::Exact(self.amount(pair)));
        }
        let mut parts = pair.into_inner();
        let first = parts.next()?;
        Some(match rule {
            Rule::bounded => {
                let low = matches!(first.as_str(), "min" | "at least");
                let amount = self.amount(parts.next()?);
                if low { QuantityForm::Min(amount) } else { QuantityForm::Max(amount) }
            }
            Rule::renewed => {
                QuantityForm::NewWorn { new: self.amount(first), worn: self.amount(parts.next()?) }
            }
            Rule::ranged => {
                QuantityForm::Between { low: self.amount(first), high: self.amount(parts.next()?) }
            }
            _ => self.tolerance(&first, parts)?,
        })
    }

    /// `9 ± 1 N.m` and `500 +1/-0 mm`: numbers, then perhaps a unit that holds for all of them.
    fn tolerance(self, nominal: &Node<'_>, rest: Pairs<'_, Rule>) -> Option<QuantityForm> {
        let rest: Vec<Node<'_>> = rest.collect();
        let unit = rest.iter().find(|p| p.as_rule() == Rule::unit).map(|p| self.text(p));
        let amount = |pair: &Node<'_>| {
            let number = self.text(pair);
            let span = number.span;
            Amount { number, unit: unit.clone(), span }
        };
        let plus = amount(rest.first()?);
        let minus = rest.get(1).filter(|p| p.as_rule() == Rule::number).map_or_else(|| plus.clone(), amount);
        Some(QuantityForm::Tolerance { nominal: amount(nominal), plus, minus })
    }

    fn amount(self, pair: Node<'_>) -> Amount {
        let span = self.span(&pair);
        let mut parts = pair.into_inner();
        let number = parts.next().map(|number| self.text(&number)).unwrap_or_default();
        Amount { number, unit: parts.next().map(|unit| self.text(&unit)), span }
    }
}

/// A count; one past what a sheet could mean saturates.
fn number_of(pair: &Node<'_>) -> u32 {
    pair.as_str().trim().parse().unwrap_or(u32::MAX)
}

fn operator_of(text: &str) -> char {
    match text {
        "−" | "-" => '-',
        "×" | "*" => '*',
        "÷" | "/" => '/',
        _ => '+',
    }
}

fn binary(operator: char, left: Expression, right: Expression) -> Expression {
    let span = span_of(&left).to(span_of(&right));
    Expression::Binary { operator, left: Box::new(left), right: Box::new(right), span }
}

fn fold(sum: Option<(Expression, char)>, product: Option<Expression>) -> Option<Expression> {
    match (sum, product) {
        (Some((left, operator)), Some(right)) => Some(binary(operator, left, right)),
        (None, product) => product,
        (Some((left, _)), None) => Some(left),
    }
}

/// The place of an expression.
pub fn span_of(expression: &Expression) -> Span {
    match expression {
        Expression::Amount(amount) => amount.span,
        Expression::Reading(name) => name.span,
        Expression::Binary { span, .. } => *span,
    }
}

fn pattern_of(text: &str) -> TorqueItemKind {
    match text.split_whitespace().next() {
        Some("order") => {
            TorqueItemKind::Order(text.split_whitespace().skip(1).filter_map(|n| n.parse().ok()).collect())
        }
        Some("from") => TorqueItemKind::Pattern("from centre".to_owned()),
        _ => TorqueItemKind::Pattern(text.trim().to_owned()),
    }
}

fn unescape(inner: &str) -> String {
    if !inner.contains('\\') {
        return inner.to_owned();
    }
    let mut plain = String::with_capacity(inner.len());
    let mut escaped = false;
    for letter in inner.chars() {
        if escaped || letter != '\\' {
            plain.push(letter);
            escaped = false;
        } else {
            escaped = true;
        }
    }
    plain
}
