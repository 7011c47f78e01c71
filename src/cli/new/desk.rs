//! Answers held against the workspace that the new file is for, and the file made of them.
use super::super::publish::folder_name;
use super::super::trouble::Trouble;
use super::super::workspace::{self, Asked, OpenTexts, Reach, Selection, Workspace};
use super::super::{files, paths, run};
use crate::compile;
use crate::draft::{self, Answers, Danger, Shop};
use crate::model::document::{Body, Header};
use crate::model::settings::NEWEST_EDITION;
use crate::model::{Document, Settings, Surroundings};
use crate::report::{Finding, Severity};
use crate::source::quotes::quoted;
use crate::source::{FileId, SourceFile};
use crate::syntax;
use crate::workspace::settings::FILE_NAME;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What an answer is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum About {
    Number,
    Title,
    Equipment,
    Models,
    Time,
    People,
    Requires,
    Afterwards,
    Dangers,
}

/// A file that was written.
pub(super) struct Made {
    pub shown: String,
    /// The settings that were written beside it, where there were none and nothing that they could change.
    pub settings: Option<String>,
    /// Errors and warnings that the house's own rules leave.
    pub left: usize,
}

/// Where the answers are gathered.
pub(super) struct Desk {
    here: PathBuf,
    workspace: Workspace,
    /// Absolute and tidy, where the author named one.
    file: Option<PathBuf>,
    answers: Answers,
}

const EXTENSION: &str = workspace::collect::EXTENSION;

impl Desk {
    /// # Errors
    /// Where the file cannot be a new procedure, or its workspace cannot be used.
    pub fn open(file: Option<&Path>) -> Result<Desk, Trouble> {
        let here = run::here()?;
        let file = file.map(|file| paths::tidy(&here, file));
        if let Some(file) = &file {
            usable(file, &paths::shown(&here, file))?;
        }
        let root = workspace::root_of(&here, file.as_deref().unwrap_or(&here));
        let asked = Asked { root, paths: Vec::new() };
        let (selection, troubles) = Selection::open(&here, &asked);
        let Some(Selection { workspace, .. }) = selection else {
            let unknown = || Trouble::new(paths::shown(&here, &asked.root), "cannot be read");
            return Err(troubles.into_iter().next().unwrap_or_else(unknown));
        };
        let answers = Answers {
            number: String::new(),
            title: String::new(),
            equipment: String::new(),
            models: String::new(),
            time: String::new(),
            people: 1,
            requires: String::new(),
            afterwards: String::new(),
            dangers: Vec::new(),
        };
        Ok(Desk { here, workspace, file, answers })
    }

    /// Keeps an answer.
    ///
    /// # Errors
    /// Why it cannot be used, as a sentence.
    pub fn take(&mut self, about: About, answer: &str) -> Result<(), String> {
        let answer = answer.trim();
        if answer.is_empty() {
            return Err("Something has to stand here".to_owned());
        }
        if answer.chars().any(char::is_control) {
            return Err("One line without tabs, please".to_owned());
        }
        match about {
            About::Number => self.answers.number = self.number(answer)?,
            About::Title => {
                let kept = self.read(&quoted(answer), "")?;
                same(kept.procedure().map(|it| it.title.as_str()), answer)?;
                self.answers.title = answer.to_owned();
            }
            About::Equipment => {
                let kept = self.field("equipment", answer)?;
                same(kept.equipment.as_ref().map(|it| it.as_str()), answer)?;
                self.answers.equipment = answer.to_owned();
            }
            About::Models => {
                let read = self.field("models", answer)?.models.unwrap_or_default();
                let said = answer.split(',').map(str::trim).filter(|it| *it != "none");
                if !said.eq(read.iter().map(|it| it.as_str())) {
                    return Err(format!(
                        "`{answer}` is no list of models: write them with commas, or `none`"
                    ));
                }
                self.answers.models = answer.to_owned();
            }
            About::Time => {
                let no_time = |_| format!("`{answer}` is no time: write it as `90 min`");
                self.field("time", answer).map_err(no_time)?;
                self.answers.time = answer.to_owned();
            }
            About::People => self.answers.people = people(answer)?,
            About::Requires => self.answers.requires = self.calls("requires", answer)?,
            About::Afterwards => self.answers.afterwards = self.calls("afterwards", answer)?,
            About::Dangers => self.answers.dangers = dangers(answer)?,
        }
        Ok(())
    }

    fn number(&self, number: &str) -> Result<String, String> {
        folder_name(number).map_err(|why| format!("`{number}` cannot name a folder: {why}"))?;
        let register = &self.workspace.register;
        if let Some(taken) = register.numbers().find(|it| it.eq_ignore_ascii_case(number)) {
            let file = register.find(taken).first().map_or("", |it| it.file.as_str());
            return Err(format!("`{taken}` is the number of `{}` already", self.workspace.shown(file)));
        }
        let path = self.path(number);
        if path.symlink_metadata().is_ok() {
            return Err(format!("`{}` is there already", paths::shown(&self.here, &path)));
        }
        Ok(number.to_owned())
    }

