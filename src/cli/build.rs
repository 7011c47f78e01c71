//! `cotter build`: checks, then writes the sheets of each procedure that nothing holds back.
use super::earlier::Earlier;
use super::linked::Pages;
use super::made::{self, Asking, KnownSheets, Made};
use super::opened::Opened;
use super::plain::{self, Places};
#[cfg(feature = "pdf")]
use super::publish::PRINTED;
use super::publish::{
    ANSWERS, ASSESSMENT, BENCH, CHECKLIST, HANDOUT, HANDOUT_CHECKLIST, INSTRUCTOR, KIT, MACHINE, Output,
    Written, folder_name,
};
use super::tally::{Tally, count};
use super::terminal::Terminal;
use super::trouble::Trouble;
use super::turns::Turns;
use super::workspace::collect::SHEETS;
use super::workspace::store::Digest;
use super::workspace::{Asked, Known, Selection, Survey, Workspace};
use super::{BuildArguments, Withheld, listing, paths, run, threshold};
use crate::Compiled;
use crate::model::register::Entry;
use crate::model::{Document, Language, Slip};
use crate::report::Severity;
use crate::sheets::{self, Context, Said, SheetError, Withhold, index};
use crate::source::{FileId, SourceFile};
use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::path::{Path, PathBuf};

/// What became of one file.
struct Outcome {
    tally: Tally,
    text: String,
    fate: Fate,
}

enum Fate {
    /// A catalogue, or a file that is neither.
    NoSheet,
    Made {
        entry: index::Entry,
        changed: usize,
        /// Letters that a PDF could not show.
        lacking: String,
        /// Sheets of an earlier build that this one did not make anew.
        outdated: Vec<String>,
        /// The revision that it still bears, though it changed since the earlier state that was named.
        kept_revision: Option<String>,
        /// What later builds may know of it.
        made: Option<Made>,
    },
    HeldBack {
        number: String,
        /// The catalogue whose error is the reason.
        catalogue: Option<String>,
    },
    Failed(Trouble),
}

/// What is written of one procedure.
#[derive(Default)]
struct Files {
    named: Vec<(String, Vec<u8>)>,
    /// Letters that a PDF could not show.
    lacking: BTreeSet<char>,
}

/// What the run gave.
#[derive(Default)]
struct Sum {
    tally: Tally,
    text: String,
    troubles: Vec<Trouble>,
}

/// Builds what was asked for and gives the exit code.
pub fn run(arguments: &BuildArguments, jobs: usize, terminal: &mut Terminal) -> u8 {
    let mut sum = Sum::default();
    match run::asked(&arguments.paths) {
        Ok((_, groups)) if groups.len() > 1 && arguments.output.is_some() => {
            sum.troubles.push(several(&groups));
        }
        Ok((here, groups)) => run::with_jobs(jobs, || {
            for asked in &groups {
                match Build::new(arguments, &here, asked) {
                    Ok(build) => build.run(&here, asked, terminal, &mut sum),
                    Err(trouble) => sum.troubles.push(trouble),
                }
            }
        }),
        Err(trouble) => sum.troubles.push(trouble),
    }
    for trouble in &sum.troubles {
        terminal.trouble(trouble);
    }
    terminal.print(&format!("{}{}", sum.text, sum.tally.line()));
    match (sum.troubles.is_empty(), sum.tally.reaches(threshold(arguments.deny))) {
        (false, _) => 2,
        (true, true) => 1,
        (true, false) => 0,
    }
}

fn several(groups: &[Asked]) -> Trouble {
    let second = groups.get(1).map(|group| group.root.to_string_lossy().into_owned()).unwrap_or_default();
    Trouble::new(second, "is another workspace, and one output folder cannot hold both")
        .help("build one workspace at a time")
}

/// The catalogue whose error alone makes this procedure wait.
fn faulty_catalogue(workspace: &Workspace, compiled: &Compiled) -> Option<String> {
    let errors = compiled.findings.iter().filter(|finding| finding.severity == Severity::Error).count();
    let fault = compiled.document.slips.iter().find_map(|slip| match slip {
        Slip::UnusableCatalogue { fault, .. } => fault.as_ref(),
        _ => None,
    })?;
    let source = workspace.shelf.source(fault.span.file).filter(|_| errors == 1)?;
    Some(workspace.shown(&source.name))
}

