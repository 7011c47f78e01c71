//! `cotter check` for programs: SARIF, JUnit, workflow commands, lines; known findings; only what changed.
use super::{clean, faulty};
use crate::support::shop;
use crate::support::workspace::Workspace;
use serde_json::Value;

/// Names that need escapes, and a finding with a safe mend.
fn workspace() -> Workspace {
    let old = "remove gasket; discard gasket";
    let reused = cotter::checks::find("reused-single-use").unwrap();
    assert!(reused.bad.contains("install"), "{old}");
    Workspace::new()
        .file("a, 100 %.cotter", faulty("FW-TST-001"))
        .file("b.cotter", clean("FW-TST-002"))
        .file("c.cotter", cotter::checks::example(reused.bad).replace("EX-001", "FW-TST-003"))
}

fn json(text: &str) -> Value {
    serde_json::from_str(text).unwrap()
}

/// The schema of the standard; `tests/schemas/README.md` says which copy.
fn sarif_schema() -> jsonschema::Validator {
    let text = std::fs::read_to_string(shop::package("tests/schemas/sarif-2.1.0.json")).unwrap();
    jsonschema::validator_for(&json(&text)).unwrap()
}

#[test]
fn sarif_follows_its_schema() {
    let workspace = workspace();
    let schema = sarif_schema();
    let run = workspace.run(&["check", ".", "gone.cotter", "--format", "sarif"]);
    assert_eq!(run.code, 2);
    let log = json(&run.stdout);
    let errors: Vec<String> =
        schema.iter_errors(&log).map(|error| format!("{}: {error}", error.instance_path())).collect();
    assert!(errors.is_empty(), "{errors:#?}");
    // The schema can refuse.
    let mut broken = log.clone();
    broken["runs"][0]["results"][0]["level"] = "grave".into();
    assert!(!schema.is_valid(&broken));
    let run = &log["runs"][0];
    assert_eq!(run["invocations"][0]["executionSuccessful"], false);
    let results = run["results"].as_array().unwrap();
    assert_eq!(results.len(), 2);
    let first = &results[0];
    assert_eq!(first["ruleId"], "undeclared-name");
    let rule =
        &run["tool"]["driver"]["rules"][usize::try_from(first["ruleIndex"].as_u64().unwrap()).unwrap()];
    assert_eq!(rule["id"], "undeclared-name");
    let place = &first["locations"][0]["physicalLocation"];
    assert_eq!(place["artifactLocation"]["uri"], "a%2C%20100%20%25.cotter");
    assert_eq!(place["region"]["startLine"], 19);
    let mend = &results[1]["fixes"][0]["artifactChanges"][0];
    assert_eq!(mend["artifactLocation"]["uri"], "c.cotter");
    assert_eq!(mend["replacements"][0]["insertedContent"]["text"], "new ");
}

#[test]
fn a_junit_report_has_a_suite_for_each_file() {
    let run = workspace().run(&["check", "--format", "junit"]);
    assert_eq!(run.code, 1);
    let report = roxmltree::Document::parse(&run.stdout).unwrap();
    let root = report.root_element();
    assert_eq!(
        (root.tag_name().name(), root.attribute("tests"), root.attribute("failures")),
        ("testsuites", Some("3"), Some("2"))
    );
    let suites: Vec<_> = root.children().filter(|node| node.has_tag_name("testsuite")).collect();
    let names: Vec<_> = suites.iter().map(|suite| suite.attribute("name").unwrap()).collect();
    assert_eq!(names, ["a, 100 %.cotter", "b.cotter", "c.cotter"]);
    let failure = suites[0].descendants().find(|node| node.has_tag_name("failure")).unwrap();
    assert_eq!(failure.attribute("type"), Some("undeclared-name"));
    assert_eq!(suites[1].attribute("failures"), Some("0"));
}

#[test]
fn workflow_commands_are_escaped() {
    let run = workspace().run(&["check", "--format", "github"]);
    let lines: Vec<&str> = run.stdout.lines().collect();
    assert_eq!(lines.len(), 2, "{}", run.stdout);
    assert!(
        lines[0].starts_with(
            "::error file=a%2C 100 %25.cotter,line=19,col=13,endColumn=20,title=undeclared-name::"
        ),
        "{}",
        lines[0]
    );
    assert!(lines[1].contains("%0A"), "the help stands on a line of its own: {}", lines[1]);
}

#[test]
fn lines_hold_one_finding_each() {
    let run = workspace().run(&["check", "--format", "lines"]);
    assert_eq!(run.stdout.lines().count(), 2);
    assert!(
        run.stdout.lines().all(|line| line.contains(".cotter:") && line.contains(": error[")),
        "{}",
        run.stdout
    );
    let run = Workspace::new().file("a.cotter", clean("FW-TST-001")).run(&["check", "--format", "lines"]);
    assert_eq!((run.code, run.stdout.as_str()), (0, ""));
}

