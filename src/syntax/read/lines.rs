//! One function for each kind of structured line.
use super::{Joined, Node, Places, Reader, Room, Rule, Unread, number_of};
use crate::source::{Spanned, Text};
use crate::syntax::ast::{Action, Call, Declaration, Head, Message, Quantity, Scope, Stage, StageKind};

impl Reader {
    pub fn procedure(self, line: &Joined<'_>) -> Result<Head, Unread> {
        if let Some(head) = self.quick_procedure(line) {
            return Ok(head);
        }
        let p = self.pair(Rule::entry_procedure, line)?;
        let at = p.places();
        let mut number = Text::default();
        let mut title = None;
        for pair in p.pairs {
            match pair.as_rule() {
                Rule::identifier => number = at.text(&pair),
                Rule::text => title = Some(at.quoted(&pair)),
                _ => {}
            }
        }
        Ok(Head::Procedure { number, title })
    }

    /// The one text of `catalogue`, `use` and `section`.
    pub fn titled(self, keyword: &str, line: &Joined<'_>) -> Result<Text, Unread> {
        if let Some(title) = self.quick_titled(keyword, line) {
            return Ok(title);
        }
        let rule = match keyword {
            "catalogue" => Rule::entry_catalogue,
            "use" => Rule::entry_use,
            _ => Rule::entry_section,
        };
        let mut p = self.pair(rule, line)?;
        let at = p.places();
        Ok(p.pairs.next().map(|pair| at.quoted(&pair)).unwrap_or_default())
    }

    /// `parts`, or `parts none`.
    pub fn block(self, line: &Joined<'_>) -> Result<bool, Unread> {
        if self.quick_keyword(line).is_some() {
            return Ok(false);
        }
        Ok(self.pair(Rule::entry_block, line)?.pairs.any(|pair| pair.as_rule() == Rule::none_word))
    }

    pub fn message(self, line: &Joined<'_>) -> Result<Message, Unread> {
        if let Some(message) = self.quick_message(line) {
            return Ok(message);
        }
        let p = self.pair(Rule::entry_message, line)?;
        let at = p.places();
        let mut message =
            Message { signal: Text::default(), hazard: None, scope: None, name: None, text: None };
        for pair in p.pairs {
            match pair.as_rule() {
                Rule::signal => message.signal = at.text(&pair),
                Rule::hazard => message.hazard = Some(at.text(&pair)),
                Rule::scope => message.scope = Some(at.scope(pair)),
                Rule::message_name => message.name = pair.into_inner().next().map(|name| at.text(&name)),
                Rule::text => message.text = Some(at.quoted(&pair)),
                _ => {}
            }
        }
        Ok(message)
    }

    pub fn actions(self, line: &Joined<'_>, room: &mut Room) -> Result<Vec<Action>, Unread> {
        if let Some(actions) = self.quick_actions(line, room) {
            return Ok(actions);
        }
        let p = self.pair(Rule::entry_actions, line)?;
        let at = p.places();
        let read =
            |pair| at.action(pair).map_err(|place| Unread { at: place.start as usize, ..Unread::default() });
        p.pairs.filter(|pair| pair.as_rule() == Rule::action).map(read).collect()
    }

    /// Fills in an empty declaration.
    pub fn declaration(self, line: &Joined<'_>, declaration: &mut Declaration) -> Result<(), Unread> {
        if self.quick_declaration(line, declaration).is_some() {
            return Ok(());
        }
        let p = self.pair(Rule::entry_declaration, line)?;
        let at = p.places();
        *declaration = Declaration { span: at.line_span(line), ..Declaration::default() };
        for pair in p.pairs {
            match pair.as_rule() {
                Rule::name => declaration.name = at.text(&pair),
                Rule::text => declaration.text = Some(at.quoted(&pair)),
                Rule::multiple => declaration.count = pair.into_inner().next().map(|count| at.count(&count)),
                Rule::pieces => declaration.pieces = pair.into_inner().map(|name| at.text(&name)).collect(),
                Rule::attribute => declaration.attributes.extend(at.attribute(pair)),
                _ => {}
            }
        }
        Ok(())
    }

    /// Fills in an empty entry of `torques`.
    pub fn torque_entry(self, line: &Joined<'_>, declaration: &mut Declaration) -> Result<(), Unread> {
        let p = self.pair(Rule::entry_torque, line)?;
        let at = p.places();
        declaration.span = at.line_span(line);
        for pair in p.pairs {
            match pair.as_rule() {
                Rule::name => declaration.name = at.text(&pair),
                Rule::text => declaration.text = Some(at.quoted(&pair)),
                Rule::EOI => {}
                _ => declaration.torque.extend(at.torque_item(pair)),
            }
        }
        Ok(())
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
                Rule::during => stage.during = pair.into_inner().next().map(|words| at.words(&words)),
                Rule::pattern => stage.pattern = Some(at.text(&pair)),
                Rule::condition => stage.condition = Some(at.text(&pair)),
                _ => {}
            }
        }
        Ok(stage)
    }

    pub fn quantity(self, line: &Joined<'_>) -> Result<Option<Quantity>, Unread> {
        if let Some(quantity) = self.quick_quantity(line) {
            return Ok(Some(quantity));
        }
        let mut p = self.pair(Rule::entry_quantity, line)?;
        let at = p.places();
        Ok(p.pairs.next().and_then(|pair| at.quantity(pair)))
    }

    pub fn calls(self, line: &Joined<'_>) -> Result<Vec<Call>, Unread> {
        if self.quick && line.text == "none" {
            return Ok(Vec::new());
        }
        let p = self.pair(Rule::entry_calls, line)?;
        let at = p.places();
        let call = |pair: Node<'_>| {
            let mut call = Call { number: None, text: None };
            for part in pair.into_inner() {
                match part.as_rule() {
                    Rule::identifier => call.number = Some(at.text(&part)),
                    _ => call.text = Some(at.quoted(&part)),
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
                Rule::text => why = Some(at.quoted(&pair)),
                _ => {}
            }
        }
        Ok((rule, why))
    }
}

impl Places {
    fn scope(self, pair: Node<'_>) -> Spanned<Scope> {
        let span = self.span(&pair);
        let scope = match pair.into_inner().next() {
            Some(inner) if inner.as_rule() == Rule::count => Scope::NextSteps(number_of(&inner)),
            Some(inner) => Scope::Until(self.text(&inner)),
            None => Scope::Section,
        };
        Spanned::new(scope, span)
    }
}
