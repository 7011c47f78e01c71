//! Attributes of declared things to typed facts.
use super::Resolver;
use super::quantities::Want;
use crate::model::catalogues;
use crate::model::declarations::{
    Callout, Condition, Cure, Illustration, LooksLike, Name, Part, Strength, StrengthSystem, Supply, Thing,
    Thread, Tool,
};
use crate::model::fastener::pattern::Layout;
use crate::model::noun::Noun;
use crate::model::picture::Fault;
use crate::model::quantity::{Dimension, Quantity};
use crate::model::slip::Slip;
use crate::source::{Span, Spanned, Text};
use crate::syntax::ast::{self, Attribute, Declaration, QuantityForm, Value};
use crate::syntax::words::{self, AttributeKey, Owner};

const A_PART: &str = "a part";

impl Resolver<'_> {
    pub(super) fn fill_part(&mut self, id: u32, declaration: &Declaration) {
        let Some(mut part) = self.declarations.part(id).cloned() else { return };
        for attribute in self.known(Owner::Part, declaration) {
            self.part_attribute(&mut part, attribute);
        }
        if let Some(place) = self.declarations.parts.get_mut(id as usize) {
            part.thing.times_used = place.thing.times_used;
            *place = part;
        }
    }

    pub(super) fn fill_tool(&mut self, id: u32, declaration: &Declaration) {
        let Some(mut tool) = self.declarations.tool(id).cloned() else { return };
        for attribute in self.known(Owner::Tool, declaration) {
            self.tool_attribute(&mut tool, attribute);
        }
        if let Some(place) = self.declarations.tools.get_mut(id as usize) {
            *place = tool;
        }
    }

    pub(super) fn fill_supply(&mut self, id: u32, declaration: &Declaration) {
        let Some(mut supply) = self.declarations.supply(id).cloned() else { return };
        let mut after_needs = false;
        for attribute in &declaration.attributes {
            // `needs clean, dry`: `dry` is a key of its own on parts.
            if after_needs && attribute.values.is_empty() && need(&mut supply, &attribute.key) {
                continue;
            }
            after_needs = attribute.key.as_str() == "needs";
            if let Some(known) = self.known_key(Owner::Supply, attribute) {
                self.supply_attribute(&mut supply, known);
            }
        }
        if let Some(place) = self.declarations.supplies.get_mut(id as usize) {
            *place = supply;
        }
    }

    pub(super) fn fill_figure(&mut self, id: u32, declaration: &Declaration) {
        let Some(mut figure) = self.declarations.figures.get(id as usize).cloned() else { return };
        for attribute in self.known(Owner::Figure, declaration) {
            match attribute.row.key.as_str() {
                "picture" => figure.illustration = self.text(attribute).map(|path| self.illustration(path)),
                "alt" => figure.alt = self.text(attribute),
                _ => self.common_attribute(&mut figure.thing, attribute),
            }
        }
        if let (Some(alt), None) = (&figure.alt, &figure.illustration) {
            self.unusable(alt.span, "`alt` says what a picture shows, and this figure has none");
        }
        if let Some(place) = self.declarations.figures.get_mut(id as usize) {
            figure.thing.times_used = place.thing.times_used;
            *place = figure;
        }
    }

    /// The picture at a path, which is read from the folder of this file.
    fn illustration(&self, path: Text) -> Illustration {
        let joined = catalogues::join(&self.source.name, path.as_str()).map_err(Fault::Missing);
        let picture = joined.and_then(|joined| self.around.catalogues.pictures.find(&joined));
        Illustration { path, picture }
    }

    /// The attributes that mean something on `owner`, with their rows.
    fn known<'t>(&mut self, owner: Owner, declaration: &'t Declaration) -> Vec<Keyed<'t>> {
        declaration.attributes.iter().filter_map(|attribute| self.known_key(owner, attribute)).collect()
    }

    fn known_key<'t>(&mut self, owner: Owner, attribute: &'t Attribute) -> Option<Keyed<'t>> {
        let row = words::attribute_key(attribute.key.as_str());
        if let Some(row) = row.filter(|row| row.on.contains(&owner)) {
            return Some(Keyed { attribute, row });
        }
        let known = words::attributes().filter(|row| row.on.contains(&owner)).map(|row| row.key.as_str());
        let near = match self.key_in_two_words(attribute) {
            Some(key) => vec![key.to_owned()],
            None if row.is_some() => Vec::new(),
            None => self.near.among(attribute.key.as_str(), known),
        };
        self.slip(Slip::UnknownAttribute { key: attribute.key.clone(), on: owner.name(), near });
        None
    }

    /// `looks like x` for `looks-like x`.
    fn key_in_two_words(&self, attribute: &Attribute) -> Option<&'static str> {
        let behind = self.source.text.get(attribute.key.span.end as usize..)?.strip_prefix(' ')?;
        let second = behind.split(|c: char| !c.is_alphanumeric()).next()?;
        words::attribute_key(&format!("{}-{second}", attribute.key.value)).map(|row| row.key.as_str())
    }

    fn part_attribute(&mut self, part: &mut Part, it: Keyed<'_>) {
        match it.row.key.as_str() {
            "single-use" => part.single_use = self.flag(it),
            "sided" => part.sided = self.flag(it),
            "spring-loaded" => part.facts.spring_loaded = self.flag(it),
            "pressed" => part.facts.pressed = self.flag(it),
            "sharp" => part.facts.sharp = self.flag(it),
            "rotating" => part.facts.rotating = self.flag(it),
            "dry" => part.condition = self.flag(it).map(|span| Spanned::new(Condition::Dry, span)),
            "oiled" => part.condition = self.flag(it).map(|span| Spanned::new(Condition::Oiled, span)),
            "plated" => part.condition = self.flag(it).map(|span| Spanned::new(Condition::Plated, span)),
            "reuse-if" => part.reuse_if = self.text(it),
            "contains" => part.facts.contains = self.text(it),
            "matched" => part.matched.extend(self.parts(it)),
            "set-with" => part.set_with.extend(self.parts(it)),
            "never" => part.never.extend(self.parts(it)),
            "in-place-of" => part.in_place_of = self.parts(it).into_iter().next(),
            "holds" => part.holds.extend(self.parts(it)),
            "locks" => part.locks.extend(self.parts(it)),
            "looks-like" => part.looks_like.extend(self.looks_like(it)),
            "from" => part.made_from = self.parts(it).into_iter().next(),
            "models" => part.applies.models.extend(self.models_of(it)),
            "serial" => part.applies.serials = self.rest(it),
            "if" => part.applies.if_fitted = self.word(it, "fitted"),
            "starts" => part.starts_off = self.word(it, "off").is_some(),
            "stays" => part.stays_off = self.word(it, "off").is_some(),
            "thread" => part.thread = self.thread(it),
            "class" => part.strength = self.strength(it, StrengthSystem::Class),
            "grade" => part.strength = self.strength(it, StrengthSystem::Grade),
            "torque" => part.torque = self.torque_attribute(it.attribute),
            "layout" => part.layout = self.layout(it),
            "pressurised" => part.facts.pressurised = self.measure(it),
            "hot" => part.facts.hot = self.measure(it),
            "live" => part.facts.live = self.measure(it),
            "mass" => part.facts.mass = self.measure(it),
            "callout" => part.callouts.extend(self.callout(it)),
            _ => self.common_attribute(&mut part.thing, it),
        }
    }

    fn tool_attribute(&mut self, tool: &mut Tool, it: Keyed<'_>) {
        match it.row.key.as_str() {
            "range" => tool.range = self.measure(it),
            "length" => tool.length = self.measure(it),
            "adapter" => tool.adapter = self.measure(it),
            "capacity" => tool.capacity = self.measure(it).map(Quantity::as_most),
            "temporary" => tool.temporary = self.flag(it),
            _ => self.common_attribute(&mut tool.thing, it),
        }
    }

    fn supply_attribute(&mut self, supply: &mut Supply, it: Keyed<'_>) {
        match it.row.key.as_str() {
            "hazards" => supply.hazards.extend(self.words(it)),
            "cure" => supply.cure = self.cure(it),
            "thread-locker" => supply.thread_locker = self.flag(it),
            "lubricant" => supply.lubricant = self.flag(it),
            "needs" => {
                for word in self.words(it) {
                    if !need(supply, &word) {
                        self.malformed(it, word.span);
                    }
                }
            }
            _ => self.common_attribute(&mut supply.thing, it),
        }
    }

    fn common_attribute(&mut self, thing: &mut Thing, it: Keyed<'_>) {
        match it.row.key.as_str() {
            "number" => thing.number = self.text(it),
            "plural" => {
                if let Some(plural) = self.text(it) {
                    thing.noun = Noun::from_text(thing.text.as_str(), Some(plural.as_str()));
                }
            }
            _ => {}
        }
    }

    fn malformed(&mut self, it: Keyed<'_>, span: Span) {
        let (key, wanted) = (it.attribute.key.clone(), it.row.example.clone());
        self.slip(Slip::MalformedAttribute { key, span, wanted });
    }

    /// The slip for an attribute whose values do not fit; nothing is known then.
    fn refuse<T>(&mut self, it: Keyed<'_>) -> Option<T> {
        self.malformed(it, it.attribute.span);
        None
    }

    fn flag(&mut self, it: Keyed<'_>) -> Option<Span> {
        if let Some(extra) = it.attribute.values.first() {
            self.malformed(it, span_of(extra, it.attribute.span));
        }
        Some(it.attribute.key.span)
    }

    fn text(&mut self, it: Keyed<'_>) -> Option<Text> {
        match it.attribute.values.as_slice() {
            [Value::Text(text)] => Some(text.clone()),
            _ => self.refuse(it),
        }
    }

    fn word(&mut self, it: Keyed<'_>, wanted: &str) -> Option<Span> {
        match it.attribute.values.as_slice() {
            [Value::Word(word)] if word.as_str() == wanted => Some(it.attribute.span),
            _ => self.refuse(it),
        }
    }

    /// Bare words; at least one.
    fn words(&mut self, it: Keyed<'_>) -> Vec<Text> {
        let mut found = Vec::new();
        for value in &it.attribute.values {
            match value {
                Value::Word(word) => found.push(word.clone()),
                other => self.malformed(it, span_of(other, it.attribute.span)),
            }
        }
        if it.attribute.values.is_empty() {
            self.malformed(it, it.attribute.span);
        }
        found
    }

    fn parts(&mut self, it: Keyed<'_>) -> Vec<Spanned<Name>> {
        self.words(it).iter().filter_map(|word| self.part_name(word)).collect()
    }

    fn part_name(&mut self, word: &Text) -> Option<Spanned<Name>> {
        let name = self.reference(word, A_PART, |name| matches!(name, Name::Part(_)))?;
        Some(Spanned::new(name, word.span))
    }

    fn looks_like(&mut self, it: Keyed<'_>) -> Option<LooksLike> {
        match it.attribute.values.as_slice() {
            [Value::Word(other)] => Some(LooksLike { other: self.part_name(other)?, by: None }),
            [Value::Word(other), Value::Word(by), Value::Text(text)] if by.as_str() == "by" => {
                Some(LooksLike { other: self.part_name(other)?, by: Some(text.clone()) })
            }
            _ => self.refuse(it),
        }
    }

    fn models_of(&mut self, it: Keyed<'_>) -> Vec<Text> {
        let words = self.words(it);
        for word in &words {
            self.check_model(word);
        }
        words
    }

    /// What follows the key, as written.
    fn rest(&mut self, it: Keyed<'_>) -> Option<Text> {
        let (key, whole) = (it.attribute.key.span, it.attribute.span);
        let written = self.source.slice(Span { start: key.end, ..whole });
        let trimmed = written.trim();
        if trimmed.is_empty() {
            return self.refuse(it);
        }
        let start = key.end as usize + written.len() - written.trim_start().len();
        Some(Text::new(trimmed, Span::new(whole.file, start, start + trimmed.len())))
    }

    fn strength(&mut self, it: Keyed<'_>, system: StrengthSystem) -> Option<Strength> {
        let value = self.rest(it)?;
        if it.attribute.values.len() != 1 || value.as_str().contains([' ', '"']) {
            return self.refuse(it);
        }
        Some(Strength { system, value })
    }

    fn thread(&mut self, it: Keyed<'_>) -> Option<Thread> {
        match it.attribute.values.as_slice() {
            [Value::Thread { designation, series }] => {
                Some(Thread { designation: designation.clone(), series: series.clone() })
            }
            _ => self.refuse(it),
        }
    }

    fn measure(&mut self, it: Keyed<'_>) -> Option<Quantity> {
        let [Value::Quantity(written)] = it.attribute.values.as_slice() else { return self.refuse(it) };
        let dimensions: Vec<Dimension> =
            it.row.dimensions.iter().filter_map(|name| Dimension::named(name)).collect();
        let context = format!("`{}`", it.row.key);
        self.quantity(written, Want { dimensions: &dimensions, context: &context })
    }

    fn callout(&mut self, it: Keyed<'_>) -> Option<Callout> {
        let (number, on) = match it.attribute.values.as_slice() {
            [Value::Quantity(number)] => (number, None),
            [Value::Quantity(number), Value::Word(on), Value::Word(figure)] if on.as_str() == "on" => {
                (number, Some(figure))
            }
            _ => return self.refuse(it),
        };
        let Some(number) = whole(number) else { return self.refuse(it) };
        let figure = on.and_then(|word| self.figure(word));
        Some(Callout { number, figure })
    }

    /// A declared figure.
    pub(super) fn figure(&mut self, word: &Text) -> Option<Spanned<Name>> {
        match self.find(word.as_str()) {
            Some(name @ Name::Figure(_)) => {
                self.touch(name);
                Some(Spanned::new(name, word.span))
            }
            _ => {
                self.dangling(word, "a figure");
                None
            }
        }
    }

    fn layout(&mut self, it: Keyed<'_>) -> Option<Spanned<Layout>> {
        let layout = match it.attribute.values.as_slice() {
            [Value::Word(word)] if word.as_str() == "circle" => Some(Layout::Circle),
            [Value::Word(word)] if word.as_str() == "line" => Some(Layout::Line),
            [Value::Quantity(rows)] => rows_of(rows).map(Layout::Rows),
            [Value::Word(word), Value::Quantity(across), Value::Word(by), Value::Quantity(down)]
                if word.as_str() == "rectangle" && by.as_str() == "by" =>
            {
                let (across, down) = (whole(across), whole(down));
                across
                    .zip(down)
                    .map(|(across, down)| Layout::Rectangle { across: across.value, down: down.value })
            }
            _ => None,
        };
        match layout {
            Some(layout) => Some(Spanned::new(layout, it.attribute.span)),
            None => self.refuse(it),
        }
    }

    fn cure(&mut self, it: Keyed<'_>) -> Option<Cure> {
        let (time, at) = match it.attribute.values.as_slice() {
            [Value::Quantity(time)] => (time, None),
            [Value::Quantity(time), Value::Word(at), Value::Quantity(heat)] if at.as_str() == "at" => {
                (time, Some(heat))
            }
            _ => return self.refuse(it),
        };
        let time = self.quantity(time, Want { dimensions: &[Dimension::Time], context: "`cure`" })?;
        let want = Want { dimensions: &[Dimension::Temperature], context: "`cure … at`" };
        Some(Cure { time, at: at.and_then(|heat| self.quantity(heat, want)) })
    }
}

