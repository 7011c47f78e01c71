//! Blocks of declarations: every name first, then what is said of it.
use super::Resolver;
use super::imports::index;
use crate::model::declarations::{Applies, Facts, Figure, Name, NamedTorque, Part, Supply, Thing, Tool};
use crate::model::document::{Block, Waiver};
use crate::model::noun::Noun;
use crate::model::slip::Slip;
use crate::model::torque::Torque;
use crate::source::{Span, Text};
use crate::syntax::ast::{BlockKind, Declaration, DetailValue, Head, Tree};
use crate::syntax::words::Place;

/// The blocks of a file, in order.
pub(super) fn blocks(tree: &Tree) -> Vec<Block> {
    let block = |statement: &crate::syntax::ast::Statement| match &statement.head {
        Head::Block { kind, none, .. } => {
            Some(Block { kind: block_name(*kind), none: *none, span: statement.span })
        }
        _ => None,
    };
    tree.statements.iter().filter_map(block).collect()
}

fn block_name(kind: BlockKind) -> &'static str {
    match kind {
        BlockKind::Parts => "parts",
        BlockKind::Tools => "tools",
        BlockKind::Supplies => "supplies",
        BlockKind::Torques => "torques",
        BlockKind::Figures => "figures",
    }
}

impl Resolver<'_> {
    /// Gives every declared name its place in a table.
    pub(super) fn declare(&mut self, tree: &Tree) {
        for statement in &tree.statements {
            match &statement.head {
                Head::Block { kind, declarations, .. } => {
                    self.reserve(*kind, declarations.len());
                    for declaration in declarations {
                        self.declare_one(*kind, declaration);
                    }
                }
                Head::Message(message) => self.declare_message(message, statement),
                _ => {}
            }
        }
    }

    fn reserve(&mut self, kind: BlockKind, more: usize) {
        let tables = &mut self.declarations;
        tables.names.reserve(more);
        match kind {
            BlockKind::Parts => tables.parts.reserve(more),
            BlockKind::Tools => tables.tools.reserve(more),
            BlockKind::Supplies => tables.supplies.reserve(more),
            BlockKind::Torques => tables.torques.reserve(more),
            BlockKind::Figures => tables.figures.reserve(more),
        }
    }

    fn declare_one(&mut self, kind: BlockKind, declaration: &Declaration) {
        let thing = thing(declaration);
        let count = declaration.count.map_or(1, |count| count.value);
        let tables = &mut self.declarations;
        let name = match kind {
            BlockKind::Parts => {
                tables.parts.push(blank_part(thing, count, declaration.pieces.clone()));
                Name::Part(index(tables.parts.len()))
            }
            BlockKind::Tools => {
                tables.tools.push(blank_tool(thing, count));
                Name::Tool(index(tables.tools.len()))
            }
            BlockKind::Supplies => {
                tables.supplies.push(blank_supply(thing));
                Name::Supply(index(tables.supplies.len()))
            }
            BlockKind::Torques => {
                tables.torques.push(NamedTorque { thing, torque: Torque::default() });
                Name::Torque(index(tables.torques.len()))
            }
            BlockKind::Figures => {
                tables.figures.push(Figure { thing, illustration: None, alt: None });
                Name::Figure(index(tables.figures.len()))
            }
        };
        self.name(&declaration.name, name);
        if let Name::Part(id) = name {
            for piece in &declaration.pieces {
                self.piece(piece, id);
            }
        } else if let Some(piece) = declaration.pieces.first() {
            self.unusable(piece.span, "only the pieces of a part have names");
        }
    }

    /// Enters a name; the first one given keeps it.
    pub(super) fn name(&mut self, text: &Text, name: Name) {
        if let Some(first) = self.declared_at(text.as_str()) {
            self.slip(Slip::DuplicateName { name: text.clone(), first });
            // Not also a thing that nothing uses.
            self.touch(name);
        } else {
            self.declarations.names.insert(text.value.clone(), name);
        }
    }

    fn piece(&mut self, text: &Text, part: u32) {
        if let Some(first) = self.declared_at(text.as_str()) {
            self.slip(Slip::DuplicateName { name: text.clone(), first });
        } else {
            self.declarations.pieces.insert(text.value.clone(), part);
        }
    }

    /// Where this file gives a name to something.
    pub(super) fn declared_at(&self, word: &str) -> Option<Span> {
        let tables = &self.declarations;
        let name = tables.find(word)?;
        if let Name::Message(id) = name {
            return tables.messages.get(id as usize)?.name.as_ref().map(|text| text.span);
        }
        let thing = tables.thing(name)?;
        if thing.from_catalogue {
            return None;
        }
        if let (Name::Part(id), false) = (name, thing.name.value == word) {
            return tables.part(id)?.pieces.iter().find(|piece| piece.value == word).map(|piece| piece.span);
        }
        Some(thing.name.span)
    }

    /// Counts a use.
    pub(super) fn touch(&mut self, name: Name) {
        let tables = &mut self.declarations;
        let thing = match name {
            Name::Part(id) => tables.parts.get_mut(id as usize).map(|it| &mut it.thing),
            Name::Tool(id) => tables.tools.get_mut(id as usize).map(|it| &mut it.thing),
            Name::Supply(id) => tables.supplies.get_mut(id as usize).map(|it| &mut it.thing),
            Name::Torque(id) => tables.torques.get_mut(id as usize).map(|it| &mut it.thing),
            Name::Figure(id) => tables.figures.get_mut(id as usize).map(|it| &mut it.thing),
            Name::Message(_) => None,
        };
        if let Some(thing) = thing {
            thing.times_used = thing.times_used.saturating_add(1);
        }
    }

    /// Reads what is said of every declared thing. Tightening lists come first: parts call them.
    pub(super) fn fill_declarations(&mut self, tree: &Tree) {
        for torques_now in [true, false] {
            let mut next = Next::default();
            for statement in &tree.statements {
                let Head::Block { kind, declarations, .. } = &statement.head else { continue };
                for declaration in declarations {
                    let id = next.take(*kind);
                    if (*kind == BlockKind::Torques) == torques_now {
                        self.fill(*kind, id, declaration);
                        self.declaration_details(*kind, declaration);
                    }
                }
                if !torques_now {
                    self.block_details(statement);
                }
            }
        }
    }

    fn fill(&mut self, kind: BlockKind, id: u32, declaration: &Declaration) {
        match kind {
            // Most things are a name and a text, and that is known already.
            BlockKind::Parts | BlockKind::Tools | BlockKind::Supplies | BlockKind::Figures
                if declaration.attributes.is_empty() => {}
            BlockKind::Parts => self.fill_part(id, declaration),
            BlockKind::Tools => self.fill_tool(id, declaration),
            BlockKind::Supplies => self.fill_supply(id, declaration),
            BlockKind::Torques => {
                let torque = self.torque(&declaration.torque, &declaration.stages, declaration.span);
                if let (Some(torque), Some(place)) = (torque, self.declarations.torques.get_mut(id as usize))
                {
                    place.torque = torque;
                }
            }
            BlockKind::Figures => self.fill_figure(id, declaration),
        }
        if let (BlockKind::Torques, Some(first)) = (kind, declaration.attributes.first()) {
            self.unusable(first.span, "a tightening list has no attributes");
        }
    }

    fn declaration_details(&mut self, kind: BlockKind, declaration: &Declaration) {
        if let (false, Some(stage)) = (kind == BlockKind::Torques, declaration.stages.first()) {
            self.unusable(stage.span, "`stage:` belongs under a tightening list or a step that tightens");
        }
        let extent = declaration.details.iter().fold(declaration.span, |span, detail| span.to(detail.span));
        for detail in &declaration.details {
            match &detail.value {
                DetailValue::Waive { rule, why } => {
                    self.waivers.push(Waiver {
                        rule: rule.clone(),
                        why: why.clone(),
                        span: detail.span,
                        extent,
                    });
                }
                _ => self.stray_detail(detail, Place::Declaration),
            }
        }
    }
}

