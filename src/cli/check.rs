//! `cotter check`: findings, and nothing is written but mends and a list of known findings, where they are asked for.
use super::findings::baseline::{Baseline, Standing};
use super::findings::{self, Answer, Told};
use super::opened::Opened;
use super::plain::{self, Places};
use super::tally::{Tally, count};
use super::terminal::Terminal;
use super::trouble::Trouble;
use super::workspace::{Asked, Known};
use super::{CheckArguments, CheckFormat, mend, run, threshold, touched};
use crate::compile;
use crate::report::Finding;
use std::collections::HashSet;
use std::path::Path;

/// What one file gave.
#[derive(Default)]
struct Checked {
    name: String,
    /// As the user would write it.
    shown: String,
    tally: Tally,
    text: String,
    told: Vec<Told>,
    /// Those of them that are known.
    known: Vec<Told>,
    /// Nothing was found, known or not.
    clean: bool,
}

/// What the run gave.
#[derive(Default)]
struct Sum {
    tally: Tally,
    text: String,
    told: Vec<Told>,
    known: Vec<Told>,
    shown: Vec<String>,
    looked_at: HashSet<String>,
    troubles: Vec<Trouble>,
}

/// Checks what was asked for and gives the exit code.
pub fn run(arguments: &CheckArguments, jobs: usize, terminal: &mut Terminal) -> u8 {
    let mut sum = Sum::default();
    let (mut told, mut mending) = (String::new(), Vec::new());
    if arguments.fix || arguments.diff {
        (told, mending) = mend::run(&arguments.paths, arguments.diff);
    }
    sum.troubles.extend(mending);
    let baseline = match arguments.baseline.as_deref() {
        Some(path) => Baseline::open(path, arguments.update_baseline).map(Some),
        None => Ok(None),
    };
    let mut baseline = baseline.unwrap_or_else(|trouble| {
        sum.troubles.push(trouble);
        None
    });
    match run::asked(&arguments.paths) {
        Ok((here, groups)) => run::with_jobs(jobs, || {
            for asked in &groups {
                workspace(&here, asked, arguments, baseline.as_ref(), terminal, &mut sum);
            }
        }),
        Err(trouble) => sum.troubles.push(trouble),
    }
    let standing = baseline.as_mut().map(|baseline| settle(arguments, baseline, &mut sum));
    for trouble in &sum.troubles {
        terminal.trouble(trouble);
    }
    let fails = sum.tally.reaches(threshold(arguments.deny)) && !arguments.update_baseline;
    let code = match (sum.troubles.is_empty(), fails) {
        (false, _) => 2,
        (true, true) => 1,
        (true, false) => 0,
    };
    terminal.print(&text(arguments, &sum, &told, standing));
    code
}

/// Holds what was found against what is known, and writes that anew where it is asked for.
fn settle(arguments: &CheckArguments, baseline: &mut Baseline, sum: &mut Sum) -> Standing {
    let all: Vec<Told> = sum.told.iter().chain(&sum.known).cloned().collect();
    let standing = baseline.standing(&all, &sum.looked_at);
    if let Some(path) = arguments.baseline.as_deref().filter(|_| arguments.update_baseline) {
        baseline.update(&all, &sum.looked_at);
        sum.troubles.extend(baseline.write(path).err());
    }
    standing
}

fn text(arguments: &CheckArguments, sum: &Sum, mends: &str, standing: Option<Standing>) -> String {
    let answer = Answer {
        findings: &sum.told,
        files: &sum.shown,
        troubles: &sum.troubles,
        tally: sum.tally,
        threshold: threshold(arguments.deny),
    };
    match arguments.format {
        CheckFormat::Json => findings::json(&answer),
        CheckFormat::Sarif => findings::sarif(&answer),
        CheckFormat::Junit => findings::junit(&answer),
        CheckFormat::Github => findings::github(&answer),
        CheckFormat::Lines => findings::lines(&answer),
        CheckFormat::Text => {
            let known = standing.map(|it| known(it, arguments.update_baseline)).unwrap_or_default();
            let none = arguments.since.as_ref().filter(|_| sum.tally.files == 0 && sum.troubles.is_empty());
            let none = none.map(|since| format!("nothing changed since {}\n", plain::harmless(since)));
            format!("{mends}{}{}{}{known}", sum.text, sum.tally.line(), none.unwrap_or_default())
        }
    }
}

