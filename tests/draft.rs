//! Drafts of putting together: each demo procedure loses its own, gets a drafted one, and is held against what was
//! written by hand. The table of agreement is kept in `tests/draft/agreement.txt`.
use crate::support::shop::{Shop, name, package, sources};
use crate::support::workspace::Workspace;
use cotter::ledger;
use cotter::model::{Document, Name, Step};
use cotter::source::{FileId, SourceFile};
use std::fmt::Write;

/// Each procedure with the title of the section that its rebuild starts with; all from there to its end is cut.
const CUTS: &[(&str, &str)] = &[
    ("compressor-c2/fw-cmp-017", "Put together"),
    ("cylinder-h3/fw-hyd-005", "Fit the new seals"),
    ("generator-e5/fw-gen-008", "Put together"),
    ("mower-m6/fw-mow-009", "Belt on"),
    ("pump-f40/fw-pmp-014", "Put together"),
    ("pump-f40/fw-pmp-021", "Fit the new seal"),
    ("reducer-g12/fw-gbx-011", "Prove the end float"),
    ("trailer-t8/fw-trl-031", "Pack and set"),
];

/// What a person would write: the same words everywhere, and the lines that a message lacks.
fn filled(text: &str) -> String {
    let lines = text.lines().map(|line| {
        if line.trim_start().starts_with("# Say what can happen") {
            return "    hazard: It can hurt.\n    harm:   Injury.\n    avoid:  Keep clear.".to_owned();
        }
        if line.starts_with('#') {
            line.to_owned()
        } else {
            line.replace("\"…\"", "\"as the manual says\"")
        }
    });
    lines.map(|line| line + "\n").collect()
}

/// The parts that the steps from the byte `from` on put on, in order.
fn fitted(document: &Document, from: usize) -> Vec<String> {
    let after = |step: &&Step| step.span.start as usize >= from;
    let steps = document.procedure().unwrap().steps().filter(after);
    let works = steps.flat_map(|step| &step.actions).filter_map(|action| action.work());
    let parts = works.filter(|work| work.fits()).flat_map(|work| &work.objects).filter_map(|object| {
        let Some(Name::Part(id)) = object.name else { return None };
        Some(document.declarations.part(id)?.thing.name.as_str().to_owned())
    });
    let mut once = Vec::new();
    parts.for_each(|part| {
        if !once.contains(&part) {
            once.push(part)
        }
    });
    once
}

/// Of all pairs of parts that both put on, how many come in the same order.
fn pairs_in_order(hand: &[String], draft: &[String]) -> (usize, usize) {
    let both: Vec<&String> = hand.iter().filter(|part| draft.contains(part)).collect();
    let place = |part: &String| draft.iter().position(|it| it == part);
    let (mut same, mut all) = (0, 0);
    for (at, first) in both.iter().enumerate() {
        for second in &both[at + 1..] {
            all += 1;
            same += usize::from(place(first) < place(second));
        }
    }
    (same, all)
}

