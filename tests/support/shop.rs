//! A folder of sources compiled in the test itself, without the program: what a rule sees of a workspace.
use cotter::model::Surroundings;
use cotter::model::catalogues::Catalogues;
use cotter::model::picture::Picture;
use cotter::model::register::Entry;
use cotter::model::resolve::{Resolved, resolve};
use cotter::model::{Body, Register, Settings};
use cotter::source::{FileId, SourceFile};
use cotter::syntax::ast::Head;
use cotter::workspace::outline;
use cotter::{Compiled, compile, syntax};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Settings, numbers and catalogues of a folder.
#[derive(Default)]
pub struct Shop {
    pub settings: Settings,
    pub register: Register,
    catalogues: Catalogues,
}

impl Shop {
    /// Takes in the given files; their names are relative to `root`.
    pub fn of(root: &Path, files: &[PathBuf]) -> Shop {
        Shop::with(root, files, Settings::default())
    }

    /// The same under house settings.
    pub fn with(root: &Path, files: &[PathBuf], settings: Settings) -> Shop {
        let mut shop = Shop { settings, ..Shop::default() };
        let (mut catalogues, mut procedures) = (Vec::new(), Vec::new());
        for (place, path) in files.iter().enumerate() {
            let id = FileId(u32::try_from(place + 1000).unwrap());
            let source = SourceFile::new(id, name(root, path), std::fs::read_to_string(path).unwrap());
            match syntax::parse(&source).tree.statements.into_iter().next().map(|s| s.head) {
                Some(Head::Procedure { number, title }) => {
                    let outline = outline::of(&source.text);
                    let entry = Entry {
                        title: title.map(|t| t.value.into()).unwrap_or_default(),
                        file: source.name.to_string(),
                        leaves: outline.leaves,
                        afterwards: outline.afterwards,
                    };
                    shop.register.add(&number.value, entry);
                    procedures.push((number.value.to_string(), source));
                }
                Some(Head::Catalogue { .. }) => catalogues.push(source),
                _ => {}
            }
        }
        for path in pictures(root) {
            let (bytes, largest) =
                (std::fs::read(&path).unwrap(), u64::from(shop.settings.pictures.each) * 1000);
            shop.catalogues.pictures.add(name(root, &path), Picture::read(&bytes, largest));
        }
        // Twice, so that a catalogue may use one that stands behind it.
        for source in catalogues.iter().chain(&catalogues) {
            let document = shop.compile(source).document;
            if matches!(document.body, Body::Catalogue { .. }) {
                shop.catalogues.add(source.name.to_string(), Ok(Arc::new(document)));
            }
        }
        // Twice, so that a procedure may follow one that stands behind it.
        for (number, source) in procedures.iter().chain(&procedures) {
            let Resolved { document, unread } = resolve(source, &shop.surroundings());
            if unread.is_empty() && document.slips.is_empty() {
                let net = cotter::ledger::net(&document, &shop.register);
                shop.register.bring(number, net.unwrap());
            }
        }
        shop
    }

    /// The demo shop: its house settings, catalogues and numbers.
    pub fn demo() -> Shop {
        let root = package("");
        let settings = std::fs::read_to_string(root.join("cotter.toml")).unwrap();
        Shop::with(&root, &sources(&package("procedures")), toml::from_str(&settings).unwrap())
    }

    pub fn compile(&self, source: &SourceFile) -> Compiled {
        compile(source, &self.surroundings())
    }

    /// The document alone, without what the rules say of it.
    pub fn document(&self, source: &SourceFile) -> cotter::model::Document {
        resolve(source, &self.surroundings()).document
    }

    fn surroundings(&self) -> Surroundings<'_> {
        Surroundings { settings: &self.settings, register: &self.register, catalogues: &self.catalogues }
    }
}

/// Every `.cotter` file below `folder`, sorted.
pub fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut found = files(folder);
    found.retain(|path| path.extension().is_some_and(|e| e == "cotter"));
    found
}

/// What stands in a folder `figures` of the package's demo shop, or of the fixtures of a rule.
fn pictures(root: &Path) -> Vec<PathBuf> {
    let folder = if *root == package("") { package("procedures") } else { root.to_path_buf() };
    let mut found = files(&folder);
    found.retain(|path| path.parent().is_some_and(|it| it.ends_with("figures")));
    found
}

/// Every file below `folder`, sorted.
fn files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut folders = vec![folder.to_path_buf()];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).into_iter().flatten() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else {
                found.push(path);
            }
        }
    }
    found.sort();
    found
}

/// A path relative to `root`, with forward slashes.
pub fn name(root: &Path, path: &Path) -> String {
    path.strip_prefix(root).unwrap_or(path).to_str().unwrap().replace('\\', "/")
}

/// A folder of the package.
pub fn package(folder: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(folder)
}
