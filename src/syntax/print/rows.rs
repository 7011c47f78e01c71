//! The lines of a statement as they are to be, before the columns are known.
use super::super::ast::{Declaration, Detail, DetailValue};
use super::super::lines;
use super::roles::Role;
use super::tidy::{Runs, breaks_text, tidy};
use super::{INDENT, Raw};
use crate::source::SourceFile;

pub(super) enum Row {
    /// `kept`: it is part of prose, however many there are in a row.
    Blank {
        kept: bool,
    },
    /// At the margin, or as far in as the line it stands above.
    Comment {
        margin: bool,
        text: String,
    },
    Verbatim(String),
    Line(Content),
}

/// A line, or several where its pieces need more room.
pub(super) struct Content {
    /// In columns.
    pub indent: usize,
    pub lead: Lead,
    /// May be parted from each other by a line break.
    pub pieces: Vec<String>,
    /// With its `#`; empty for none.
    pub comment: String,
}

/// What stands in columns before the pieces.
pub(super) enum Lead {
    Nothing,
    /// `key:`; those that are aligned stand in a column with their neighbours' values.
    Key {
        text: String,
        aligned: bool,
    },
    Cells {
        name: String,
        text: String,
        count: String,
    },
}

impl Row {
    /// The line where it stood, with tabs as blanks.
    pub(super) fn unmoved((raw, role): (&Raw<'_>, &Role<'_>)) -> Row {
        match role {
            Role::Blank => Row::Blank { kept: true },
            Role::Frozen => Row::Verbatim(raw.as_written().to_owned()),
            _ => line(raw.line.indent(), Lead::Nothing, raw.content.to_owned(), ""),
        }
    }
}

/// The house's layout of a statement.
pub(super) fn of(source: &SourceFile, raws: &[Raw<'_>], roles: &[Role<'_>]) -> Vec<Row> {
    let prose = |role: &Role<'_>| matches!(role, Role::Prose);
    let prose_from = roles.iter().position(prose).unwrap_or(roles.len());
    let prose_to = roles.iter().rposition(prose).unwrap_or(0);
    let prose_lines = raws.iter().zip(roles).filter(|(_, role)| prose(role));
    let base = prose_lines.map(|(raw, _)| raw.line.indent()).min().unwrap_or(0);
    let mut rows = Vec::with_capacity(raws.len());
    let mut form = Form::default();
    let mut at = 0;
    while let (Some(raw), Some(role)) = (raws.get(at), roles.get(at)) {
        let mut length = 1;
        match role {
            Role::Blank => {
                let kept = (prose_from..prose_to).contains(&at);
                // Only the head stands above it: however many there are, none is kept.
                let after_head = rows.len() == 1 && !kept;
                rows.extend((!after_head).then_some(Row::Blank { kept }));
            }
            Role::Comment => {
                let margin = raw.line.indent() == 0;
                rows.push(Row::Comment { margin, text: raw.content.to_owned() });
            }
            Role::Frozen => rows.push(Row::Verbatim(raw.as_written().to_owned())),
            Role::Head => rows.push(structured(0, raw)),
            Role::HeadMore => rows.push(structured(INDENT, raw)),
            Role::Prose => {
                let indent = INDENT + raw.line.indent().saturating_sub(base);
                rows.push(line(indent, Lead::Nothing, raw.content.to_owned(), ""));
            }
            Role::Detail(detail) => {
                form = Form::of(Some(detail));
                rows.push(headed(INDENT, raw, Some(detail), form));
            }
            Role::Deep(detail) => {
                form = Form::of(*detail);
                rows.push(headed(2 * INDENT, raw, *detail, form));
            }
            Role::DetailMore => rows.push(going_on(2 * INDENT, raw, form)),
            Role::DeepMore => rows.push(going_on(3 * INDENT, raw, form)),
            Role::DeclarationMore => rows.push(structured(2 * INDENT, raw)),
            Role::Declaration(declaration) => {
                let more = roles.get(at + 1..).unwrap_or_default();
                length = 1 + own_lines(more);
                let mine = raws.get(at..at + length).unwrap_or_default();
                match together(source, declaration, mine) {
                    Some(row) => rows.push(row),
                    None if breaks_text(source.slice(declaration.span)) => {
                        rows.extend(mine.iter().map(|raw| Row::Verbatim(raw.as_written().to_owned())));
                    }
                    None => {
                        rows.push(first_line(source, declaration, raw));
                        length = 1;
                    }
                }
            }
        }
        at += length;
    }
    rows
}

/// How many of the lines behind a declaration's first go on with it, blank ones and comments between them counted.
fn own_lines(behind: &[Role<'_>]) -> usize {
    let go_on =
        |role: &&Role<'_>| matches!(role, Role::DeclarationMore | Role::Comment | Role::Blank | Role::Frozen);
    let most = behind.iter().take_while(go_on).count();
    let own = behind.get(..most).unwrap_or_default();
    own.iter().rposition(|role| matches!(role, Role::DeclarationMore)).map_or(0, |last| last + 1)
}

fn line(indent: usize, lead: Lead, code: String, comment: &str) -> Row {
    let pieces = if code.is_empty() { Vec::new() } else { vec![code] };
    Row::Line(Content { indent, lead, pieces, comment: comment.to_owned() })
}

/// The code of a structured line, and its comment.
fn parted<'a>(raw: &Raw<'a>) -> (&'a str, &'a str) {
    lines::comment_start(raw.content)
        .and_then(|at| raw.content.split_at_checked(at))
        .unwrap_or((raw.content, ""))
}

