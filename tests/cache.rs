//! What is kept between runs: whatever happens to the sources, the sheets and the store itself, a run that knows what
//! earlier ones found says and makes what one that knows nothing does.
use crate::support::workspace::{Run, Workspace};
use proptest::prelude::*;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

fn procedure(number: &str, header: &str, body: &str) -> String {
    format!(
        "procedure {number} \"Title of {number}\"\n    revision:   A, 2026-11-02\n    equipment:  F40 transfer pump\n    \
         models:     F40\n    source:     manual \"F40 manual\"\n    time:       30 min\n    people:     1\n    \
         outcome:    The cover is clean.\n{header}\n{body}"
    )
}

const PLAIN: &str = "    requires:   none\n    afterwards: none\n    leaves:     none\n";
const COVER: &str = "tools none\nsupplies none\nparts\n    cover \"Cover\"\n\nclean cover\n";

/// A catalogue with a picture, and procedures that follow, require and use each other.
fn shop() -> Workspace {
    Workspace::new()
        .file("cotter.toml", "house = \"Fenmoor Training Workshop\"\n")
        .file("shop.cotter", CATALOGUE)
        .file("drive.svg", picture("black"))
        .file(
            "a.cotter",
            procedure(
                "FW-A",
                PLAIN,
                "use \"shop.cotter\"\n\ntools none\nsupplies none\n\nclean shaft\n    figure: drive-end\n",
            ),
        )
        .file("b.cotter", procedure("FW-B", PLAIN, COVER))
        .file("c.cotter", procedure("FW-C", PLAIN, &format!("{COVER}follow FW-B\n")))
        .file(
            "d.cotter",
            procedure(
                "FW-D",
                "    requires:   FW-B\n    afterwards: FW-C \"pump filled\"\n    leaves:     none\n",
                COVER,
            ),
        )
}

const CATALOGUE: &str = "catalogue \"Shop\"\n\nparts\n    shaft \"Pump shaft\"\n\nfigures\n    drive-end \"Drive end\"  \
                         picture \"drive.svg\", alt \"The drive end\"\n";

fn picture(colour: &str) -> String {
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 9 9\"><rect width=\"9\" height=\"9\" fill=\"{colour}\"/></svg>"
    )
}

/// What calls a procedure, in every form that is read as a call.
const CALLS: [&str; 5] = [
    "follow FW-B",
    "follow the FW-B",
    "follow \"Fill the pump; then vent\" FW-B",
    "clean cover; follow FW-B, \n    \"Fill the pump\"",
    "follow \"a \\\"sign\\\"\" FW-B",
];

/// However a procedure is called, whoever calls it is looked at again when that one changes.
#[test]
fn every_form_of_a_call_counts() {
    for call in CALLS {
        let shop = shop();
        shop.write("c.cotter", procedure("FW-C", PLAIN, &format!("{COVER}{call}\n")));
        agree(&shop, call);
        swap(&shop, "b.cotter", "Title of FW-B", "Other of FW-B");
        agree(&shop, &format!("{call}, and another title"));
        swap(&shop, "b.cotter", "procedure FW-B", "procedure FW-X");
        agree(&shop, &format!("{call}, and another number"));
    }
    for (from, call) in [
        ("requires:   none", "requires:   FW-D \"the 6\\\" pipe is dry\"; FW-B \"cover clean\""),
        ("afterwards: none", "afterwards: FW-D “the \"pipe\" is dry”; FW-B \"cover clean\""),
    ] {
        let shop = shop();
        shop.write("c.cotter", procedure("FW-C", &PLAIN.replace(from, call), COVER));
        agree(&shop, call);
        swap(&shop, "b.cotter", "procedure FW-B", "procedure FW-X");
        agree(&shop, &format!("{call}, and another number"));
    }
}

/// The parser takes a tab for a blank.
#[test]
fn a_tab_behind_a_keyword_is_a_blank() {
    let shop = shop();
    shop.write("b.cotter", shop.read("b.cotter").replace("procedure FW-B", "procedure\tFW-B"));
    shop.write("a.cotter", shop.read("a.cotter").replace("use \"", "use\t\""));
    let run = shop.run(&["check"]);
    assert_eq!(run.code, 0, "{}{}", run.stdout, run.stderr);
    agree(&shop, "tabs");
    assert!(shop.path("out/FW-B/bench.html").exists());
}

