//! Lines to statements: which lines belong together, which are details, declarations or prose. Every line that
//! cannot be read becomes one finding and is left out; nothing after it is lost.
use super::ast::*;
use super::lines::{self, Joined, Line, LineKind};
use super::read::{Reader, Room, Unread};
use super::unreadable;
use super::words;
use crate::report::Finding;
use crate::source::{Excerpt, SourceFile, Span};

/// A tree and what could not be read.
#[derive(Debug, Clone, Default)]
pub struct Parsed {
    pub tree: Tree,
    /// In source order, at most one for each line.
    pub findings: Vec<Finding>,
}

/// Reads one file. Never fails: what cannot be read is among the findings.
pub fn parse(source: &SourceFile) -> Parsed {
    parse_with(source, Reader { file: source.id, quick: true })
}

/// The same by the grammar alone, without the quick readers of the plainest lines, which must not change a thing:
/// for the test that holds them to it.
pub fn parse_by_grammar(source: &SourceFile) -> Parsed {
    parse_with(source, Reader { file: source.id, quick: false })
}

fn parse_with(source: &SourceFile, reader: Reader) -> Parsed {
    let mut parser = Parser::new(source, reader);
    let lines = parser.usable_lines();
    let mut statements = Vec::with_capacity(margins(&lines));
    let mut rest = lines.as_slice();
    while !rest.is_empty() {
        let (mine, others) = rest.split_at(statement_length(rest));
        statements.extend(parser.statement(mine));
        rest = others;
    }
    parser.findings.sort_by_key(|finding| finding.span.start);
    Parsed { tree: Tree { statements }, findings: parser.findings }
}

pub(super) fn margins(lines: &[Line]) -> usize {
    lines.iter().filter(|line| line.kind == LineKind::Margin).count()
}

/// The margin line at the front and everything up to the next one.
pub(super) fn statement_length(lines: &[Line]) -> usize {
    lines.iter().skip(1).position(|line| line.kind == LineKind::Margin).map_or(lines.len(), |at| at + 1)
}

pub(super) struct Parser<'a> {
    pub(super) source: &'a SourceFile,
    pub(super) reader: Reader,
    pub(super) findings: Vec<Finding>,
    /// No comment and no tab stands in the file, so no line need be searched for them.
    pub(super) plain: bool,
    /// Room for the lines of prose of one statement, used again for the next.
    prose_lines: Vec<Line>,
    pub(super) room: Room,
}

/// Fields that heads and messages have room for at once.
const MOST_FIELDS: usize = 12;

impl<'a> Parser<'a> {
    pub(super) fn new(source: &'a SourceFile, reader: Reader) -> Parser<'a> {
        let plain = memchr::memchr2(b'#', b'\t', source.text.as_bytes()).is_none();
        Parser { source, reader, findings: Vec::new(), plain, prose_lines: Vec::new(), room: Room::default() }
    }

    /// Lines that belong together, as the grammar reads them.
    pub(super) fn joined(&self, lines: &[Line]) -> Joined<'a> {
        match lines {
            [line] if self.plain => {
                let text = self.source.text.get(line.start()..line.end()).unwrap_or("");
                Joined { text: text.into(), start: line.start() }
            }
            _ => lines::join(&self.source.text, lines),
        }
    }

    /// All lines but comments; too long ones give their finding here.
    pub(super) fn usable_lines(&mut self) -> Vec<Line> {
        let mut usable = Vec::with_capacity(self.source.line_count());
        let (source, findings) = (self.source, &mut self.findings);
        lines::each(source, |line| match line.kind {
            LineKind::Comment => {}
            LineKind::TooLong => {
                let span = Span::new(source.id, line.start(), line.end());
                findings.push(unreadable::too_long(source, span));
            }
            _ => usable.push(line),
        });
        usable
    }

    pub(super) fn span(&self, start: usize, end: usize) -> Span {
        Span::new(self.source.id, start, end)
    }

