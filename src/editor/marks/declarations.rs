//! The lines of `parts`, `tools`, `supplies`, `torques` and `figures`.
use super::{Kind, Marker, Sort, attribute};
use crate::syntax::ast::{
    Attribute, BlockKind, Declaration, Stage, StageKind, TorqueItem, TorqueItemKind, Value,
};
use crate::syntax::words::{AttributeForm, attribute_key};

impl Marker<'_> {
    pub(super) fn declaration(&mut self, kind: BlockKind, declaration: &Declaration) {
        self.declared(&declaration.name, sort(kind));
        declaration.text.iter().for_each(|text| self.text(text));
        declaration.pieces.iter().for_each(|piece| self.declared(piece, Sort::Piece));
        declaration.attributes.iter().for_each(|attribute| self.attribute(attribute));
        declaration.torque.iter().for_each(|item| self.torque_item(item));
        declaration.stages.iter().for_each(|stage| self.stage(stage));
        declaration.details.iter().for_each(|detail| self.detail(detail));
    }

    fn attribute(&mut self, written: &Attribute) {
        self.mark(written.key.span, attribute(written.key.as_str()));
        let form = attribute_key(written.key.as_str()).map(|key| key.form);
        for value in &written.values {
            match value {
                Value::Text(path) if written.key.value == "picture" => self.mark(path.span, Kind::Path),
                Value::Text(text) => self.text(text),
                Value::Word(word) if is_name(form, word.as_str()) => self.used(word),
                Value::Word(_) | Value::Thread { .. } => {}
                Value::Quantity(quantity) => self.quantity(quantity),
                Value::Torque(items) => items.iter().for_each(|item| self.torque_item(item)),
            }
        }
    }

    pub(super) fn torque_item(&mut self, item: &TorqueItem) {
        match &item.kind {
            TorqueItemKind::Value(quantity)
            | TorqueItemKind::Check(quantity)
            | TorqueItemKind::Then(quantity)
            | TorqueItemKind::New(quantity)
            | TorqueItemKind::Reused(quantity)
            | TorqueItemKind::NotAbove(quantity) => self.quantity(quantity),
            TorqueItemKind::Percents(percents) => percents.iter().for_each(|it| self.amount(it)),
            TorqueItemKind::Pattern(_)
            | TorqueItemKind::Condition(_)
            | TorqueItemKind::Feel(_)
            | TorqueItemKind::PlusDrag
            | TorqueItemKind::NeverMoved => self.mark(item.span, Kind::Keyword),
            TorqueItemKind::Order(_) | TorqueItemKind::Align { .. } => {}
        }
    }

    pub(super) fn stage(&mut self, stage: &Stage) {
        match &stage.kind {
            StageKind::Value(quantity) | StageKind::LoosenTo(quantity) | StageKind::BackOff(quantity) => {
                self.quantity(quantity);
            }
            StageKind::Percent(amount) => self.amount(amount),
            StageKind::LoosenToFeel(feel) | StageKind::Feel(feel) => self.mark(feel.span, Kind::Keyword),
        }
        for word in [&stage.pattern, &stage.condition].into_iter().flatten() {
            self.mark(word.span, Kind::Keyword);
        }
    }
}

fn is_name(form: Option<AttributeForm>, word: &str) -> bool {
    match form {
        Some(AttributeForm::Name | AttributeForm::Names | AttributeForm::Torque) => true,
        Some(AttributeForm::NamesBy) => word != "by",
        Some(AttributeForm::Callout) => word != "on",
        _ => false,
    }
}

fn sort(kind: BlockKind) -> Sort {
    match kind {
        BlockKind::Parts => Sort::Part,
        BlockKind::Tools => Sort::Tool,
        BlockKind::Supplies => Sort::Supply,
        BlockKind::Torques => Sort::Torque,
        BlockKind::Figures => Sort::Figure,
    }
}