/// A catalogue that is no source of the workspace keeps nothing of those that use it, and all of the others.
#[test]
fn a_catalogue_that_is_ignored_costs_its_users_alone() {
    let shop = shop();
    shop.write(".gitignore", "/vendor\n");
    shop.write("vendor/other.cotter", "catalogue \"Other\"\n\nparts\n    pin \"Pin\"\n");
    shop.write(
        "b.cotter",
        shop.read("b.cotter").replace("tools none", "use \"vendor/other.cotter\"\n\ntools none"),
    );
    agree(&shop, "an ignored catalogue");
    shop.write("vendor/other.cotter", "catalogue \"Other\"\n\nparts\n    cover \"Cover\"\n");
    agree(&shop, "a change of it");
    assert!(!store_paths(&shop).is_empty(), "of the others something is kept");
}

/// Runs it with a store, and without.
fn both(shop: &Workspace, arguments: &[&str]) -> (Run, Run) {
    let folder = shop.path("store");
    let with = shop.run_with(".", arguments, &[("COTTER_CACHE", folder.to_str().unwrap())]);
    (with, shop.run_with(".", arguments, &[("COTTER_CACHE", "")]))
}

/// That one run says and makes what the other does.
fn agree(shop: &Workspace, what: &str) {
    let (with, without) = both(shop, &["check"]);
    assert_eq!((&with.stdout, with.code), (&without.stdout, without.code), "check after {what}");
    // One of them first, whose list holds the others too.
    builds_agree(shop, &["c.cotter"], what);
    builds_agree(shop, &[], what);
}

fn builds_agree(shop: &Workspace, files: &[&str], what: &str) {
    let folder = shop.path("store");
    let build = |output| [&["build", "-o", output], files].concat();
    let with = shop.run_with(".", &build("out"), &[("COTTER_CACHE", folder.to_str().unwrap())]);
    let without = shop.run_with(".", &build("wit"), &[("COTTER_CACHE", "")]);
    let named = |run: &Run| (run.stdout.replace("in wit,", "in out,").replace("wit/", "out/"), run.code);
    assert_eq!(
        named(&with),
        named(&without),
        "build {files:?} after {what}\n{}{}",
        with.stderr,
        without.stderr
    );
    let (mine, theirs) = (shop.files("out"), shop.files("wit"));
    let names = |of: &[(String, Vec<u8>)]| of.iter().map(|it| it.0.clone()).collect::<Vec<_>>();
    assert_eq!(names(&mine), names(&theirs), "{files:?} after {what}");
    for ((name, mine), (_, theirs)) in mine.iter().zip(&theirs) {
        assert!(mine == theirs, "{name} is stale after {what}, {files:?}");
    }
}

/// Puts other words in the place of some, or the same back, and sets the time of the change back.
fn swap(shop: &Workspace, name: &str, from: &str, to: &str) {
    let path = shop.path(name);
    let Ok(meta) = std::fs::metadata(&path) else { return };
    let text = shop.read(name);
    let (from, to) = if text.contains(to) { (to, from) } else { (from, to) };
    shop.write(name, text.replace(from, to));
    let file = std::fs::File::options().write(true).open(&path).unwrap();
    file.set_modified(meta.modified().unwrap()).unwrap();
}

