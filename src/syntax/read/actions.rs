//! Actions: a verb with its phrases, and calculations.
use super::{Node, Places, Rule, number_of};
use crate::source::{Span, Text};
use crate::syntax::ast::{Action, Calculation, Expression, Object, Phrase, PhraseKind, Target, TorqueItem};

impl Places {
    pub(super) fn action(self, pair: Node<'_>) -> Action {
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

    pub(super) fn calculate(self, pair: Node<'_>, action: &mut Action) {
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
    pub(super) fn expression(self, pair: Node<'_>) -> Option<Expression> {
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

    pub(super) fn term(self, pair: Node<'_>) -> Option<Expression> {
        let inner = pair.into_inner().next()?;
        match inner.as_rule() {
            Rule::expression => self.expression(inner),
            Rule::amount => Some(Expression::Amount(self.amount(inner))),
            _ => Some(Expression::Reading(self.text(&inner))),
        }
    }

    pub(super) fn phrase(self, pair: Node<'_>) -> Option<Phrase> {
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

    pub(super) fn label(self, pair: Node<'_>) -> PhraseKind {
        PhraseKind::Label(pair.into_inner().map(|name| self.text(&name)).collect())
    }

    pub(super) fn except(self, pair: Node<'_>) -> Option<PhraseKind> {
        let mut parts = pair.into_inner();
        let stage = self.count(&parts.next()?);
        let value = self.quantity(parts.next()?)?;
        Some(PhraseKind::Except { stage, value, on: parts.next().map(|name| self.text(&name)) })
    }

    pub(super) fn times(self, pair: Node<'_>) -> PhraseKind {
        let at_most = pair.as_str().starts_with("at most");
        let twice = pair.as_str().ends_with("twice");
        let count = pair.into_inner().next().map_or(if twice { 2 } else { 1 }, |count| number_of(&count));
        PhraseKind::Times { count, at_most }
    }

    pub(super) fn target(self, pair: Node<'_>) -> Option<Target> {
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

    pub(super) fn objects(self, pair: Node<'_>) -> Vec<Object> {
        pair.into_inner().map(|object| self.object(object)).collect()
    }

    pub(super) fn object(self, pair: Node<'_>) -> Object {
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
