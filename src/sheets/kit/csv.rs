//! The list as comma-separated values after RFC 4180, for a spreadsheet or an order form.
use super::{Line, List};
use std::borrow::Cow;

/// One record a line, under `list,number,text,each,all,notes,for`; several notes or procedures stand in one field,
/// with `; ` between them.
pub fn csv(list: &List) -> String {
    let mut writer = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    let mut write = |record: [&str; 7]| writer.write_record(record);
    let mut whole = write(["list", "number", "text", "each", "all", "notes", "for"]).is_ok();
    let lists: [(&str, &[Line]); 5] = [
        ("order", &list.order),
        ("have", &list.have),
        ("tools", &list.tools),
        ("supplies", &list.supplies),
        ("wear", &list.wear),
    ];
    let pieces = |count: Option<u64>| count.map_or_else(String::new, |count| count.to_string());
    for (name, lines) in lists {
        for line in lines {
            let (each, all) = (pieces(line.each), pieces(line.all));
            let (number, text) = (as_text(&line.number), as_text(&line.text));
            let (notes, procedures) = (line.notes.join("; "), line.procedures.join("; "));
            let (notes, procedures) = (as_text(&notes), as_text(&procedures));
            whole &= write([name, &number, &text, &each, &all, &notes, &procedures]).is_ok();
        }
    }
    // A vector takes all that is written, and every record has seven fields.
    debug_assert!(whole);
    writer.into_inner().ok().and_then(|bytes| String::from_utf8(bytes).ok()).unwrap_or_default()
}

/// A spreadsheet takes a cell that starts so for a formula and works it out; an apostrophe before it keeps it text.
fn as_text(cell: &str) -> Cow<'_, str> {
    if cell.starts_with(['=', '+', '-', '@']) { Cow::Owned(format!("'{cell}")) } else { Cow::Borrowed(cell) }
}