/// Hands out the table indices again in the order [`Resolver::declare`] gave them.
#[derive(Default)]
struct Next {
    counts: [u32; 5],
}

impl Next {
    fn take(&mut self, kind: BlockKind) -> u32 {
        let at = match kind {
            BlockKind::Parts => 0,
            BlockKind::Tools => 1,
            BlockKind::Supplies => 2,
            BlockKind::Torques => 3,
            BlockKind::Figures => 4,
        };
        let Some(count) = self.counts.get_mut(at) else { return u32::MAX };
        let id = *count;
        *count = count.saturating_add(1);
        id
    }
}

fn thing(declaration: &Declaration) -> Thing {
    let name = declaration.name.clone();
    let text = declaration.text.clone().unwrap_or_else(|| Text::new(name.value.replace('-', " "), name.span));
    let noun = Noun::from_text(text.as_str(), None);
    Thing { name, text, noun, number: None, span: declaration.span, from_catalogue: false, times_used: 0 }
}

fn blank_part(thing: Thing, count: u32, pieces: Vec<Text>) -> Part {
    Part {
        thing,
        count,
        pieces,
        single_use: None,
        reuse_if: None,
        sided: None,
        matched: Vec::new(),
        set_with: Vec::new(),
        looks_like: Vec::new(),
        never: Vec::new(),
        in_place_of: None,
        holds: Vec::new(),
        locks: Vec::new(),
        made_from: None,
        applies: Applies::default(),
        starts_off: false,
        stays_off: false,
        thread: None,
        strength: None,
        condition: None,
        torque: None,
        layout: None,
        facts: Facts::default(),
        callouts: Vec::new(),
    }
}

fn blank_tool(thing: Thing, count: u32) -> Tool {
    Tool { thing, count, range: None, length: None, adapter: None, capacity: None, temporary: None }
}

fn blank_supply(thing: Thing) -> Supply {
    Supply {
        thing,
        hazards: Vec::new(),
        cure: None,
        thread_locker: None,
        lubricant: None,
        needs_clean: None,
        needs_dry: None,
    }
}