    fn path(&self, number: &str) -> PathBuf {
        let named = || self.here.join(format!("{}.{EXTENSION}", number.to_ascii_lowercase()));
        self.file.clone().unwrap_or_else(named)
    }

    /// Numbers with commas between them, as a head writes them: with what each leaves, where it says so.
    fn calls(&self, key: &str, answer: &str) -> Result<String, String> {
        let calls: Vec<String> = split(answer).map(|call| self.with_state(key, call)).collect();
        let calls = calls.join("; ");
        self.field(key, &calls)?;
        Ok(calls)
    }

    fn with_state(&self, key: &str, call: &str) -> String {
        let left = || {
            let [entry] = self.workspace.register.find(call) else { return None };
            let source = run::source(&self.workspace, self.workspace.id(&entry.file)?).ok()?;
            let document = compile(&source, &run::surroundings(&self.workspace)).document;
            let states = document.procedure()?.header.leaves.clone()?;
            let states: Vec<&str> = states.iter().map(|it| it.as_str()).collect();
            (!states.is_empty()).then(|| states.join(", "))
        };
        // What comes afterwards leaves what it leaves; only what the work begins with must be said.
        match left().filter(|_| key == "requires") {
            Some(state) => format!("{call} \"{state}\""),
            None => call.to_owned(),
        }
    }

    /// The head with only that field, as it is read back.
    fn field(&self, key: &str, value: &str) -> Result<Header, String> {
        let document = self.read("\"Title\"", &format!("    {key}: {value}\n"))?;
        let header = document.procedure().map(|it| it.header.clone()).filter(|it| it.has(key));
        header.ok_or_else(|| format!("`{value}` cannot stand there"))
    }

    /// A procedure of that title and field; what a rule says of either is why it cannot be.
    fn read(&self, title: &str, field: &str) -> Result<Document, String> {
        let head = format!("procedure NEW {title}\n{field}");
        let end = u32::try_from(head.len()).unwrap_or(u32::MAX);
        let source =
            SourceFile::new(FileId(u32::MAX), "new", head + "\nparts none\ntools none\nsupplies none\n");
        let settings = Settings { required_header: Vec::new(), ..self.workspace.settings.clone() };
        let around = Surroundings { settings: &settings, ..run::surroundings(&self.workspace) };
        let compiled = compile(&source, &around);
        // What hangs on the steps, or on a number that is none yet, is for the whole file.
        let of_steps = ["required-never-restored", "missing-header-field", "duplicate-procedure"];
        let mut wrong = compiled.findings.iter().filter(|it| it.span.start < end && counts(it));
        match wrong.find(|it| !of_steps.contains(&it.rule)) {
            Some(finding) if finding.rule == syntax::UNREADABLE_LINE => {
                Err("That cannot be read: leave out signs that mean something else in a procedure".to_owned())
            }
            Some(finding) => {
                let help = finding.help.as_ref().map(|help| format!(". {help}")).unwrap_or_default();
                Err(format!("{}{help}", finding.message))
            }
            None => Ok(compiled.document),
        }
    }

    /// Makes the file of the answers.
    ///
    /// # Errors
    /// Where it is there already or cannot be written.
    pub fn write(self) -> Result<Made, Trouble> {
        let path = self.path(&self.answers.number);
        let shown = paths::shown(&self.here, &path);
        let (text, left) = self.best(&path)?;
        let root = self.workspace.path("");
        let is_first = self.workspace.ids().next().is_none() && !workspace::is_marked(&root);
        files::create(&path, &shown, &text)?;
        let settings = is_first.then(|| root.join(FILE_NAME));
        let settings = settings
            .map(|it| (paths::shown(&self.here, &it), it))
            .map(|(shown, it)| files::create(&it, &shown, &first_settings()).map(|()| shown));
        Ok(Made { shown, settings: settings.transpose()?, left })
    }

    /// With what the house has, or, where that has findings, with less of it; and how many findings are left.
    fn best(&self, path: &Path) -> Result<(String, usize), Trouble> {
        let catalogues = self.catalogues();
        let folder = path.parent().unwrap_or(Path::new("/"));
        let uses = || catalogues.iter().map(|(name, _)| paths::shown(folder, &self.workspace.path(name)));
        let house = self.workspace.settings.cautions.as_deref();
        let house = house.and_then(|it| self.workspace.shelf.catalogues.of_house(it).ok()).map(Arc::as_ref);
        let required = self.workspace.settings.required_header.as_slice();
        let lent = || catalogues.iter().map(|(_, document)| document).chain(house).collect();
        let shops = [
            Shop { uses: uses().collect(), catalogues: lent(), required, calls: true },
            Shop { uses: uses().collect(), catalogues: lent(), required, calls: false },
            Shop { required, ..Shop::default() },
        ];
        let mut best: Option<(String, usize)> = None;
        for shop in &shops {
            let text = draft::skeleton(&self.answers, shop);
            let text = syntax::format(&SourceFile::new(FileId(0), "new", text));
            let left = self.findings(path, &text)?;
            if best.as_ref().is_none_or(|(_, least)| left < *least) {
                best = Some((text, left));
            }
            if left == 0 {
                break;
            }
        }
        Ok(best.unwrap_or_default())
    }

