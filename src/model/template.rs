//! The form of a verb's sentence: literal words, slots in braces, and `[…]` around words that go with a slot.
use serde::Deserialize;

/// `Remove {objects}[ by {how}]{rest}`, read.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(try_from = "String")]
pub struct Template {
    pub pieces: Vec<Piece>,
    /// A bit for each slot that stands somewhere in it.
    slots: u16,
}

#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Piece {
    Words(String),
    Slot(Slot),
    /// Written only where all slots in it are filled. Groups do not nest.
    Group(Vec<Piece>),
}

/// What of an action stands at a place of its sentence.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Slot {
    /// "the 4 cover screws and the bearing cover".
    Objects,
    /// The text that says what is measured, done or recorded.
    What,
    /// The same after its objects: " on a live socket", ": splines and ring groove".
    About,
    /// The same without a leading "with".
    How,
    /// The same as something to make sure of.
    Claim,
    /// "the bearing seat diameter of the input shaft": what is read off the objects.
    Reading,
    Quantity,
    /// "from the pump housing".
    Places,
    /// Supplies with their preposition.
    Supplies,
    /// Tools alone, without a preposition.
    Tools,
    /// What the fasteners are tightened to.
    Torque,
    /// Which way round, while what and until when, where the language says them behind its verb.
    Clauses,
    /// All that the sentence does not place elsewhere, so that nothing an author wrote is lost.
    Rest,
}

impl Slot {
    fn bit(self) -> u16 {
        1 << self as u16
    }

    fn find(word: &str) -> Option<Slot> {
        Some(match word {
            "objects" => Slot::Objects,
            "what" => Slot::What,
            "about" => Slot::About,
            "how" => Slot::How,
            "claim" => Slot::Claim,
            "reading" => Slot::Reading,
            "quantity" => Slot::Quantity,
            "places" => Slot::Places,
            "supplies" => Slot::Supplies,
            "tools" => Slot::Tools,
            "torque" => Slot::Torque,
            "clauses" => Slot::Clauses,
            "rest" => Slot::Rest,
            _ => return None,
        })
    }
}

impl Template {
    /// Whether the slot stands in it, also inside a group.
    pub fn has(&self, slot: Slot) -> bool {
        self.slots & slot.bit() != 0
    }
}

/// Every slot, also those inside groups, in order.
fn slots(pieces: &[Piece]) -> impl Iterator<Item = Slot> {
    pieces.iter().flat_map(Piece::slots)
}

impl Piece {
    /// The slots in it; of a group, all.
    pub fn slots(&self) -> impl Iterator<Item = Slot> {
        let inner: &[Piece] = match self {
            Piece::Group(pieces) => pieces,
            one => std::slice::from_ref(one),
        };
        inner.iter().filter_map(|piece| if let Piece::Slot(slot) = piece { Some(*slot) } else { None })
    }
}

impl TryFrom<String> for Template {
    type Error = String;

    fn try_from(text: String) -> Result<Template, String> {
        let mut pieces = Vec::new();
        let mut rest = text.as_str();
        while let Some(at) = rest.find('[') {
            let (before, group) = rest.split_at(at);
            pieces.extend(flat(before)?);
            let (inner, after) =
                group.get(1..).and_then(|it| it.split_once(']')).ok_or("a `[` is not closed")?;
            pieces.push(Piece::Group(flat(inner)?));
            rest = after;
        }
        pieces.extend(flat(rest)?);
        let slots = slots(&pieces).fold(0, |all, slot| all | slot.bit());
        Ok(Template { pieces, slots })
    }
}

/// Words and slots without groups.
fn flat(text: &str) -> Result<Vec<Piece>, String> {
    let mut pieces = Vec::new();
    let mut rest = text;
    while let Some((words, after)) = rest.split_once('{') {
        push_words(&mut pieces, words);
        let (slot, after) = after.split_once('}').ok_or("a `{` is not closed")?;
        pieces.push(Piece::Slot(Slot::find(slot).ok_or_else(|| format!("`{slot}` is no slot"))?));
        rest = after;
    }
    push_words(&mut pieces, rest);
    Ok(pieces)
}

fn push_words(pieces: &mut Vec<Piece>, words: &str) {
    if !words.is_empty() {
        pieces.push(Piece::Words(words.to_owned()));
    }
}