/// One thing that may happen between two runs, and its name.
type Event = (&'static str, fn(&Workspace));

const EVENTS: &[Event] = &[
    ("nothing", |_| {}),
    ("a title", |shop| swap(shop, "b.cotter", "Title of FW-B", "Other of FW-B")),
    ("a fault", |shop| swap(shop, "b.cotter", "clean cover", "clean cuver")),
    ("a warning", |shop| swap(shop, "a.cotter", "clean shaft", "clean shaft; dry shaft")),
    ("what is left", |shop| swap(shop, "b.cotter", "leaves:     none", "leaves: \"dead\"")),
    ("a number", |shop| swap(shop, "b.cotter", "procedure FW-B", "procedure FW-X")),
    ("the same number", |shop| swap(shop, "d.cotter", "procedure FW-D", "procedure FW-A")),
    ("a catalogue's part", |shop| swap(shop, "shop.cotter", "Pump shaft", "Pump-shaft")),
    ("a catalogue's fault", |shop| swap(shop, "shop.cotter", "alt \"The", "alt the \"")),
    ("a picture", |shop| swap(shop, "drive.svg", "black", "green")),
    ("a bad picture", |shop| swap(shop, "drive.svg", "<rect", "<rekt")),
    ("the house", |shop| swap(shop, "cotter.toml", "Fenmoor", "Fenmuur")),
    ("the settings", |shop| {
        let text = shop.read("cotter.toml");
        let level = "[rules]\nunknown-procedure = \"off\"\nundeclared-name = \"advice\"\n";
        shop.write("cotter.toml", if text.contains(level) { text.replace(level, "") } else { text + level });
    }),
    ("a file gone or back", |shop| {
        let (here, away) = (shop.path("b.cotter"), shop.path("b.away"));
        let (from, to) = if here.exists() { (here, away) } else { (away, here) };
        std::fs::rename(from, to).unwrap();
    }),
    ("a number that differs in case alone", |shop| {
        swap(shop, "a.cotter", "procedure FW-A", "procedure fw-b")
    }),
    ("two files changed round", |shop| {
        let (one, other) = (shop.read("c.cotter"), shop.read("d.cotter"));
        shop.write("c.cotter", other);
        shop.write("d.cotter", one);
    }),
    ("a sheet written over", |shop| {
        for folder in ["out", "wit"] {
            swap(shop, &format!("{folder}/FW-A/bench.html"), "FW-A", "FW-Z");
        }
    }),
    ("a sheet gone", |shop| {
        for folder in ["out", "wit"] {
            let _ = std::fs::remove_file(shop.path(&format!("{folder}/FW-C/kit.html")));
        }
    }),
    ("all of a procedure's sheets gone", |shop| {
        for folder in ["out", "wit"] {
            let _ = std::fs::remove_dir_all(shop.path(&format!("{folder}/FW-B")));
        }
    }),
    #[cfg(unix)]
    ("a sheet moved away and a link in its place", |shop| link(shop, "FW-A/bench.html")),
    #[cfg(unix)]
    ("a folder of sheets moved away and a link in its place", |shop| link(shop, "FW-C")),
    ("the list gone", |shop| {
        for folder in ["out", "wit"] {
            let _ = std::fs::remove_file(shop.path(&format!("{folder}/index.html")));
        }
    }),
    ("the store gone", |shop| {
        let _ = std::fs::remove_dir_all(shop.path("store"));
    }),
    ("the store cut short", |shop| stores(shop, |bytes| bytes.truncate(bytes.len() / 2))),
    ("a bit of the store turned", |shop| {
        stores(shop, |bytes| {
            let middle = bytes.len() / 2;
            bytes[middle] ^= 1;
        });
    }),
    ("the stores changed round", |shop| {
        let paths = store_paths(shop);
        if let [one, other] = paths.as_slice() {
            let (first, second) = (std::fs::read(one).unwrap(), std::fs::read(other).unwrap());
            std::fs::write(one, second).unwrap();
            std::fs::write(other, first).unwrap();
        }
    }),
    ("another program's store", |shop| {
        // Whole, but not of this program.
        stores(shop, |bytes| {
            use sha2::Digest;
            bytes[40] ^= 1;
            let digest = sha2::Sha256::digest(&bytes[32..]);
            bytes[..32].copy_from_slice(&digest);
        });
    }),
];

#[cfg(unix)]
fn link(shop: &Workspace, place: &str) {
    for folder in ["out", "wit"] {
        let here = shop.path(&format!("{folder}/{place}"));
        let away = shop.path(&format!("away-{folder}-{}", place.replace('/', "-")));
        if here.is_symlink() {
            std::fs::remove_file(&here).unwrap();
        }
        if here.exists() && !away.exists() {
            std::fs::rename(&here, &away).unwrap();
            std::os::unix::fs::symlink(&away, &here).unwrap();
        }
    }
}

fn store_paths(shop: &Workspace) -> Vec<std::path::PathBuf> {
    let mut paths: Vec<_> =
        std::fs::read_dir(shop.path("store")).into_iter().flatten().map(|it| it.unwrap().path()).collect();
    paths.sort();
    paths
}

fn stores(shop: &Workspace, change: fn(&mut Vec<u8>)) {
    for path in store_paths(shop) {
        let mut bytes = std::fs::read(&path).unwrap();
        change(&mut bytes);
        std::fs::write(path, bytes).unwrap();
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 12, failure_persistence: None, max_shrink_iters: 40, ..ProptestConfig::default() })]

    #[test]
    fn whatever_happens_between_runs_nothing_is_stale(events in proptest::collection::vec(0..EVENTS.len(), 1..9)) {
        let shop = shop();
        agree(&shop, "the start");
        let mut told = String::new();
        for event in events {
            let (name, happen) = EVENTS[event];
            happen(&shop);
            told += name;
            agree(&shop, &told);
            told += ", ";
        }
    }
}

