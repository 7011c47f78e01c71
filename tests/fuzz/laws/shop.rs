//! The demo shop, read once: every input stands for one of its procedures.
use cotter::model::register::Entry;
use cotter::model::{Catalogues, Register, Settings};
use cotter::source::{FileId, SourceFile};
use cotter::workspace::outline::{self, Outline};
use cotter::workspace::{self, OpenTexts, Reach, Workspace};
use cotter::{Compiled, Surroundings, compile};
use std::path::Path;
use std::sync::OnceLock;

/// The procedure whose place an input takes.
const FILE: &str = "procedures/pump-f40/fw-pmp-014.cotter";

pub fn shop() -> &'static Workspace {
    static SHOP: OnceLock<Workspace> = OnceLock::new();
    SHOP.get_or_init(|| {
        let mut above = Path::new(env!("CARGO_MANIFEST_DIR")).ancestors();
        let root = above.find(|folder| folder.join(FILE).is_file()).expect("the package has a demo shop");
        let (workspace, _) =
            workspace::around(root, Reach::All, OpenTexts::new()).expect("its settings are good");
        workspace
    })
}

/// The input as that procedure's text.
pub fn source(text: &str) -> SourceFile {
    let id = shop().id(FILE).expect("it is a file of the shop");
    SourceFile::new(id, FILE, text)
}

/// The procedure as it lies on the disk.
pub fn demo() -> Compiled {
    let id = shop().id(FILE).expect("it is a file of the shop");
    compiled(&workspace::source(shop(), id).expect("it can be read"))
}

pub fn compiled(source: &SourceFile) -> Compiled {
    compile(source, &workspace::surroundings(shop()))
}

/// A text by itself, in no shop.
pub fn alone(text: &str) -> SourceFile {
    SourceFile::new(FileId(0), "alone.cotter", text)
}

/// Where a text is the only one there is: it may call itself.
pub fn compiled_alone(text: &str) -> Compiled {
    let (settings, catalogues) = (Settings::default(), Catalogues::default());
    let mut register = Register::default();
    let Outline { procedure, leaves, afterwards, .. } = outline::of(text);
    if let Some((number, title)) = procedure {
        register.add(&number, Entry { title, file: "alone.cotter".to_owned(), leaves, afterwards });
    }
    let around = Surroundings { settings: &settings, register: &register, catalogues: &catalogues };
    compile(&alone(text), &around)
}