/// An attribute with its row of the table.
#[derive(Clone, Copy)]
struct Keyed<'t> {
    attribute: &'t Attribute,
    row: &'static AttributeKey,
}

fn need(supply: &mut Supply, word: &Text) -> bool {
    match word.as_str() {
        "clean" => supply.needs_clean = Some(word.span),
        "dry" => supply.needs_dry = Some(word.span),
        _ => return false,
    }
    true
}

fn whole(quantity: &ast::Quantity) -> Option<Spanned<u32>> {
    match &quantity.form {
        QuantityForm::Exact(amount) if amount.unit.is_none() && quantity.also.is_none() => {
            Some(Spanned::new(amount.number.value.parse::<u32>().ok()?, amount.span))
        }
        _ => None,
    }
}

/// `2 rows`, which reads as a quantity.
fn rows_of(quantity: &ast::Quantity) -> Option<u32> {
    match &quantity.form {
        QuantityForm::Exact(amount) if quantity.also.is_none() => {
            let unit = amount.unit.as_ref().map(Text::as_str);
            matches!(unit, Some("row" | "rows")).then(|| amount.number.value.parse().ok()).flatten()
        }
        _ => None,
    }
}

fn span_of(value: &Value, whole: Span) -> Span {
    match value {
        Value::Text(text) | Value::Word(text) => text.span,
        Value::Quantity(quantity) => quantity.span,
        Value::Thread { designation, .. } => designation.span,
        Value::Torque(items) => items.first().map_or(whole, |item| item.span),
    }
}