/// The numbers of the files that were asked for.
fn numbers(selection: &Selection) -> impl Iterator<Item = &str> {
    let workspace = &selection.workspace;
    let asked = |entry: &Entry| workspace.id(&entry.file).is_some_and(|id| selection.holds(id));
    workspace.register.numbers().filter(move |number| workspace.register.find(number).iter().any(asked))
}

fn withhold(asked: &[Withheld]) -> Option<Withhold> {
    let has = |what: Withheld| asked.contains(&what);
    (!asked.is_empty()).then(|| Withhold { torque: has(Withheld::Torque), limits: has(Withheld::Limits) })
}

/// One workspace's build.
struct Build {
    output: Output,
    threshold: Severity,
    /// As asked for; else the house's own number.
    benches: Option<u32>,
    /// As asked for; else the house's own.
    language: Option<Language>,
    /// None: no handouts.
    withhold: Option<Withhold>,
    /// Printed sheets as PDF too.
    #[cfg(feature = "pdf")]
    pdf: bool,
    /// What marks are made by.
    earlier: Option<Earlier>,
    /// Where what earlier builds know is kept; none where it does not count.
    cache: Option<PathBuf>,
}

/// What one build starts from.
struct Found {
    opened: Opened,
    /// What is known of the output folder, where earlier builds count.
    known_sheets: Option<KnownSheets>,
    /// The procedures whose sheets still stand.
    standing: HashMap<FileId, Made>,
    /// Lines of procedures that were not asked for and have sheets, by their numbers, as far as they are known.
    listed: BTreeMap<String, index::Entry>,
    is_whole: bool,
}

impl Build {
    fn new(arguments: &BuildArguments, here: &Path, asked: &Asked) -> Result<Build, Trouble> {
        let earlier =
            arguments.since.as_deref().map(|since| Earlier::open(since, here, &asked.root)).transpose()?;
        let folder = match &arguments.output {
            Some(folder) => paths::tidy(here, folder),
            None => asked.root.join(SHEETS),
        };
        let shown = paths::shown(here, &folder);
        Ok(Build {
            earlier,
            cache: arguments.cache.folder(),
            output: Output { folder, shown },
            threshold: threshold(arguments.deny),
            benches: arguments.benches,
            language: arguments.language,
            withhold: withhold(&arguments.withhold),
            #[cfg(feature = "pdf")]
            pdf: arguments.pdf,
        })
    }

