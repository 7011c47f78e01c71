//! Reading: the same words give the same tree whatever the line ends, and every broken line costs one finding.
use cotter::source::{FileId, SourceFile};
use cotter::syntax::{Parsed, ast, parse};

fn read(text: &str) -> (SourceFile, Parsed) {
    let source = SourceFile::new(FileId(0), "test.cotter", text);
    let parsed = parse(&source);
    (source, parsed)
}

/// The tree without its places: what was understood.
fn meaning(text: &str) -> String {
    let (_, parsed) = read(text);
    assert_eq!(parsed.findings, [], "{text}");
    let mut rest = format!("{:?}", parsed.tree);
    let mut plain = String::new();
    for (open, close) in [("Span {", '}'), ("lines: [", ']')] {
        while let Some(at) = rest.find(open) {
            let end = rest[at..].find(close).map_or(rest.len(), |end| at + end + 1);
            plain.push_str(&rest[..at]);
            rest = rest[end..].to_owned();
        }
        plain.push_str(&rest);
        rest = std::mem::take(&mut plain);
    }
    rest
}

const SAMPLE: &str = "\
procedure FW-PMP-014 \"Renew the bearing\"
    revision: C, 2026-11-02
    models: F40, F40S

# a comment
parts
    screws \"Cover screw, M6 x 20\" x4  thread M6, class 8.8,   # the usual ones
        torque 8 to 10 N.m crosswise
    cover  \"Bearing cover\"  models F40, F40S, single-use

warning ejection for next 3 steps
    hazard: The ring is under tension
        and can leave its groove.
remove screws, cover;
    discard cover
    Loosen the screws crosswise, half a turn each,
    before taking any of them out: it bends.

    - first
        - nested
    if cracked, worn: renew cover; stop \"Ask.\"
";

#[test]
fn line_ends_tabs_and_blanks_do_not_matter() {
    let plain = meaning(SAMPLE);
    let variants = [
        ("CRLF", SAMPLE.replace('\n', "\r\n")),
        ("a byte order mark", format!("\u{feff}{SAMPLE}")),
        ("tabs", SAMPLE.replace("    ", "\t")),
        ("trailing blanks", SAMPLE.replace('\n', "  \t\n")),
        ("no final newline", SAMPLE.trim_end().to_owned()),
        ("blank lines between declarations", SAMPLE.replace("    cover", "\n\n    cover")),
    ];
    for (name, text) in variants {
        assert_eq!(meaning(&text), plain, "{name}");
    }
}

#[test]
fn what_belongs_together_is_read_together() {
    let (_, parsed) = read(SAMPLE);
    let step = parsed.tree.statements.iter().find_map(|s| match &s.head {
        ast::Head::Step(actions) => Some((s, actions)),
        _ => None,
    });
    let (step, actions) = step.expect("the sample has a step");
    assert_eq!(actions.iter().map(|a| a.verb.as_str()).collect::<Vec<_>>(), ["remove", "discard"]);
    let [outcome] = step.details.as_slice() else { panic!("one detail, found {:?}", step.details) };
    assert_eq!(outcome.arguments.iter().map(|a| a.as_str()).collect::<Vec<_>>(), ["cracked", "worn"]);
    let prose = step.prose.as_ref().expect("the step has prose");
    assert!(prose.source.contains("out: it bends.\n\n- first\n    - nested"), "{}", &*prose.source);
}

/// Words keep their place: the text at a span is the word that was read.
#[test]
fn places_lead_back_to_the_words() {
    let (source, parsed) = read(&SAMPLE.replace('\n', "\r\n"));
    let mut seen = 0;
    for statement in &parsed.tree.statements {
        assert!(source.slice(statement.extent).starts_with(source.slice(statement.span).trim_end()));
        for detail in &statement.details {
            assert_eq!(source.slice(detail.key.span), detail.key.value);
            seen += 1;
        }
        match &statement.head {
            ast::Head::Block { declarations, .. } => {
                for declaration in declarations {
                    assert_eq!(source.slice(declaration.name.span), declaration.name.value);
                    for attribute in &declaration.attributes {
                        assert_eq!(source.slice(attribute.key.span), attribute.key.value);
                        seen += 1;
                    }
                }
            }
            ast::Head::Step(actions) => {
                for action in actions {
                    assert_eq!(source.slice(action.verb.span), action.verb.value);
                    seen += 1;
                }
            }
            _ => {}
        }
    }
    assert!(seen > 8, "only {seen} words were looked at");
}