#[test]
fn drafts_compile_leave_nothing_open_and_agree_with_hand_written_ones() {
    let shop = Shop::demo();
    let root = package("");
    let files: Vec<_> = sources(&package("procedures"))
        .into_iter()
        .map(|path| (name(&root, &path), std::fs::read_to_string(path).unwrap()))
        .collect();
    let mut copy = Workspace::new().file("cotter.toml", std::fs::read(package("cotter.toml")).unwrap());
    for (name, text) in &files {
        copy = copy.file(name, text);
    }
    let mut table =
        String::from("procedure        by hand  drafted  both  pairs in order  left by the ledger\n");
    let mut faults = Vec::new();
    for (stem, title) in CUTS {
        let file = format!("procedures/{stem}.cotter");
        let text = &files.iter().find(|(name, _)| *name == file).unwrap().1;
        let at = text.find(&format!("\nsection \"{title}\"")).expect(title);
        copy.write(&file, &text[..=at]);
        let run = copy.run(&["draft-rebuild", "--write", &file]);
        assert_eq!(run.code, 0, "{file}: {}{}", run.stdout, run.stderr);
        let drafted = copy.read(&file);
        let place =
            drafted.find("section \"Put together\"\n\n# A draft").expect("the draft says that it is one");
        let whole = shop.compile(&SourceFile::new(FileId(0), &*file, text.as_str())).document;
        let now = filled(&drafted);
        let compiled = shop.compile(&SourceFile::new(FileId(0), &*file, now.as_str()));
        let unread = compiled.findings.iter().filter(|it| {
            ["unreadable-line", "undeclared-name", "unknown-verb", "missing-caution", "placeholder-left"]
                .contains(&it.rule)
        });
        faults.extend(unread.map(|it| format!("{file}: {} {}", it.rule, it.message)));
        let left = ledger::keep(&compiled.document, &shop.register).breaches;
        faults.extend(left.iter().map(|it| {
            let line = now[..it.at.start as usize].lines().count();
            format!("{file}:{line}: {:?} {}", it.kind, now.lines().nth(line.saturating_sub(1)).unwrap_or(""))
        }));
        let (hand, draft) = (fitted(&whole, at), fitted(&compiled.document, place));
        let both = hand.iter().filter(|part| draft.contains(part)).count();
        let (same, all) = pairs_in_order(&hand, &draft);
        let number = stem.split('/').next_back().unwrap();
        writeln!(
            table,
            "{number:16} {:7} {:8} {both:5} {:>15} {:10}",
            hand.len(),
            draft.len(),
            format!("{same} of {all}"),
            left.len()
        )
        .unwrap();
    }
    println!("{table}{}", faults.join("\n"));
    let kept = package("tests/draft/agreement.txt");
    if std::env::var_os("COTTER_BLESS").is_some() {
        std::fs::create_dir_all(kept.parent().unwrap()).unwrap();
        std::fs::write(&kept, &table).unwrap();
    }
    assert_eq!(std::fs::read_to_string(kept).unwrap_or_default(), table, "bless it");
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn what_stands_on_stands_goes_up_again_and_a_lockout_is_undone() {
    let header = |number: &str, afterwards: &str, leaves: &str| {
        format!(
            "procedure {number} \"A trial\"\n    revision:   A, 2026-11-02\n    equipment:  T8 trailer\n    models:     \
             T8\n    source:     manual \"T8 manual\"\n    time:       30 min\n    people:     1\n    outcome:    The \
             hub is off.\n    requires:   none\n    afterwards: {afterwards}\n    leaves:     {leaves}\n\n"
        )
    };
    let take_down = "tools\n    jack   \"Trolley jack\"  capacity 2000 kg\n    stands \"Axle stand\" x2  temporary\n\n\
                     supplies none\n\nparts\n    trailer \"Trailer\"  mass 900 kg\n    wheel   \"Wheel\"\n\nsection \
                     \"Take down\"\n\nfollow FW-TST-002\nraise trailer with jack\nput stands under \"the axle\"\nlower \
                     trailer onto stands with jack\nremove wheel from trailer\n";
    let shop = Workspace::new()
        .file("a.cotter", header("FW-TST-001", "none", "none") + take_down)
        .file("b.cotter", header("FW-TST-002", "FW-TST-003", "\"machine locked out\""))
        .file("c.cotter", header("FW-TST-003", "none", "\"machine back in service\""));
    let run = shop.run(&["draft-rebuild", "a.cotter"]);
    let wanted = [
        "install wheel on trailer",
        "raise trailer with jack; remove stands from \"the axle\"",
        "lower trailer with jack",
        "follow FW-TST-003",
        "test wheel \"…\" as put-together",
    ];
    let verbs = ["install", "raise", "lower", "follow", "test"];
    let steps: Vec<&str> =
        run.stdout.lines().filter(|line| verbs.iter().any(|verb| line.starts_with(verb))).collect();
    assert_eq!(steps, wanted, "{}{}", run.stdout, run.stderr);
}

#[test]
fn a_line_is_connected_at_both_ends_and_caps_come_out() {
    let text = "procedure FW-TST-001 \"A trial\"\n    revision:   A, 2026-11-02\n    equipment:  F40 pump\n    models:     \
                F40\n    source:     manual \"F40 manual\"\n    time:       30 min\n    people:     1\n    outcome:    The \
                hose is off.\n    requires:   none\n    afterwards: none\n    leaves:     none\n\nparts\n    pump \
                \"Pump\"\n    valve \"Valve\"\n    hose \"Supply hose\"\n    lead \"Sensor lead\"\n\ntools\n    caps \"Cap\" \
                x2  temporary\n\nsupplies none\n\nsection \"Take down\"\n\ndisconnect hose from pump, valve; discard \
                hose\nplug pump with 2 of caps\ndisconnect lead from \"the box\"\n";
    let shop = Workspace::new().file("a.cotter", text);
    let run = shop.run(&["draft-rebuild", "a.cotter"]);
    let verbs = ["connect", "remove"];
    let steps: Vec<&str> =
        run.stdout.lines().filter(|line| verbs.iter().any(|verb| line.starts_with(verb))).collect();
    let wanted =
        ["connect lead to \"the box\"", "remove 2 of caps from pump", "connect new hose to pump, valve"];
    assert_eq!(steps, wanted, "{}{}", run.stdout, run.stderr);
}