    fn run(&self, here: &Path, asked: &Asked, terminal: &Terminal, sum: &mut Sum) {
        let found = self.open(here, asked).and_then(|survey| self.found(here, asked, survey));
        let Found { opened, known_sheets, standing, listed, is_whole } = match found {
            Ok(found) => found,
            Err(trouble) => {
                sum.troubles.push(*trouble);
                return;
            }
        };
        let Opened { mut selection, known, troubles } = opened;
        sum.troubles.extend(troubles);
        let settings = &mut selection.workspace.settings;
        settings.language = self.language.unwrap_or(settings.language);
        let turns = Turns::new(&selection.workspace, standing.keys().copied());
        let pages = Pages::new(&selection, &self.output, &turns, self.threshold);
        let look = terminal.look();
        let is_catalogue = |id| known.as_ref().is_some_and(|known: &Known| known.is_clean_catalogue(id));
        let results = run::each_file(&selection, terminal.watched(), |id| {
            if let Some(made) = standing.get(&id) {
                return Ok(self.left_standing(&pages, made));
            }
            if is_catalogue(id) {
                return Ok(Outcome { tally: Tally::of(&[]), text: String::new(), fate: Fate::NoSheet });
            }
            turns.take(id, |source, compiled| {
                let places = Places { workspace: &selection.workspace, source };
                let text = plain::findings(&compiled.findings, places, look);
                let tally = Tally::of(&compiled.findings);
                let keep = known.as_ref().and_then(|known| known.key(id)).zip(known_sheets.as_ref());
                let keep = keep.filter(|_| compiled.findings.is_empty());
                let fate = self.fate(&pages, &selection.workspace, source, compiled, keep);
                Outcome { tally, text, fate }
            })
        });
        let mut made = BTreeMap::new();
        let (mut changed, mut held, mut outdated) = (0, String::new(), Vec::new());
        let (mut clean, mut known_later) = (Vec::new(), BTreeMap::new());
        let mut unlinked = pages.without();
        for (&id, result) in selection.files.iter().zip(results) {
            let outcome = match result {
                Ok(outcome) => outcome,
                Err(trouble) => {
                    sum.troubles.push(trouble);
                    continue;
                }
            };
            sum.tally.add(outcome.tally);
            sum.text.push_str(&outcome.text);
            clean.extend(Some(id).filter(|_| outcome.tally.is_clean()));
            match outcome.fate {
                Fate::NoSheet => {}
                Fate::Made { entry, changed: pages, lacking, outdated: old, kept_revision, made: later } => {
                    let name = || selection.workspace.name(id).to_owned();
                    known_later.extend(later.map(|later| (name(), later)));
                    outdated.extend(old);
                    changed += pages;
                    if !lacking.is_empty() {
                        let (number, letters) = (plain::harmless(&entry.number), plain::harmless(&lacking));
                        held.push_str(&format!("note: the PDF of {number} has no letters for: {letters}\n"));
                    }
                    if let Some(revision) = kept_revision {
                        let (number, revision) = (plain::harmless(&entry.number), plain::harmless(&revision));
                        held.push_str(&format!(
                            "note: {number} means something else now and is still revision {revision}: give it a new one\n"
                        ));
                    }
                    made.insert(entry.number.clone(), entry);
                }
                Fate::HeldBack { number, catalogue } => {
                    let file = selection.workspace.shown(selection.workspace.name(id));
                    let called = unlinked.remove(&number);
                    held.push_str(&self.held_back(&number, &file, catalogue.as_deref(), called));
                }
                Fate::Failed(trouble) => sum.troubles.push(trouble),
            }
        }
        let number = count(made.len(), "procedure");
        let mut list = None;
        let known_list = listing::Known { sheets: known_sheets.as_ref(), entries: listed };
        match listing::write(&self.output, &selection.workspace, self.threshold, made, known_list) {
            Ok((pages, seen)) => {
                changed += pages;
                list = seen;
            }
            Err(trouble) => sum.troubles.push(trouble),
        }
        self.output.clear(numbers(&selection));
        let changed = count(changed, "page");
        sum.text.push_str(&format!("sheets of {number} in {}, {changed} changed\n", self.output.shown));
        sum.text.push_str(&held);
        if !outdated.is_empty() {
            let names = outdated.iter().map(|name| plain::harmless(name)).collect::<Vec<_>>().join(", ");
            sum.text.push_str(&format!(
                "note: of an earlier build and not made anew, take them away or build them too: {names}\n"
            ));
        }
        for number in unlinked {
            let number = plain::harmless(&number);
            sum.text.push_str(&format!("note: {number} has no sheet here, and is called without a link\n"));
        }
        sum.text.push_str(&listing::strangers(&self.output, &selection.workspace));
        if let Some((known, known_sheets)) = known.zip(known_sheets)
            && known.save(&selection.workspace, clean)
        {
            known_sheets.save(known_later, list, is_whole);
        }
    }

    /// What earlier builds know: none where they do not count, or where marks are made by an older state of the files.
    fn open(&self, here: &Path, asked: &Asked) -> Result<Option<Survey>, Box<Trouble>> {
        let Some(folder) = self.cache.as_ref().filter(|_| self.earlier.is_none()) else { return Ok(None) };
        Survey::open(here, asked, folder).map(Some)
    }