fn known(standing: Standing, updated: bool) -> String {
    let Standing { known, new, mended } = standing;
    if updated {
        return format!("known findings written: {} ({new} new, {mended} mended)\n", known + new);
    }
    let set_aside = match known {
        0 => String::new(),
        known => format!("{} known and set aside\n", count(known, "finding")),
    };
    let mended = match mended {
        0 => String::new(),
        mended => format!("{} known but mended; `--update-baseline` takes note\n", count(mended, "finding")),
    };
    set_aside + &mended
}

fn workspace(
    here: &Path,
    asked: &Asked,
    arguments: &CheckArguments,
    baseline: Option<&Baseline>,
    terminal: &Terminal,
    sum: &mut Sum,
) {
    let opened = Opened::for_check(here, asked, arguments.cache.folder());
    let Opened { mut selection, known: earlier, troubles } = match opened {
        Ok(opened) => opened,
        Err(trouble) => {
            sum.troubles.push(*trouble);
            return;
        }
    };
    sum.troubles.extend(troubles);
    if let Some(since) = &arguments.since
        && let Err(trouble) = touched::keep(&mut selection, &asked.root, since)
    {
        sum.troubles.push(trouble);
        return;
    }
    let look = terminal.look();
    let known = baseline.map(Baseline::knows);
    // Places and fingerprints cost time, and text needs neither.
    let plain_text = arguments.format == CheckFormat::Text && known.is_none();
    let is_clean = |id| earlier.as_ref().is_some_and(|earlier: &Known| earlier.is_clean(id));
    let results = run::each_file(&selection, terminal.watched(), |id| {
        let name = selection.workspace.name(id);
        let shown = if plain_text { String::new() } else { selection.workspace.shown(name) };
        let name = name.to_owned();
        if is_clean(id) {
            return Ok(Checked { name, shown, tally: Tally::of(&[]), clean: true, ..Checked::default() });
        }
        let source = &run::source(&selection.workspace, id)?;
        let compiled = compile(source, &run::surroundings(&selection.workspace));
        let clean = compiled.findings.is_empty();
        let places = Places { workspace: &selection.workspace, source };
        let told = if plain_text { Vec::new() } else { findings::of_file(&compiled.findings, places) };
        let is_known: Vec<bool> =
            told.iter().map(|it| known.as_ref().is_some_and(|known| known(it))).collect();
        let is_new = |at: usize| is_known.get(at) != Some(&true);
        let kept = |(at, finding): (usize, Finding)| is_new(at).then_some(finding);
        let found: Vec<Finding> = compiled.findings.into_iter().enumerate().filter_map(kept).collect();
        let text = match arguments.format {
            CheckFormat::Text => plain::findings(&found, places, look),
            _ => String::new(),
        };
        let (known, told) = told.into_iter().zip(is_known).partition::<Vec<_>, _>(|(_, known)| *known);
        let only = |told: Vec<(Told, bool)>| told.into_iter().map(|it| it.0).collect();
        Ok(Checked {
            name,
            shown,
            tally: Tally::of(&found),
            text,
            told: only(told),
            known: only(known),
            clean,
        })
    });
    let mut clean = Vec::new();
    for (&id, result) in selection.files.iter().zip(results) {
        match result {
            Ok(checked) => {
                clean.extend(checked.clean.then_some(id));
                sum.tally.add(checked.tally);
                sum.text.push_str(&checked.text);
                sum.told.extend(checked.told);
                sum.known.extend(checked.known);
                sum.shown.push(checked.shown);
                sum.looked_at.insert(checked.name);
            }
            Err(trouble) => sum.troubles.push(trouble),
        }
    }
    if let Some(earlier) = earlier {
        let _ = earlier.save(&selection.workspace, clean);
    }
}