#[test]
fn each_broken_line_is_one_finding_and_the_rest_is_read() {
    let broken = [
        "remove 3 of screws from \"the big hole",
        "Loosen the screws.",
        "tighten screws to to 8 N.m",
        "section Put together",
        "warning ejection for next steps",
        "measure shaft 30 to to 40 mm ==",
        "calculate shim = depth -",
        "calculate shim = depth 5 mm",
        "calculate shim = depth = height",
        "calculate shim \"thickness\" = depth",
        "calculate new shim = depth",
        "parts nothing",
        "remove screws,, cover",
        "???",
    ];
    for line in broken {
        let text = format!("{SAMPLE}{line}\nremove cover\n");
        let (source, parsed) = read(&text);
        assert_eq!(parsed.findings.len(), 1, "{line}: {:#?}", parsed.findings);
        let (number, _) = source.line_column(parsed.findings[0].span.start);
        assert_eq!(&source.text[source.line_range(number)], line);
        let last = parsed.tree.statements.last().map(|s| source.slice(s.span).to_owned());
        assert_eq!(last.as_deref(), Some("remove cover"), "{line}");
    }
    for count in [2, 17, 400] {
        let text = format!("{SAMPLE}{}", "remove \"unclosed\n    if x\nremove cover\n".repeat(count));
        assert_eq!(read(&text).1.findings.len(), count);
    }
}

/// Hostile input ends, says one thing a line, and never takes the stack. (How long it takes is the benchmark's.)
#[test]
fn hostile_lines_are_refused_in_peace() {
    let deep = format!("calculate x = {}1 mm{}", "(".repeat(2_000), ")".repeat(2_000));
    let lines = [
        "\"".repeat(100_000),
        ",".repeat(100_000),
        "remove ".to_owned() + &"a, ".repeat(40_000),
        "x".repeat(1_000_000),
        format!("{}remove screws", " ".repeat(100_000)),
        deep,
        "remove ".to_owned() + &"\"a\" ".repeat(1_500),
        "tighten x ".to_owned() + &"1 to ".repeat(1_500),
        "\u{1F527}".repeat(2_000),
        "\0\0\0".to_owned(),
    ];
    for line in lines {
        let (_, parsed) = read(&format!("{line}\n"));
        assert!(parsed.findings.len() <= 1, "{} findings for {:.40}", parsed.findings.len(), line);
    }
}

#[test]
fn a_name_may_start_like_a_pattern_or_a_bound() {
    for line in ["remove nut from centre-bolt\n", "remove nut from center-bolt\n", "hold nut at least-worn\n"]
    {
        let (_, parsed) = read(line);
        assert_eq!(parsed.findings, [], "{line}");
        let Some(ast::Head::Step(actions)) = parsed.tree.statements.first().map(|s| &s.head) else {
            panic!("{line} is no step")
        };
        let place = |phrase: &ast::Phrase| matches!(phrase.kind, ast::PhraseKind::Place { .. });
        assert!(actions[0].phrases.iter().any(place), "{line}: {actions:#?}");
    }
}

#[test]
fn a_bound_is_a_limit_and_no_place() {
    for line in
        ["measure shaft \"run-out\" at most 0.05 mm\n", "measure shaft \"length\" at least 20 mm as length\n"]
    {
        let (_, parsed) = read(line);
        assert_eq!(parsed.findings, []);
        let Some(ast::Head::Step(actions)) = parsed.tree.statements.first().map(|s| &s.head) else {
            panic!("{line}")
        };
        let phrases = &actions[0].phrases;
        assert!(phrases.iter().any(|p| matches!(p.kind, ast::PhraseKind::Quantity(_))), "{phrases:?}");
        assert!(!phrases.iter().any(|p| matches!(p.kind, ast::PhraseKind::Place { .. })), "{phrases:?}");
    }
}
