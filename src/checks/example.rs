//! The small files of the rules' examples: the header they leave out, and the workspace they live in.
use crate::model::picture::{Fault, Picture};
use crate::model::register::Entry;
use crate::model::{Catalogues, Register};

const HEADER: &str = "\
procedure EX-001 \"Renew the cover gasket\"
    revision:   A, 2026-11-02
    equipment:  F40 transfer pump
    models:     F40, F40S
    source:     manual \"F40 workshop manual, issue 7\"
    time:       30 min
    people:     1
    outcome:    Renew a gasket and tighten its cover evenly.
    requires:   none
    afterwards: none
    leaves:     none
";

/// `text` as a whole file: with a header, and `none` for the blocks it leaves out, unless it brings its own.
pub fn example(text: &str) -> String {
    if text.starts_with("procedure") || text.starts_with("catalogue") {
        return text.to_owned();
    }
    let blocks = ["parts", "tools", "supplies"];
    let missing = blocks.iter().filter(|block| !text.lines().any(|line| line.starts_with(**block)));
    let silent: String = missing.map(|block| format!("{block} none\n")).collect();
    format!("{HEADER}\n{silent}{text}")
}

/// The numbers that examples may call: `EX-001` to `EX-003`, and `EX-009`, which two files claim.
pub fn example_register() -> Register {
    let mut register = Register::default();
    for (number, title, file, leaves) in [
        ("EX-001", "Renew the cover gasket", "ex-001.cotter", ""),
        ("EX-002", "Drain the pump", "ex-002.cotter", "pump isolated and drained"),
        ("EX-003", "Fill the pump", "ex-003.cotter", "pump filled and returned to service"),
        ("EX-009", "Clean the strainer", "ex-009.cotter", ""),
        ("EX-009", "Clean the strainer", "copy-of-ex-009.cotter", ""),
    ] {
        let (title, file, leaves) = (title.to_owned(), file.to_owned(), leaves.to_owned());
        register.add(number, Entry { title, file, leaves, afterwards: None });
    }
    register
}

/// The pictures that examples may show: a drawing, one with a script in it, and one that is too large.
pub fn example_catalogues() -> Catalogues {
    let mut catalogues = Catalogues::default();
    let drawing = |text: &str| Picture::read(text.as_bytes(), u64::MAX);
    for (path, picture) in [
        ("figures/drive-end.svg", drawing(DRAWING)),
        ("figures/with-script.svg", drawing(&DRAWING.replace("</svg>", "<script>1</script></svg>"))),
        ("figures/poster.png", Err(Fault::TooLarge { bytes: 3_200_000 })),
    ] {
        catalogues.pictures.add(path, picture);
    }
    catalogues
}

const DRAWING: &str = r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 200 120" fill="none" stroke="black">
<rect x="20" y="20" width="60" height="80"/><rect x="80" y="20" width="8" height="80"/>
<text x="50" y="64">1</text><text x="110" y="64">2</text></svg>"#;
