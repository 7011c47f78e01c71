//! `cotter explain`.
use crate::support::workspace::Workspace;
use cotter::checks::RULES;

#[test]
fn the_list_has_every_rule() {
    let run = Workspace::new().run(&["explain"]);
    assert_eq!(run.code, 0);
    let listed: Vec<_> = run.stdout.lines().filter_map(|line| line.split_whitespace().next()).collect();
    let ids: Vec<_> = RULES.iter().map(|rule| rule.id).collect();
    assert_eq!(listed, ids);
}

#[test]
fn every_rule_can_be_explained() {
    let workspace = Workspace::new();
    for rule in RULES {
        let run = workspace.run(&["explain", rule.id]);
        assert_eq!(run.code, 0, "{}", rule.id);
        let words = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        let page = words(&run.stdout);
        for part in [rule.summary, rule.explain.trim(), "Refused:", "Accepted:"] {
            assert!(page.contains(&words(part)), "{}: {part}", rule.id);
        }
        let prose = run.stdout.split("Refused:").next().unwrap();
        let long: Vec<&str> = prose.lines().filter(|line| line.chars().count() > 88).collect();
        assert!(long.is_empty(), "{}: {long:?}", rule.id);
        assert!(
            rule.bad.lines().all(|line| line.is_empty() || run.stdout.contains(&format!("\n    {line}\n")))
        );
        let may_be_set_aside = run.stdout.contains("set it aside for one statement");
        assert_eq!(may_be_set_aside, rule.waivable, "{}", rule.id);
    }
}

#[test]
fn a_slip_in_the_name_is_answered_with_the_nearest() {
    let run = Workspace::new().run(&["explain", "undeclared-nam"]);
    assert_eq!(run.code, 2);
    assert!(run.stderr.contains("did you mean `undeclared-name`?"), "{}", run.stderr);
    assert!(Workspace::new().run(&["explain", "xyzzy"]).stderr.contains("lists the rules"));
}