    pub(super) fn content(&self, line: &Line) -> &str {
        self.source.text.get(line.start()..line.end()).unwrap_or("")
    }

    /// Keeps what was read, or makes the finding of what was not.
    pub(super) fn keep<T>(
        &mut self,
        read: Result<T, Unread>,
        start: usize,
        end: usize,
        form: &str,
    ) -> Option<T> {
        match read {
            Ok(value) => Some(value),
            Err(why) => {
                let line = self.span(start, end);
                self.findings.push(unreadable::line(self.source, line, &why, form));
                None
            }
        }
    }

    pub(super) fn statement(&mut self, mine: &[Line]) -> Option<Statement> {
        let mut statement = Statement::default();
        self.statement_into(mine, &mut statement).then_some(statement)
    }

    /// Reads into a statement that may have been another's before, whose room is used again. Whether there was one.
    pub(super) fn statement_into(&mut self, mine: &[Line], statement: &mut Statement) -> bool {
        self.read_statement(mine, statement).is_some()
    }

    fn read_statement(&mut self, mine: &[Line], statement: &mut Statement) -> Option<()> {
        let used = mine.iter().rposition(|line| line.kind != LineKind::Blank)? + 1;
        let mine = mine.get(..used)?;
        let (first, last) = (mine.first()?, mine.last()?);
        let extent = self.span(first.start(), last.end());
        if first.kind != LineKind::Margin {
            // Only at the top of a file: nothing to belong to.
            self.findings.push(unreadable::belongs_to_nothing(self.span(first.start(), first.end())));
            return None;
        }
        let head_length = self.head_length(mine);
        let (head, body) = mine.split_at_checked(head_length)?;
        let end = head.last().map_or(first.end(), |line| line.end());
        let joined = self.joined(head);
        let span = self.span(joined.start, joined.start + joined.text.len());
        let keyword = first_word(&joined.text);
        (statement.span, statement.extent) = (span, extent);
        self.room.take_back(statement);
        if let Some(kind) = block_kind(keyword) {
            let none = self.reader.block(&joined);
            let none = self.keep(none, first.start(), end, "parts` or `parts none").unwrap_or(false);
            let declarations = self.declarations(kind, body);
            statement.head = Head::Block { kind, none, declarations };
        } else {
            statement.head = self.head(keyword, &joined, end).unwrap_or(Head::Unread);
            self.body(body, statement);
        }
        Some(())
    }

    /// How many lines the margin statement itself takes: it goes on while lines end in a comma or semicolon.
    fn head_length(&self, mine: &[Line]) -> usize {
        let mut length = 1;
        while let Some(line) = mine.get(length - 1) {
            let content = self.content(line);
            let comment = if self.plain { None } else { lines::comment_start(content) };
            let code = comment.map_or(content, |at| content.get(..at).unwrap_or("").trim_end());
            let goes_on = matches!(code.as_bytes().last(), Some(b',' | b';'));
            if !goes_on || mine.get(length).is_none_or(|next| next.kind != LineKind::Indented) {
                break;
            }
            length += 1;
        }
        length
    }

    fn head(&mut self, keyword: &str, line: &Joined<'_>, end: usize) -> Option<Head> {
        let start = line.start;
        let reader = self.reader;
        match keyword {
            "procedure" => {
                let form = "procedure NUMBER \"Title\"";
                self.keep(reader.procedure(line), start, end, form)
            }
            "catalogue" => {
                let title = reader.titled(keyword, line);
                self.keep(title, start, end, "catalogue \"Title\"").map(|title| Head::Catalogue { title })
            }
            "use" => {
                let path = reader.titled(keyword, line);
                self.keep(path, start, end, "use \"path/to/catalogue.cotter\"").map(|path| Head::Use { path })
            }
            "section" => {
                let title = reader.titled(keyword, line);
                self.keep(title, start, end, "section \"Title\"").map(|title| Head::Section { title })
            }
            "danger" | "warning" | "caution" | "notice" | "note" => {
                let form = "warning HAZARD`, or `warning HAZARD for section";
                self.keep(reader.message(line), start, end, form).map(|read| Head::Message(Box::new(read)))
            }
            _ => {
                let form = "verb what, with what, …`, actions joined by `;";
                let actions = reader.actions(line, &mut self.room);
                self.keep(actions, start, end, form).map(Head::Step)
            }
        }
    }