fn structured(indent: usize, raw: &Raw<'_>) -> Row {
    let (code, comment) = parted(raw);
    line(indent, Lead::Nothing, tidy(code, Runs::Single), comment)
}

/// How the value of a detail is written.
#[derive(Clone, Copy, Default, PartialEq, Eq)]
enum Form {
    /// Any words, `#` among them.
    Free,
    /// Words parted by commas.
    List,
    #[default]
    Code,
}

impl Form {
    fn of(detail: Option<&Detail>) -> Form {
        match detail.map(|it| &it.value) {
            Some(DetailValue::Free | DetailValue::Prose(_)) => Form::Free,
            Some(DetailValue::List(_)) => Form::List,
            _ => Form::Code,
        }
    }

    fn tidy(self, words: &str) -> String {
        match self {
            Form::Free => words.trim_matches([' ', '\t']).to_owned(),
            Form::List => tidy(words, Runs::Kept),
            Form::Code => tidy(words, Runs::Single),
        }
    }
}

/// The first line of a detail.
fn headed(indent: usize, raw: &Raw<'_>, detail: Option<&Detail>, form: Form) -> Row {
    let (code, comment) = if form == Form::Free { (raw.content, "") } else { parted(raw) };
    let key_length = detail.map_or_else(|| code.find(':'), |it| Some(it.key.span.range().len()));
    let colon = detail.map_or(key_length, |it| colon(it, raw, code));
    let cut = colon.zip(key_length).and_then(|(colon, key_length)| {
        Some((code.get(..key_length)?, code.get(key_length..colon)?, code.get(colon + 1..)?))
    });
    // A message in the wrong place has no colon; its mend moves it as it is.
    let Some((key, arguments, value)) = cut else {
        return line(indent, Lead::Nothing, raw.content.to_owned(), "");
    };
    let arguments = tidy(arguments, Runs::Kept);
    let aligned = arguments.is_empty() && !matches!(key, "if" | "otherwise" | "except" | "option" | "stage");
    let text = if arguments.is_empty() { format!("{key}:") } else { format!("{key} {arguments}:") };
    line(indent, Lead::Key { text, aligned }, form.tidy(value), comment)
}

/// Where the colon behind the key and its arguments stands: right before the value.
fn colon(detail: &Detail, raw: &Raw<'_>, code: &str) -> Option<usize> {
    let value = (detail.raw.span.start as usize).saturating_sub(raw.line.start());
    let before = code.get(..value.min(code.len()))?.trim_end_matches([' ', '\t']);
    before.ends_with(':').then(|| before.len() - 1)
}

fn going_on(indent: usize, raw: &Raw<'_>, form: Form) -> Row {
    let (code, comment) = if form == Form::Free { (raw.content, "") } else { parted(raw) };
    line(indent, Lead::Nothing, form.tidy(code), comment)
}

/// A declaration whose lines may be broken anew: no comment stands between them, and no text goes over their ends.
fn together(source: &SourceFile, declaration: &Declaration, raws: &[Raw<'_>]) -> Option<Row> {
    let (last, others) = raws.split_last()?;
    let plain = |raw: &Raw<'_>| raw.line.kind == lines::LineKind::Blank || parted(raw).1.is_empty();
    let readable =
        |raw: &Raw<'_>| !matches!(raw.line.kind, lines::LineKind::Comment | lines::LineKind::TooLong);
    if !raws.iter().all(readable) || !others.iter().all(plain) || breaks_text(source.slice(declaration.span))
    {
        return None;
    }
    let (code, comment) = parted(last);
    Some(cells(source, declaration, last.line.start() + code.len(), comment))
}

/// The first line of a declaration whose other lines stay lines of their own.
fn first_line(source: &SourceFile, declaration: &Declaration, raw: &Raw<'_>) -> Row {
    let (code, comment) = parted(raw);
    cells(source, declaration, raw.line.start() + code.len(), comment)
}

/// A declaration up to the byte `end`, cut into its columns.
fn cells(source: &SourceFile, declaration: &Declaration, end: usize, comment: &str) -> Row {
    let slice = |from: usize, to: usize| tidy(source.text.get(from..to.min(end)).unwrap_or(""), Runs::Single);
    let attributes = declaration.attributes.iter().map(|it| it.span.start as usize);
    let items = declaration.torque.iter().map(|it| it.span.start as usize);
    let mut starts: Vec<usize> = attributes.chain(items).filter(|&start| start < end).collect();
    starts.push(end);
    let name_at = declaration.name.span.range();
    let text_at = declaration.text.as_ref().map(|it| it.span.range()).filter(|it| it.start < end);
    let mut name = slice(name_at.start, name_at.end);
    let mut text = text_at.clone().map(|it| slice(it.start, it.end)).unwrap_or_default();
    let behind = text_at.map_or(name_at.end, |it| it.end);
    let count = slice(behind, starts.first().copied().unwrap_or(end));
    // A comma may stand before the attributes; it goes with the word before it.
    let count = match count.strip_prefix(',') {
        Some(rest) => {
            if text.is_empty() {
                name.push(',')
            } else {
                text.push(',')
            }
            rest.trim_start().to_owned()
        }
        None => count,
    };
    let pieces = starts.iter().zip(starts.iter().skip(1)).map(|(&from, &to)| slice(from, to)).collect();
    let lead = Lead::Cells { name, text, count };
    Row::Line(Content { indent: INDENT, lead, pieces, comment: comment.to_owned() })
}
