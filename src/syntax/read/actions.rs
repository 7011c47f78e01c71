//! Actions: a verb with its phrases, and calculations.
use super::{Node, Places, Rule, number_of};
use crate::source::{Span, Text};
use crate::syntax::ast::{
    Action, Calculation, Except, Expression, Object, Phrase, PhraseKind, Place, Quantity, QuantityForm,
    Target,
};

impl Places {
    /// A verb with its phrases. `Err` holds the place of a formula that no `calculate NAME` leads.
    pub(super) fn action(self, pair: Node<'_>) -> Result<Action, Span> {
        let span = self.span(&pair);
        let mut action =
            Action { verb: Text::default(), particle: None, phrases: Vec::new(), calculation: None, span };
        let mut formula = None;
        for part in pair.into_inner() {
            match part.as_rule() {
                Rule::verb => action.verb = self.text(&part),
                Rule::particle => action.particle = Some(Box::new(self.text(&part))),
                // It follows the name, once.
                Rule::formula if formula.is_none() && action.phrases.len() == 1 => {
                    formula = Some((self.span(&part), self.formula(part)));
                }
                Rule::formula => return Err(self.span(&part)),
                _ => action.phrases.extend(self.phrase(part)),
            }
        }
        let calculates = action.verb.as_str() == "calculate";
        match formula {
            None if !calculates => Ok(action),
            None => Err(Span { start: span.end, ..span }),
            Some((place, formula)) => {
                let formula = formula.filter(|_| calculates).ok_or(place)?;
                calculation(action, formula).ok_or(place)
            }
        }
    }

    /// What is worked out, and the limits it is held against.
    fn formula(self, pair: Node<'_>) -> Option<(Expression, Option<Quantity>)> {
        let mut parts = pair.into_inner();
        let expression = self.expression(parts.next()?)?;
        Some((expression, parts.next().and_then(|limits| self.quantity(limits))))
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
        let rule = pair.as_rule();
        let kind = match rule {
            Rule::objects => PhraseKind::Objects(self.objects(pair)),
            Rule::text => PhraseKind::Text(self.quoted(&pair)),
            Rule::tools => PhraseKind::Tools(self.objects(first(pair)?)),
            Rule::place => {
                let mut parts = pair.into_inner();
                let preposition = self.text(&parts.next()?);
                PhraseKind::Place(Box::new(Place { preposition, what: self.target(parts.next()?)? }))
            }
            Rule::quantity => PhraseKind::Quantity(Box::new(self.quantity(pair)?)),
            Rule::nothing => {
                PhraseKind::Quantity(Box::new(Quantity { form: QuantityForm::None, also: None, span }))
            }
            Rule::label => self.label(pair),
            Rule::facing => PhraseKind::Facing(self.quoted(&first(pair)?)),
            Rule::until => PhraseKind::Until(self.words(&first(pair)?)),
            Rule::during => PhraseKind::While(self.words(&first(pair)?)),
            Rule::except => self.except(pair)?,
            Rule::times => self.times(pair),
            Rule::lasting => PhraseKind::For(self.target(first(pair)?)?),
            Rule::by_turn => PhraseKind::By(self.target(first(pair)?)?),
            _ => PhraseKind::Torque(Box::new(self.torque_item(pair)?)),
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
        let on = parts.next().map(|name| self.text(&name));
        Some(PhraseKind::Except(Box::new(Except { stage, value, on })))
    }

    pub(super) fn times(self, pair: Node<'_>) -> PhraseKind {
        let at_most = pair.as_str().starts_with("at most");
        let twice = pair.as_str().ends_with("twice");
        let count = pair.into_inner().next().map_or(if twice { 2 } else { 1 }, |count| number_of(&count));
        PhraseKind::Times { count, at_most }
    }

    pub(super) fn target(self, pair: Node<'_>) -> Option<Target> {
        Some(match pair.as_rule() {
            Rule::text => Target::Text(self.quoted(&pair)),
            Rule::quantity => Target::Quantity(Box::new(self.quantity(pair)?)),
            Rule::objects => Target::Objects(self.objects(pair)),
            _ => {
                let name = self.text(&pair);
                let span = name.span;
                Target::Objects(vec![Object { name, new: None, each: false, count: None, span }])
            }
        })
    }

    /// Names with the marks before each: `3 of screws, each new seal`.
    pub(super) fn objects(self, pair: Node<'_>) -> Vec<Object> {
        let mut objects = Vec::new();
        let mut marked: Option<Object> = None;
        for part in pair.into_inner() {
            let span = self.span(&part);
            let object = marked.get_or_insert_with(|| Object {
                name: Text::default(),
                new: None,
                each: false,
                count: None,
                span,
            });
            if part.as_rule() == Rule::name {
                object.span = object.span.to(span);
                object.name = self.text(&part);
                objects.extend(marked.take());
                continue;
            }
            match part.as_str() {
                "new" => object.new = Some(span),
                "each" => object.each = true,
                _ => object.count = part.into_inner().next().map(|count| self.count(&count)).or(object.count),
            }
        }
        objects
    }
}

/// Takes the name of the result from the phrases of `calculate NAME = …`; `None` where not one bare name stands
/// before the `=`, or where more than labels and texts stand behind the formula.
fn calculation(mut action: Action, (expression, limits): (Expression, Option<Quantity>)) -> Option<Action> {
    let mut phrases = std::mem::take(&mut action.phrases).into_iter();
    let name = match phrases.next()?.kind {
        PhraseKind::Objects(mut objects) if objects.len() == 1 => objects.pop().filter(is_bare)?.name,
        _ => return None,
    };
    for phrase in phrases {
        match phrase.kind {
            PhraseKind::Label(_) | PhraseKind::Text(_) => action.phrases.push(phrase),
            _ => return None,
        }
    }
    action.calculation = Some(Box::new(Calculation { name, expression, limits }));
    Some(action)
}

fn is_bare(object: &Object) -> bool {
    object.new.is_none() && !object.each && object.count.is_none()
}

fn first(pair: Node<'_>) -> Option<Node<'_>> {
    pair.into_inner().next()
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