    fn declarations(&mut self, kind: BlockKind, body: &[Line]) -> Vec<Declaration> {
        let lines: Vec<Line> = body.iter().copied().filter(|line| line.kind != LineKind::Blank).collect();
        let Some(level) = lines.first().map(|line| line.indent()) else { return Vec::new() };
        let mut declarations = Vec::with_capacity(lines.len());
        let mut rest = lines.as_slice();
        while let Some((_, deeper)) = rest.split_first() {
            let length = 1 + deeper.iter().take_while(|line| line.indent() > level).count();
            let (mine, others) = rest.split_at(length);
            self.declaration(kind, mine, &mut declarations);
            rest = others;
        }
        declarations
    }

    /// One declaration: its line, deeper lines that go on with it, and deeper details.
    fn declaration(&mut self, kind: BlockKind, mine: &[Line], all: &mut Vec<Declaration>) {
        let is_detail = |line: &Line| self.detail_head(line, false).is_some();
        let own = mine.iter().skip(1).position(is_detail).map_or(mine.len(), |at| at + 1);
        let (own, deeper) = mine.split_at(own);
        let joined = self.joined(own);
        let end = own.last().map_or(joined.start, |line| line.end());
        // Filled in where it stays: it is large.
        let before = all.len();
        all.resize_with(before + 1, Declaration::default);
        let Some(blank) = all.last_mut() else { return };
        let (read, form) = match kind {
            BlockKind::Torques => {
                (self.reader.torque_entry(&joined, blank), "name 20 N.m then 90 deg, crosswise")
            }
            _ => (self.reader.declaration(&joined, blank), "name \"Text\" x4  attribute, attribute"),
        };
        let read = self.keep(read, joined.start, end, form);
        let details = self.details(deeper);
        if read.is_none() {
            all.truncate(before);
        }
        let Some(declaration) = all.get_mut(before) else { return };
        sort_out_commas(declaration, owner(kind));
        for detail in details {
            match detail.value {
                DetailValue::Stage(stage) => declaration.stages.push(*stage),
                _ => declaration.details.push(detail),
            }
        }
        declaration.span = self.span(joined.start, end);
    }

    /// The indented lines under a statement: details, late messages, and prose in between.
    fn body(&mut self, body: &[Line], statement: &mut Statement) {
        let is_step = matches!(statement.head, Head::Step(_) | Head::Unread);
        let mut prose = std::mem::take(&mut self.prose_lines);
        let mut rest = body;
        let mut after_prose = false;
        while let Some((first, others)) = rest.split_first() {
            // After prose a line may only go on with it, unless deeper lines make it a message with details.
            let stands_alone =
                !after_prose || others.first().is_some_and(|next| next.indent() > first.indent());
            let late = is_step && stands_alone && self.late_message(first);
            let head = if late { Some(self.late_head(first)) } else { self.detail_head(first, after_prose) };
            let Some(head) = head else {
                prose.push(*first);
                after_prose = first.kind == LineKind::Indented;
                rest = others;
                continue;
            };
            let deeper = others
                .iter()
                .take_while(|line| line.kind == LineKind::Blank || line.indent() > first.indent())
                .count();
            let (mine, others) = rest.split_at(1 + deeper);
            let used = mine.iter().rposition(|line| line.kind != LineKind::Blank).map_or(1, |at| at + 1);
            if statement.details.capacity() == 0 {
                statement.details = Vec::with_capacity(if is_step { 1 } else { MOST_FIELDS });
            }
            self.detail(&head, mine.get(..used).unwrap_or(mine), &mut statement.details);
            after_prose = false;
            rest = others;
        }
        statement.prose = self.prose(&prose);
        prose.clear();
        self.prose_lines = prose;
    }