    /// Errors and warnings of the text, were it the file.
    fn findings(&self, path: &Path, text: &str) -> Result<usize, Trouble> {
        let open = OpenTexts::from([(path.to_path_buf(), Arc::from(text))]);
        let root = self.workspace.path("");
        let (workspace, _) = workspace::around(&root, Reach::All, open).map_err(|it| *it)?;
        let Some(id) = workspace.id_of(path) else { return Ok(0) };
        let source = run::source(&workspace, id)?;
        let compiled = compile(&source, &run::surroundings(&workspace));
        Ok(compiled.findings.iter().filter(|it| counts(it)).count())
    }

    /// Every catalogue of the workspace without errors but the house's own, which needs no `use`.
    fn catalogues(&self) -> Vec<(String, Document)> {
        let own = self.workspace.settings.cautions.as_deref();
        let own = own.and_then(|written| crate::model::catalogues::join("", written).ok());
        let around = run::surroundings(&self.workspace);
        let read = |id: FileId| {
            let name = self.workspace.name(id);
            let source = run::source(&self.workspace, id).ok()?;
            let may_be = source.text.lines().any(|line| line.starts_with("catalogue"));
            if !may_be || own.as_deref() == Some(name) {
                return None;
            }
            let compiled = compile(&source, &around);
            let sound = compiled.findings.iter().all(|it| it.severity != Severity::Error);
            let lends = matches!(compiled.document.body, Body::Catalogue { .. }) && sound;
            lends.then(|| (name.to_owned(), compiled.document))
        };
        self.workspace.ids().filter_map(read).collect()
    }
}

fn counts(finding: &Finding) -> bool {
    finding.severity != Severity::Advice
}

/// A file that is not there yet, in a folder that is.
fn usable(file: &Path, shown: &str) -> Result<(), Trouble> {
    if file.symlink_metadata().is_ok() {
        return Err(Trouble::new(shown, "is there already").help("name a file that is not there yet"));
    }
    if !workspace::collect::is_source(file) {
        return Err(Trouble::new(shown, "does not end in `.cotter`").help("procedures are files that do"));
    }
    if !file.parent().is_some_and(Path::is_dir) {
        return Err(Trouble::new(shown, "its folder is not there").help("make the folder first"));
    }
    Ok(())
}

/// Whether it is read back as it was said: what follows a `#`, for one, would be lost.
fn same(read: Option<&str>, answer: &str) -> Result<(), String> {
    match read {
        Some(read) if read == answer => Ok(()),
        Some(read) => Err(format!("Only `{read}` of that would be kept: leave the other signs out")),
        None => Err(format!("`{answer}` cannot stand there")),
    }
}

fn people(answer: &str) -> Result<u32, String> {
    const MOST: u32 = 100;
    let number = answer.parse::<u32>().ok().filter(|it| (1..=MOST).contains(it));
    number.ok_or_else(|| {
        format!("`{answer}` is no whole number from 1 to {MOST}. Who helps where is said in the file, by the steps' labels")
    })
}

/// House settings of a new workspace: which edition its files are written in.
fn first_settings() -> String {
    format!("# House settings. The language reference lists them all.\nedition = {NEWEST_EDITION}\n")
}

fn dangers(answer: &str) -> Result<Vec<Danger>, String> {
    if answer.eq_ignore_ascii_case("nothing") {
        return Ok(Vec::new());
    }
    let words: Vec<String> = answer
        .split([',', ' '])
        .filter(|it| !it.is_empty() && *it != "and")
        .map(str::to_ascii_lowercase)
        .collect();
    let known = |word: &String| Danger::ALL.iter().any(|it| it.word() == word);
    if let Some(unknown) = words.iter().find(|word| !known(word)) {
        let all = Danger::ALL.map(Danger::word).join("`, `");
        return Err(format!("`{unknown}` is none of `{all}`; where the machine is none of them, `nothing`"));
    }
    Ok(Danger::ALL.into_iter().filter(|it| words.iter().any(|word| word == it.word())).collect())
}

/// At commas and semicolons outside quotes.
fn split(calls: &str) -> impl Iterator<Item = &str> {
    let mut quoted = false;
    let between = move |c: char| {
        quoted ^= c == '"';
        !quoted && matches!(c, ',' | ';')
    };
    calls.split(between).map(str::trim).filter(|it| !it.is_empty())
}
