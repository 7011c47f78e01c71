//! Pictures are larger than the house allows.
use super::{Rule, Subject};
use crate::model::declarations::Illustration;
use crate::model::picture::Fault;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "picture-too-large",
    severity: Severity::Error,
    waivable: true,
    summary: "A picture, or all of a procedure together, is larger than the house allows",
    explain: "\
A sheet is one file, with its pictures in it. One that is too heavy opens slowly on a tablet with a weak signal, and
the reader works from memory meanwhile.

The limits are those of `[pictures]` in `cotter.toml`: 500 kB for one picture (`each`) and 2000 kB for one procedure
(`page`) where it says nothing. Scale a photograph down to about 1600 pixels, or draw what matters.
",
    bad: r#"parts
    cover  "Bearing cover"  callout 1 on fig-1
    gasket "Cover gasket"   callout 2 on fig-1

figures
    fig-1 "Drive end"  picture "figures/poster.png", alt "The cover sits on the gasket"

remove cover, gasket from "the housing"
    figure: fig-1
clean cover, gasket
install gasket, cover on "the housing"
"#,
    good: r#"parts
    cover  "Bearing cover"  callout 1 on fig-1
    gasket "Cover gasket"   callout 2 on fig-1

figures
    fig-1 "Drive end"  picture "figures/drive-end.svg", alt "The cover sits on the gasket"

remove cover, gasket from "the housing"
    figure: fig-1
clean cover, gasket
install gasket, cover on "the housing"
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let sizes = subject.settings.pictures;
    let mut all = 0;
    for (_, illustration) in subject.illustrations() {
        match &illustration.picture {
            Err(Fault::TooLarge { bytes }) => {
                let allowed = sizes.each;
                findings.push(finding(
                    illustration,
                    format!("has {} kB, and the house allows {allowed}", kilo(*bytes)),
                ));
            }
            Ok(picture) => {
                let before = all;
                all += picture.bytes.len() as u64;
                let most = u64::from(sizes.page) * 1000;
                // One mistake: told of the picture that goes over.
                if before <= most && all > most {
                    let (sum, most) = (kilo(all), sizes.page);
                    let words = format!(
                        "brings the pictures to {sum} kB, and the house allows {most} in a procedure"
                    );
                    findings.push(finding(illustration, words));
                }
            }
            Err(_) => {}
        }
    }
}

/// Rounded up, so that what is over a limit reads so.
fn kilo(bytes: u64) -> u64 {
    bytes.div_ceil(1000)
}

fn finding(illustration: &Illustration, what: String) -> Finding {
    let path = &illustration.path;
    Finding::new(RULE.id, path.span, format!("`{}` {what}", path.value))
        .help("Scale it down to about 1600 pixels, or draw what matters as SVG")
}
