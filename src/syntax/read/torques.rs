//! Torque items and stages.
use super::{Node, Places, Rule};
use crate::source::{Span, Text};
use crate::syntax::ast::{Amount, StageKind, TorqueItem, TorqueItemKind};

impl Places {
    pub(super) fn torque_item(self, pair: Node<'_>) -> Option<TorqueItem> {
        let span = self.span(&pair);
        Some(TorqueItem { kind: self.torque_kind(pair)?, span })
    }

    pub(super) fn torque_kind(self, pair: Node<'_>) -> Option<TorqueItemKind> {
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
                let way = parts
                    .next()
                    .map_or("", |way| way.as_str())
                    .split_whitespace()
                    .collect::<Vec<_>>()
                    .join(" ");
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
    pub(super) fn percent(self, pair: Node<'_>) -> Option<Amount> {
        let span = self.span(&pair);
        let number = self.text(&pair.into_inner().next()?);
        let unit =
            Text::new("%", Span::new(self.file, (span.end as usize).saturating_sub(1), span.end as usize));
        Some(Amount { number, unit: Some(unit), span })
    }

    pub(super) fn stage_kind(self, pair: Node<'_>) -> Option<StageKind> {
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
}

fn pattern_of(text: &str) -> TorqueItemKind {
    match text.split_whitespace().next() {
        Some("order") => {
            TorqueItemKind::Order(text.split_whitespace().skip(1).filter_map(|n| n.parse().ok()).collect())
        }
        Some("from") if text.trim_end().ends_with("ends") => TorqueItemKind::Pattern("from ends".to_owned()),
        Some("from") => TorqueItemKind::Pattern("from centre".to_owned()),
        _ => TorqueItemKind::Pattern(text.trim().to_owned()),
    }
}