fn fingerprints(workspace: &Workspace) -> Vec<String> {
    let answer = json(&workspace.run(&["check", "--format", "json"]).stdout);
    let findings = answer["findings"].as_array().unwrap();
    findings.iter().map(|it| it["fingerprint"].as_str().unwrap().to_owned()).collect()
}

#[test]
fn a_fingerprint_stays_when_lines_move_and_layout_changes() {
    let workspace = Workspace::new().file("cotter.toml", "").file("a.cotter", faulty("FW-TST-001"));
    let before = fingerprints(&workspace);
    assert_eq!(before[0].len(), 32);
    let text = faulty("FW-TST-001");
    workspace.write(
        "a.cotter",
        format!("# A remark.\n\n{}", text.replace("install new gaskett", "install  new   gaskett")),
    );
    assert_eq!(fingerprints(&workspace), before);
    // The same fault a second time is another finding.
    let line = text.lines().find(|line| line.contains("gaskett")).unwrap();
    workspace.write("a.cotter", format!("{text}{line}\n"));
    let both = fingerprints(&workspace);
    assert!(both.contains(&before[0]));
    assert!(both.iter().enumerate().all(|(at, one)| !both[..at].contains(one)), "{both:?}");
    // Another file is another finding.
    workspace.write("a.cotter", clean("FW-TST-001"));
    workspace.write("b.cotter", text);
    assert_ne!(fingerprints(&workspace), before);
}

#[test]
fn known_findings_do_not_fail_and_new_ones_do() {
    let workspace = workspace();
    let missing = workspace.run(&["check", "--baseline", "known.json"]);
    assert_eq!(missing.code, 2);
    assert!(missing.stderr.contains("`--update-baseline` writes it anew"), "{}", missing.stderr);
    let run = workspace.run(&["check", "--baseline", "known.json", "--update-baseline"]);
    assert_eq!(run.code, 0, "{}{}", run.stdout, run.stderr);
    assert!(run.stdout.ends_with("known findings written: 2 (2 new, 0 mended)\n"), "{}", run.stdout);
    let kept = workspace.read("known.json");
    let run = workspace.run(&["check", "--baseline", "known.json"]);
    assert_eq!(
        (run.code, run.stdout.as_str()),
        (0, "3 files: nothing to mend\n2 findings known and set aside\n")
    );
    // One is mended, another comes.
    workspace.write("a, 100 %.cotter", clean("FW-TST-001"));
    workspace.write("b.cotter", faulty("FW-TST-002"));
    let run = workspace.run(&["check", "--baseline", "known.json"]);
    assert_eq!(run.code, 1);
    assert!(run.stdout.contains("b.cotter:19:13: error"), "{}", run.stdout);
    assert!(
        run.stdout.ends_with("3 files: 1 error\n1 finding known and set aside\n1 finding known but mended; `--update-baseline` takes note\n"),
        "{}",
        run.stdout
    );
    assert_eq!(workspace.read("known.json"), kept, "nothing is written unasked");
    // A look at one file leaves what is known of the others.
    workspace.run(&["check", "b.cotter", "--baseline", "known.json", "--update-baseline"]);
    let known = json(&workspace.read("known.json"));
    assert_eq!(known["findings"].as_array().unwrap().len(), 3);
    let run = workspace.run(&["check", "--baseline", "known.json", "--update-baseline"]);
    assert!(run.stdout.ends_with("known findings written: 2 (0 new, 1 mended)\n"), "{}", run.stdout);
    for format in ["json", "sarif"] {
        let run = workspace.run(&["check", "--baseline", "known.json", "--format", format]);
        assert_eq!(run.code, 0, "{format}");
        assert!(!run.stdout.contains("gaskett"), "{format}: known ones are left out");
    }
    workspace.write("known.json", "{\"version\": 2, \"findings\": []}");
    assert_eq!(workspace.run(&["check", "--baseline", "known.json"]).code, 2);
    workspace.write("known.json", "[]");
    assert!(
        workspace.run(&["check", "--baseline", "known.json"]).stderr.contains("is no list of known findings")
    );
    assert_eq!(workspace.run(&["check", "--update-baseline"]).code, 2);
}

/// `a` uses the catalogue, `b` follows `a`, `c` requires `b`, `d` stands alone.
fn chain() -> Workspace {
    let text = |number: &str, more: &str| clean(number) + more;
    Workspace::new()
        .file("cotter.toml", "")
        .file("shop/common.cotter", "catalogue \"Common\"\n\ntools\n    rag \"Rag\"\n")
        .file(
            "shop/a.cotter",
            text("FW-TST-001", "").replacen("\nparts", "\nuse \"common.cotter\"\n\nparts", 1),
        )
        .file("shop/b.cotter", text("FW-TST-002", "follow FW-TST-001\n"))
        .file("shop/c.cotter", text("FW-TST-003", "").replace("requires:   none", "requires:   FW-TST-002"))
        .file("shop/d.cotter", text("FW-TST-004", ""))
}