#[test]
fn every_event_is_met_at_once() {
    let shop = shop();
    agree(&shop, "the start");
    for (name, happen) in EVENTS {
        happen(&shop);
        agree(&shop, name);
        happen(&shop);
        agree(&shop, &format!("{name}, undone"));
    }
}

/// Once its stamps are trusted a store is asked before any file is; a change must show all the same.
#[test]
fn a_change_that_sets_its_time_back_is_seen() {
    let shop = shop();
    agree(&shop, "the start");
    std::thread::sleep(Duration::from_millis(2_100));
    agree(&shop, "a while");
    for name in ["a fault", "a picture", "a catalogue's part", "a sheet written over"] {
        let (_, happen) = EVENTS.iter().find(|it| it.0 == name).unwrap();
        happen(&shop);
        agree(&shop, name);
    }
}

/// A run over a file that changes meanwhile keeps nothing of what it saw of two states.
#[test]
fn a_file_that_changes_meanwhile_leaves_nothing_behind() {
    let shop = shop();
    let folder = shop.path("store");
    let (clean, faulty) =
        (shop.read("b.cotter"), shop.read("b.cotter").replace("clean cover", "clean cuver"));
    for round in 0..16 {
        let done = AtomicBool::new(false);
        std::thread::scope(|scope| {
            scope.spawn(|| {
                while !done.load(Ordering::Relaxed) {
                    replace(&shop, "b.cotter", &faulty);
                    replace(&shop, "b.cotter", &clean);
                }
            });
            shop.run_with(".", &["check"], &[("COTTER_CACHE", folder.to_str().unwrap())]);
            done.store(true, Ordering::Relaxed);
        });
        // What was seen at its start may have been the one, and what was checked the other.
        replace(&shop, "b.cotter", &faulty);
        let (with, without) = both(&shop, &["check"]);
        assert_eq!((with.stdout, with.code), (without.stdout, without.code), "round {round}");
    }
}

/// Whole, as editors save.
fn replace(shop: &Workspace, name: &str, text: &str) {
    shop.write("replacement", text);
    std::fs::rename(shop.path("replacement"), shop.path(name)).unwrap();
}

#[test]
fn a_store_is_written_once_and_only_where_it_is_wanted() {
    let shop = shop();
    let folder = shop.path("store");
    let store = [("COTTER_CACHE", folder.to_str().unwrap())];
    shop.run_with(".", &["check", "--no-cache"], &store);
    assert!(!folder.exists(), "nothing is kept where nothing is wanted");
    shop.run_with(".", &["check"], &store);
    std::thread::sleep(Duration::from_millis(2_100));
    shop.run_with(".", &["check"], &store);
    let written = |shop: &Workspace| {
        let paths = store_paths(shop);
        paths.iter().map(|it| std::fs::metadata(it).unwrap().modified().unwrap()).collect::<Vec<_>>()
    };
    let before = written(&shop);
    assert_eq!(before.len(), 1);
    shop.run_with(".", &["check"], &store);
    assert_eq!(written(&shop), before, "it knew all of it already");
    // Where it cannot be written nothing else fails.
    shop.write("file", "");
    let blocked = shop.path("file");
    let run = shop.run_with(".", &["check"], &[("COTTER_CACHE", blocked.to_str().unwrap())]);
    assert_eq!((run.code, run.stderr.as_str()), (0, ""));
}

#[test]
fn stores_that_nobody_wrote_for_long_go_and_nothing_else_does() {
    let shop = shop();
    let folder = shop.path("store");
    let store = [("COTTER_CACHE", folder.to_str().unwrap())];
    let names = [
        ("0123456789abcdef-sources", 181, false),
        ("0123456789abcdef-sheets", 181, false),
        ("fedcba9876543210-sources", 179, true),
        ("0123456789abcdef-others", 400, true),
        ("notes-sources", 400, true),
    ];
    for (name, days, _) in names {
        shop.write(&format!("store/{name}"), "old");
        let file = std::fs::File::options().write(true).open(folder.join(name)).unwrap();
        file.set_modified(std::time::SystemTime::now() - Duration::from_secs(days * 24 * 3600)).unwrap();
    }
    shop.run_with(".", &["check"], &store);
    for (name, _, stays) in names {
        assert_eq!(folder.join(name).exists(), stays, "{name}");
    }
}