    fn found(&self, here: &Path, asked: &Asked, survey: Option<Survey>) -> Result<Found, Box<Trouble>> {
        let Some((survey, folder)) = survey.zip(self.cache.as_ref()) else {
            let opened = Opened::anew(here, asked)?;
            let (standing, listed) = (HashMap::new(), BTreeMap::new());
            return Ok(Found { opened, known_sheets: None, standing, listed, is_whole: false });
        };
        let known_sheets = KnownSheets::open(folder, &self.output, &self.manner());
        let standing = known_sheets.standing(&survey, &self.output);
        let unsure = |id: &FileId| !standing.contains_key(id) && !survey.known().is_clean_catalogue(*id);
        let mut wanted: BTreeSet<FileId> = survey.files().iter().copied().filter(unsure).collect();
        let is_whole = survey.is_whole();
        let listed =
            if is_whole { BTreeMap::new() } else { self.listed(&survey, &known_sheets, &mut wanted) };
        let opened = Opened::read(survey, &wanted)?;
        Ok(Found { opened, known_sheets: Some(known_sheets), standing, listed, is_whole })
    }

    /// Lines of procedures that have sheets and were not asked for; `wanted` grows by those that must be looked at.
    fn listed(
        &self,
        survey: &Survey,
        known_sheets: &KnownSheets,
        wanted: &mut BTreeSet<FileId>,
    ) -> BTreeMap<String, index::Entry> {
        let workspace = survey.workspace();
        let mut listed = BTreeMap::new();
        for (number, id) in listing::beside(workspace, &self.output) {
            if survey.files().binary_search(&id).is_ok() {
                continue;
            }
            match known_sheets.entry(survey, id) {
                Some(entry) => {
                    listed.insert(number.to_owned(), entry.clone());
                }
                None => {
                    wanted.insert(id);
                }
            }
        }
        listed
    }

    /// How sheets are asked for.
    fn manner(&self) -> String {
        #[cfg(feature = "pdf")]
        let pdf = self.pdf;
        #[cfg(not(feature = "pdf"))]
        let pdf = false;
        format!("{:?} {:?} {:?} {pdf}", self.benches, self.language, self.withhold)
    }

    /// Sheets that are as this build would make them.
    fn left_standing(&self, pages: &Pages<'_>, made: &Made) -> Outcome {
        let number = &made.entry.number;
        pages.note_made(number);
        let fate = Fate::Made {
            entry: made.entry.clone(),
            changed: 0,
            lacking: String::new(),
            outdated: self.output.outdated(number, &made.names()),
            kept_revision: None,
            made: Some(made.clone()),
        };
        Outcome { tally: Tally::of(&[]), text: String::new(), fate }
    }

    /// `called`: sheets of this build name it, and could not link to it.
    fn held_back(&self, number: &str, file: &str, catalogue: Option<&str>, called: bool) -> String {
        let last = match folder_name(number).is_ok() && self.output.has(number) {
            true => "; its last good sheets stay as they are",
            false if called => "; it has no sheet yet, and is called without a link",
            false => "",
        };
        let why = catalogue.map_or_else(String::new, |path| format!(", because of an error in {path}"));
        format!("held back: {} ({file}){why}{last}\n", plain::harmless(number))
    }

    /// Makes and writes the sheets of one file where nothing speaks against it.
    fn fate(
        &self,
        pages: &Pages<'_>,
        workspace: &Workspace,
        source: &SourceFile,
        compiled: &Compiled,
        keep: Option<(Digest, &KnownSheets)>,
    ) -> Fate {
        let Some(procedure) = compiled.document.procedure() else { return Fate::NoSheet };
        let number = &procedure.number.value;
        let tally = Tally::of(&compiled.findings);
        if tally.reaches(self.threshold) {
            let catalogue = faulty_catalogue(workspace, compiled);
            return Fate::HeldBack { number: number.to_string(), catalogue };
        }
        let trouble = |message: String| {
            let place = source.line_column(procedure.number.span.start);
            Trouble::new(workspace.shown(&source.name), message).at(place)
        };
        if let Err(why) = folder_name(number) {
            let message = format!("`{number}` cannot name the folder of its sheets: {why}");
            return Fate::Failed(trouble(message).help("give the procedure another number"));
        }
        if let Some(owner) = pages.owner(number).filter(|owner| *owner != &*source.name) {
            let message = format!("`{number}` is also the number of {}", workspace.shown(owner));
            return Fate::Failed(trouble(message).help("give one of the two another number"));
        }
        pages.note_made(number);
        self.make(pages, workspace, number, compiled, keep).unwrap_or_else(Fate::Failed)
    }

