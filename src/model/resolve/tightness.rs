//! How tight: what the step, its list and its parts say of it, put over each other.
use super::Resolver;
use super::roles::Filling;
use super::torques::{overlay, stands_alone};
use crate::model::action::{Object, TorqueSource, Work};
use crate::model::declarations::Name;
use crate::model::fastener::wrench::{self, Fit};
use crate::model::quantity::{Exact, Quantity};
use crate::model::torque::Torque;
use crate::source::Span;
use crate::syntax::ast::{Stage, TorqueItemKind};

/// What a torque is taken from, and where that stands in its table.
type Base = Option<(u32, Torque)>;

impl Resolver<'_> {
    /// The torque in force: the step's own, over the list it calls, over its part's.
    pub(super) fn tightness(&mut self, filling: &mut Filling<'_>, stages: &[Stage], span: Span) {
        let tightens = filling.work.verb.tightens();
        if !tightens && filling.items.is_empty() {
            return;
        }
        let goes_on = matches!(filling.items.first().map(|item| &item.kind), Some(TorqueItemKind::Then(_)));
        let own = self.torque(&filling.items, if tightens { stages } else { &[] }, span);
        let (list, part) = if tightens { self.bases(filling) } else { (None, None) };
        // A list of shares, or of an order alone, is gone through with the part's own torque.
        let part = part.filter(|_| list.as_ref().is_none_or(|(_, list)| !stands_alone(list)));
        let others = match &part {
            Some((id, first)) if own.as_ref().is_none_or(|own| goes_on || !stands_alone(own)) => {
                let over = |torque: Torque| {
                    let torque =
                        list.iter().fold(torque, |base, (_, list)| overlay(base, list.clone(), false));
                    own.iter().fold(torque, |base, own| overlay(base, own.clone(), goes_on))
                };
                self.other_torques(&filling.work, *id, first).map(|(at, torque)| (at, over(torque))).collect()
            }
            _ => Vec::new(),
        };
        let base = match (list, part) {
            (Some((id, list)), Some((_, part))) => {
                Some((overlay(part, list, false), TorqueSource::Named(id)))
            }
            (Some((id, list)), None) => Some((list, TorqueSource::Named(id))),
            (None, Some((id, part))) => Some((part, TorqueSource::Part(id))),
            (None, None) => None,
        };
        let (torque, source) = match (base, own) {
            (Some((base, source)), Some(own)) => {
                let source = if stands_alone(&own) && !goes_on { TorqueSource::Step } else { source };
                (overlay(base, own, goes_on), source)
            }
            (Some((base, source)), None) => (base, source),
            (None, Some(own)) => (own, TorqueSource::Step),
            (None, None) => return,
        };
        let extras = filling.work.extras.make();
        (extras.torque, extras.torque_source, extras.other_torques) = (Some(torque), source, others);
    }

    /// The list that the line calls, and the torque of the first part that states one. A list that is not there
    /// leaves nothing to go by.
    fn bases(&mut self, filling: &Filling<'_>) -> (Base, Base) {
        let part = |resolver: &Self| {
            let torques = resolver.torques_of_parts(&filling.work);
            torques.map(|(_, id, torque)| (id, torque.clone())).next()
        };
        match filling.list {
            None => (None, part(self)),
            Some(name) => match self.named_torque(name) {
                None => (None, None),
                list => (list, part(self)),
            },
        }
    }

    /// The place of each object that is a part with a torque, the part, and its torque.
    fn torques_of_parts<'w>(
        &self,
        work: &'w Work,
    ) -> impl Iterator<Item = (usize, u32, &Torque)> + use<'_, 'w> {
        work.objects.iter().enumerate().filter_map(|(at, object)| match object.name {
            Some(Name::Part(id)) => Some((at, id, self.declarations.part(id)?.torque.as_ref()?)),
            _ => None,
        })
    }

    /// Those that differ from that of the first part.
    fn other_torques<'w>(
        &self,
        work: &'w Work,
        first: u32,
        torque: &'w Torque,
    ) -> impl Iterator<Item = (usize, Torque)> + use<'_, 'w> {
        let others =
            self.torques_of_parts(work).filter(move |(_, id, other)| *id != first && *other != torque);
        others.map(|(at, _, other)| (at, other.clone()))
    }

    /// A step without a fitting wrench has to be told of the others there are.
    pub(super) fn look_for_wrench(&mut self, work: &Work) {
        // Others can only come from a catalogue.
        if self.lacks_wrench || self.catalogues.is_empty() {
            return;
        }
        let Some(torque) = work.torque.as_ref().filter(|torque| torque.has_value()) else { return };
        let one = Exact::from_integer(1);
        let fits = |tool: &Object| match tool.name {
            Some(Name::Tool(id)) => {
                let scale = self.declarations.tool(id).and_then(wrench::scale);
                let good =
                    |value: &Quantity| scale.is_some_and(|it| wrench::fit(it, value, one) == Fit::Good);
                torque.value.as_ref().map_or(scale.is_some(), good)
            }
            _ => false,
        };
        self.lacks_wrench |= work.verb.tightens() && !work.tools.iter().any(fits);
    }
}
