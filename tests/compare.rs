//! Comparing two revisions: each demo procedure is edited in one known way, and exactly that is told.
mod edits;
mod words;

use crate::seeded::procedures;
use crate::seeded::source::Lines;
use crate::support::shop::Shop;
use cotter::compare::{Change, Class, Comparison, How, Kind, compare};
use cotter::source::{FileId, SourceFile};
use edits::{EDITS, Edit};
use rayon::prelude::*;

const TABLE: &str = "\
# What `cotter compare` tells

Each demo procedure is changed in one place in one known way, at every place where that can be done, and held against
what it was. *Once* counts where exactly that one change of meaning was told, as what it is. *To sign* says whether it
is marked for sign-off. Edits that change no meaning give none. Written by `tests/compare.rs`.

| Edit | Mutants | Once | Told as | To sign |
| --- | ---: | ---: | --- | --- |
";

/// What the demo shop makes of two texts of one file.
fn compared(shop: &Shop, name: &str, old: &str, new: &str) -> Comparison {
    let document = |text: &str| shop.document(&SourceFile::new(FileId(0), name, text));
    compare(&document(old), &document(new))
}

fn told(change: &Change) -> String {
    let mark = if change.sign_off { " (to sign)" } else { "" };
    format!("{}: {}{mark}", change.subject, change.told())
}

/// Why the edit was not told as it should be; none where it was.
fn fault(edit: &Edit, found: &Comparison) -> Option<String> {
    let meant: Vec<&Change> = found.meant().collect();
    let right = match (edit.told, meant.as_slice()) {
        (None, []) => true,
        (Some((kind, how)), [only]) => only.kind == kind && only.how == how && only.sign_off == edit.to_sign,
        _ => false,
    };
    let quiet = edit.silent && !found.changes.is_empty();
    let lists = || found.changes.iter().map(told).collect::<Vec<_>>();
    (!right || quiet).then(|| format!("{:#?}", lists()))
}

#[test]
fn every_edit_is_told_once_as_what_it_is() {
    let shop = Shop::demo();
    let mut table = String::from(TABLE);
    let mut faults = Vec::new();
    let (mut all, mut right) = (0, 0);
    for edit in EDITS {
        let mutants: Vec<(String, String, String)> = procedures()
            .into_iter()
            .flat_map(|(name, text)| {
                let mutants = (edit.make)(&Lines::of(&text));
                mutants.into_iter().map(move |mutant| (name.clone(), text.clone(), mutant))
            })
            .collect();
        if mutants.is_empty() {
            faults.push(format!("{}: nowhere to make it", edit.name));
        }
        let found: Vec<String> = mutants
            .par_iter()
            .filter_map(|(name, text, mutant)| {
                let why = fault(edit, &compared(&shop, name, text, mutant))?;
                let line = mutant.lines().zip(text.lines()).find(|(new, old)| new != old);
                Some(format!("{}: {name}: {line:?}\n{why}", edit.name))
            })
            .collect();
        let told = match edit.told {
            Some((kind, how)) => format!("{} {}", kind.name(), how.word()),
            None if edit.silent => "nothing".to_owned(),
            None => "other words only".to_owned(),
        };
        let (count, once) = (mutants.len(), mutants.len() - found.len());
        let sign = if edit.to_sign { "yes" } else { "" };
        println!("{:<50}{count:>6}{once:>6}  {told}", edit.name);
        table.push_str(&format!("| {} | {count} | {once} | {told} | {sign} |\n", edit.name));
        (all, right) = (all + count, right + once);
        faults.extend(found);
    }
    table.push_str(&format!("| **all** | {all} | {right} | | |\n"));
    table.push_str("\n## Kinds of change\n\n| Kind | What it covers |\n| --- | --- |\n");
    for kind in Kind::ALL {
        let class = if kind.class() == Class::Words { " (no change of meaning)" } else { "" };
        table.push_str(&format!("| {} | {}{class} |\n", kind.name(), kind.about()));
    }
    assert!(faults.is_empty(), "{} of {all}:\n{}", faults.len(), faults.join("\n"));
    crate::docs::is_current("grammar/changes.md", &table);
}

#[test]
fn every_kind_of_change_is_made_by_some_edit() {
    let made = |kind: Kind| EDITS.iter().any(|edit| edit.told.is_some_and(|it| it.0 == kind));
    let missing: Vec<Kind> =
        Kind::ALL.into_iter().filter(|kind| kind.class() == Class::Meaning && !made(*kind)).collect();
    // Supplies are declared in the shop's catalogue; `tests/compare/words.rs` changes that.
    assert_eq!(missing, [Kind::Supply]);
}

#[test]
fn a_file_is_the_same_as_itself_and_every_change_has_its_way_back() {
    let shop = Shop::demo();
    for (name, text) in procedures() {
        assert!(compared(&shop, &name, &text, &text).changes.is_empty(), "{name}");
        for edit in EDITS.iter().filter(|edit| edit.told.is_some()) {
            for mutant in (edit.make)(&Lines::of(&text)).iter().take(1) {
                let back = compared(&shop, &name, mutant, &text);
                assert!(back.meant().count() > 0, "{}: {name} is not told backwards", edit.name);
            }
        }
    }
}

/// Two procedures that have nothing in common: all of one is gone, all of the other is new, and nothing is missed.
#[test]
fn every_step_of_two_procedures_is_kept_moved_changed_gone_or_added() {
    let shop = Shop::demo();
    let all = procedures();
    for ((one, old), (_, new)) in all.iter().zip(all.iter().skip(1)) {
        let found = compared(&shop, one, old, new);
        let steps = |text: &str| {
            let source = SourceFile::new(FileId(0), one.as_str(), text);
            shop.document(&source).procedure().unwrap().steps().count()
        };
        let whole = |how| {
            let is = |it: &&Change| {
                matches!(it.kind, Kind::Step | Kind::Hold) && it.aspect.is_empty() && it.how == how
            };
            found.changes.iter().filter(is).count()
        };
        assert_eq!(steps(old) - whole(How::Gone), steps(new) - whole(How::Added), "{one}");
    }
}