    fn make(
        &self,
        pages: &Pages<'_>,
        workspace: &Workspace,
        number: &str,
        compiled: &Compiled,
        keep: Option<(Digest, &KnownSheets)>,
    ) -> Result<Fate, Trouble> {
        let since = self.earlier.as_ref().and_then(|earlier| earlier.since(number, &compiled.document));
        let links = Asking::new(pages);
        let context = Context { register: &links, since: since.as_ref(), ..listing::context(workspace) };
        let failed =
            |error: SheetError| Trouble::new(format!("{}/{number}", self.output.shown), error.to_string());
        let document = &compiled.document;
        let said = Said::of(document, &context);
        let context = Context { said: Some(&said), ..context };
        let benches = self.benches.unwrap_or(workspace.settings.benches).max(1);
        let kit = sheets::kit::of(document, benches, &context).map_err(failed)?;
        let mut sheets = vec![
            (BENCH, sheets::bench::render(document, &context)),
            (CHECKLIST, sheets::checklist::render(document, &context)),
            (INSTRUCTOR, sheets::instructor::render(document, benches, &context)),
            (ASSESSMENT, sheets::assessment::render(document, &context)),
            (KIT, sheets::kit::render(&kit, &context)),
        ];
        if let Some(withhold) = self.withhold {
            sheets.push((HANDOUT, sheets::handout::bench(document, withhold, &context)));
            sheets.push((HANDOUT_CHECKLIST, sheets::handout::checklist(document, withhold, &context)));
            sheets.push((ANSWERS, sheets::handout::answers(document, withhold, &context)));
        }
        let named = sheets.into_iter().map(|(name, page)| page.map(|page| (name, page)));
        let sheets = named.collect::<Result<Vec<_>, _>>().map_err(failed)?;
        let Some(mut entry) = index::Entry::of(&compiled.document) else { return Ok(Fate::NoSheet) };
        // All of them are made before the first is written.
        let mut files = self.files(sheets, document, &context).map_err(failed)?;
        // A handout of an earlier build is no longer led to: it may be of an older issue.
        entry.others =
            files.named.iter().map(|(name, _)| name.clone()).filter(|name| name != BENCH).collect();
        let machine = sheets::machine::render(document, &context).map_err(failed)?;
        files.named.push((MACHINE.to_owned(), machine.into_bytes()));
        let (mut changed, mut seen) = (0, Vec::new());
        for (name, bytes) in &files.named {
            let written = self.output.write(number, name, bytes)?;
            changed += usize::from(written == Written::Changed && name != MACHINE);
            if keep.is_some() {
                seen.push((name.clone(), made::seen(written, bytes)));
            }
        }
        let names: Vec<&str> = files.named.iter().map(|(name, _)| name.as_str()).collect();
        let outdated = self.output.outdated(number, &names);
        // What is told of its letters is told at each build.
        let keep = keep.filter(|_| files.lacking.is_empty());
        let made = keep.map(|(key, known_sheets)| known_sheets.made(key, &links, entry.clone(), seen));
        let lacking = files.lacking.into_iter().collect();
        let kept_revision = since.and_then(|since| since.kept_revision);
        Ok(Fate::Made { entry, changed, lacking, outdated, kept_revision, made })
    }

    /// The pages as they are written, and those for printing as PDF too where that was asked for.
    #[cfg_attr(not(feature = "pdf"), allow(unused_variables, clippy::unused_self, clippy::unnecessary_wraps))]
    fn files(
        &self,
        sheets: Vec<(&'static str, String)>,
        document: &Document,
        context: &Context<'_>,
    ) -> Result<Files, SheetError> {
        let mut files = Files::default();
        for (name, page) in sheets {
            #[cfg(feature = "pdf")]
            if let Some(stem) = name.strip_suffix(".html").filter(|_| self.pdf && PRINTED.contains(&name)) {
                let drawn = sheets::pdf::of(&page, document, context)?;
                files.lacking.extend(drawn.lacking);
                files.named.push((format!("{stem}.pdf"), drawn.bytes));
            }
            files.named.push((name.to_owned(), page.into_bytes()));
        }
        Ok(files)
    }
}
