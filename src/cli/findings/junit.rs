//! A JUnit report: a suite for each file, a failed case for each finding that counts as an error, a passed one else.
use super::{Answer, Told, one_line};
use quick_junit::{NonSuccessKind, Report, TestCase, TestCaseStatus, TestSuite};
use std::collections::HashMap;

/// The report. It holds no times: the same findings give the same bytes.
pub fn answer(answer: &Answer<'_>) -> String {
    let mut report = Report::new("cotter");
    let mut by_file: HashMap<&str, Vec<&Told>> = HashMap::new();
    for told in answer.findings {
        by_file.entry(told.place.file.as_str()).or_default().push(told);
    }
    for file in answer.files {
        let mut suite = TestSuite::new(file.as_str());
        let mine = by_file.get(file.as_str()).into_iter().flatten();
        suite.add_test_cases(mine.map(|told| case(told, answer)));
        if suite.test_cases.is_empty() {
            suite.add_test_case(named("no findings", file, TestCaseStatus::success()));
        }
        report.add_test_suite(suite);
    }
    report.add_test_suites(answer.troubles.iter().map(|trouble| {
        let mut status = TestCaseStatus::non_success(NonSuccessKind::Error);
        status.set_message(trouble.message.as_str()).set_type("file");
        let mut suite = TestSuite::new(trouble.file.as_str());
        suite.add_test_case(named("can be read", &trouble.file, status));
        suite
    }));
    report.to_string().map(|text| text + "\n").unwrap_or_default()
}

fn named(name: &str, file: &str, status: TestCaseStatus) -> TestCase {
    let mut case = TestCase::new(name, status);
    case.set_classname(file);
    case
}

fn case(told: &Told, answer: &Answer<'_>) -> TestCase {
    let place = &told.place;
    let name = format!("{}:{} {}", place.line, place.column, told.rule);
    let message = one_line(&told.message);
    let help = told.help.as_deref().unwrap_or("");
    let words = format!(
        "{}:{}:{}: {}: {message}\n{help}",
        place.file,
        place.line,
        place.column,
        told.severity.name()
    );
    if told.severity < answer.threshold {
        let mut case = named(&name, &place.file, TestCaseStatus::success());
        case.set_system_out(words);
        return case;
    }
    let mut status = TestCaseStatus::non_success(NonSuccessKind::Failure);
    status.set_message(message).set_type(told.rule).set_description(words);
    named(&name, &place.file, status)
}
