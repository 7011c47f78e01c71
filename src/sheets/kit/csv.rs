//! The list as comma-separated values after RFC 4180, for a spreadsheet or an order form.
use super::{Line, List};

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
            let (notes, procedures) = (line.notes.join("; "), line.procedures.join("; "));
            whole &= write([name, &line.number, &line.text, &each, &all, &notes, &procedures]).is_ok();
        }
    }
    // A vector takes all that is written, and every record has seven fields.
    debug_assert!(whole);
    writer.into_inner().ok().and_then(|bytes| String::from_utf8(bytes).ok()).unwrap_or_default()
}