#[test]
fn only_what_changed_and_what_depends_on_it_is_checked() {
    let workspace = chain();
    assert!(workspace.read("shop/a.cotter").contains("use \"common.cotter\""));
    assert!(workspace.read("shop/c.cotter").contains("requires:   FW-TST-002"));
    workspace.commit("First");
    let looked_at = |since: &str| {
        let run = workspace.run(&["check", "--since", since, "--format", "junit"]);
        let report =
            roxmltree::Document::parse(&run.stdout).unwrap_or_else(|error| panic!("{error}: {}", run.stderr));
        let suites = report.descendants().filter(|node| node.has_tag_name("testsuite"));
        suites.map(|it| it.attribute("name").unwrap().replace("shop/", "")).collect::<Vec<_>>()
    };
    assert_eq!(looked_at("HEAD"), Vec::<String>::new());
    let run = workspace.run(&["check", "--since", "HEAD"]);
    assert_eq!((run.code, run.stdout.as_str()), (0, "nothing changed since HEAD\n"));
    workspace.write("shop/d.cotter", workspace.read("shop/d.cotter") + "# Remark.\n");
    assert_eq!(looked_at("HEAD"), ["d.cotter"]);
    // One that git does not know yet.
    workspace.write("shop/e.cotter", clean("FW-TST-005"));
    assert_eq!(looked_at("HEAD"), ["d.cotter", "e.cotter"]);
    workspace.write("shop/common.cotter", "catalogue \"Common\"\n\ntools\n    rag \"Cloth\"\n");
    assert_eq!(
        looked_at("HEAD"),
        ["a.cotter", "b.cotter", "c.cotter", "common.cotter", "d.cotter", "e.cotter"]
    );
    workspace.commit("Second");
    assert_eq!(looked_at("HEAD"), Vec::<String>::new());
    workspace.write("cotter.toml", "house = \"Fenmoor\"\n");
    assert_eq!(looked_at("HEAD").len(), 6, "settings hold for every file");
    workspace.commit("Third");
    let followed = workspace.read("shop/b.cotter");
    // Whoever follows it under its old number follows nothing now.
    workspace.write("shop/b.cotter", followed.replace("FW-TST-002", "FW-TST-022"));
    assert_eq!(looked_at("HEAD"), ["b.cotter", "c.cotter"]);
    std::fs::remove_file(workspace.path("shop/b.cotter")).unwrap();
    assert_eq!(looked_at("HEAD"), ["c.cotter"]);
    let run = workspace.run(&["check", "--since", "nowhere"]);
    assert_eq!(run.code, 2);
    assert!(run.stderr.contains("no such revision"), "{}", run.stderr);
}

/// The hook and the steps of a build server that the README shows do what it says.
#[test]
fn the_hook_of_the_readme_holds_back_a_faulty_commit() {
    let readme = std::fs::read_to_string(shop::package("README.md")).unwrap();
    let block = |name: &str| {
        let start = readme.find(name).unwrap_or_else(|| panic!("the README has no {name}"));
        let rest = readme[start..].split("```sh\n").nth(1).unwrap();
        rest.split("```").next().unwrap().to_owned()
    };
    let folder = std::path::Path::new(env!("CARGO_BIN_EXE_cotter")).parent().unwrap().to_owned();
    let path = format!("{}:{}", folder.display(), std::env::var("PATH").unwrap());
    let shell = |workspace: &Workspace, script: &str| {
        let mut command = std::process::Command::new("sh");
        command.args(["-euc", script]).current_dir(workspace.path(".")).env("PATH", &path);
        command.output().unwrap()
    };
    let workspace = chain();
    workspace.commit("First");
    let hook = block("pre-commit hook");
    workspace.write("shop/d.cotter", faulty("FW-TST-004"));
    let held = shell(&workspace, &hook);
    assert_eq!(held.status.code(), Some(1), "{}", String::from_utf8_lossy(&held.stderr));
    assert!(String::from_utf8_lossy(&held.stdout).contains("shop/d.cotter:19:13: error"));
    workspace.write("shop/d.cotter", clean("FW-TST-004"));
    assert_eq!(shell(&workspace, &hook).status.code(), Some(0));
    // The build server's steps, run as they stand.
    let steps = block("steps for a build server");
    let run = shell(&workspace, &steps);
    assert_eq!(run.status.code(), Some(0), "{}", String::from_utf8_lossy(&run.stderr));
    assert!(
        workspace.read("cotter.sarif").contains("\"2.1.0\"") && workspace.path("sheets/index.html").is_file()
    );
    workspace.write("shop/d.cotter", faulty("FW-TST-004"));
    assert_eq!(shell(&workspace, &steps).status.code(), Some(1));
}