    fn prose(&self, lines: &[Line]) -> Option<Prose> {
        let from = lines.iter().position(|line| line.kind != LineKind::Blank)?;
        let to = lines.iter().rposition(|line| line.kind != LineKind::Blank)? + 1;
        let lines = lines.get(from..to)?;
        let span = self.span(lines.first()?.start(), lines.last()?.end());
        if let [line] = lines {
            let source = Excerpt::of(&self.source.text, line.start(), line.end());
            return Some(Prose { source, lines: Box::default(), span });
        }
        let base = lines.iter().filter(|l| l.kind != LineKind::Blank).map(|l| l.indent()).min().unwrap_or(0);
        let mut source = String::with_capacity(span.range().len());
        let mut starts = Vec::with_capacity(lines.len());
        let clip = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        for line in lines {
            if !source.is_empty() {
                source.push('\n');
            }
            let deeper = line.indent().saturating_sub(base).min(64);
            if line.kind == LineKind::Indented && deeper > 0 {
                source.extend(std::iter::repeat_n(' ', deeper));
            }
            starts.push((clip(source.len()), clip(line.start())));
            source.push_str(self.content(line));
        }
        Some(Prose { source: source.into(), lines: starts.into(), span })
    }
}

pub(super) fn first_word(text: &str) -> &str {
    let length = text.bytes().position(|byte| byte == b' ').unwrap_or(text.len());
    text.get(..length).unwrap_or("")
}

fn block_kind(word: &str) -> Option<BlockKind> {
    Some(match word {
        "parts" => BlockKind::Parts,
        "tools" => BlockKind::Tools,
        "supplies" => BlockKind::Supplies,
        "torques" => BlockKind::Torques,
        "figures" => BlockKind::Figures,
        _ => return None,
    })
}

/// What the lines of a block declare, where attributes go by it.
fn owner(kind: BlockKind) -> Option<words::Owner> {
    match kind {
        BlockKind::Parts => Some(words::Owner::Part),
        BlockKind::Tools => Some(words::Owner::Tool),
        BlockKind::Supplies => Some(words::Owner::Supply),
        BlockKind::Figures => Some(words::Owner::Figure),
        BlockKind::Torques => None,
    }
}

/// Gives list attributes the words that follow over commas: `models F40, F40S, single-use` is two attributes.
fn sort_out_commas(declaration: &mut Declaration, owner: Option<words::Owner>) {
    // A word that only other things have as an attribute, and with a value, may well be a name: a part `adapter`.
    let is_name = |next: &Attribute, row: &words::AttributeKey| {
        let elsewhere = owner.is_some_and(|owner| !row.on.contains(&owner));
        elsewhere && next.values.is_empty() && row.form != words::AttributeForm::Flag
    };
    let goes_on = |before: &Attribute, next: &Attribute| {
        words::attribute_key(&before.key.value).is_some_and(|row| row.list)
            && words::attribute_key(&next.key.value)
                .is_none_or(|row| needs_owner(&before.key.value, row) || is_name(next, row))
            && !words::nearly_attribute(&next.key.value)
    };
    let attributes = std::mem::take(&mut declaration.attributes);
    for next in attributes {
        match declaration.attributes.last_mut() {
            Some(before) if goes_on(before, &next) => {
                before.span = before.span.to(next.span);
                before.values.push(Value::Word(next.key));
                before.values.extend(next.values);
            }
            _ => declaration.attributes.push(next),
        }
    }
}

/// `needs clean, dry`: `dry` is an attribute of parts, but after `needs` it goes on with the list.
fn needs_owner(list: &str, row: &words::AttributeKey) -> bool {
    list == "needs" && row.key == "dry"
}
