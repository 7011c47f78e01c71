//! How the work grows with the number of files, of steps and of models, in instructions of the program itself.
//!
//! `cargo bench --bench growth` prints the points and the exponent fitted to them (1: twice as much takes twice as
//! long); over a limit it fails. `cargo bench --bench growth -- draw` also writes the plots of the handbook,
//! `grammar/growth/`. It needs valgrind.
#![allow(
    clippy::print_stdout,
    clippy::disallowed_methods,
    clippy::disallowed_types,
    clippy::indexing_slicing,
    clippy::expect_used
)]
#[allow(dead_code)]
mod corpus;
#[allow(dead_code)]
mod large;
mod valgrind;

use std::fmt::Write;
use std::path::Path;
use std::process::ExitCode;

const PROGRAM: &str = env!("CARGO_BIN_EXE_cotter");
const LIMIT: f64 = 1.05;

/// One curve: what grows, how its name begins a file's, the points, and a workspace for each.
struct Curve {
    what: &'static str,
    stem: &'static str,
    sizes: &'static [usize],
    fill: fn(&Path, usize),
}

const CURVES: [Curve; 3] = [
    Curve {
        what: "files",
        stem: "files",
        sizes: &[30, 100, 300, 1_000, 3_000],
        fill: |folder, files| {
            for number in 0..files {
                write(&folder.join(format!("p{number:05}.cotter")), &corpus::procedure(number));
            }
        },
    },
    Curve {
        what: "steps of one file",
        stem: "steps",
        sizes: &[500, 1_500, 5_000, 15_000, 50_000],
        fill: |folder, steps| write(&folder.join("p.cotter"), &corpus::rounds(1, steps / 12)),
    },
    Curve {
        what: "models of one file of 3,000 steps",
        stem: "models",
        sizes: &[2, 4, 8, 16, 32],
        fill: |folder, models| write(&folder.join("p.cotter"), &large::for_models(models, 3_000)),
    },
];

fn main() -> ExitCode {
    let draws = std::env::args().any(|word| word == "draw");
    let mut over = false;
    for curve in &CURVES {
        let points: Vec<(f64, f64)> =
            curve.sizes.iter().map(|&size| (size as f64, point(curve, size))).collect();
        let exponent = slope(&points);
        over |= exponent > LIMIT;
        let bad = if exponent > LIMIT { "  over" } else { "" };
        println!("{:<40}{exponent:>7.3}  ≤ {LIMIT}{bad}", curve.what);
        for (size, work) in &points {
            println!("{size:>40}{:>12.1} million instructions", work / 1e6);
        }
        if draws {
            let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("grammar/growth");
            std::fs::create_dir_all(&folder).expect("it can be written");
            write(&folder.join(format!("{}.svg", curve.stem)), &plot(curve.what, &points, exponent));
        }
    }
    if over { ExitCode::FAILURE } else { ExitCode::SUCCESS }
}

/// What checking takes beyond a run on an empty workspace.
fn point(curve: &Curve, size: usize) -> f64 {
    let folder = tempfile::tempdir().expect("a folder to work in");
    write(&folder.path().join("cotter.toml"), "");
    let check = || {
        let path = folder.path().to_str().expect("a plain path");
        valgrind::instructions(Path::new(PROGRAM), &["check", "--no-cache", "--jobs", "1", path])
    };
    let empty = check();
    (curve.fill)(folder.path(), size);
    check() - empty
}

fn write(path: &Path, text: &str) {
    std::fs::write(path, text).expect("it can be written");
}

/// Of the straight line through the logarithms, by least squares.
fn slope(points: &[(f64, f64)]) -> f64 {
    let n = points.len() as f64;
    let logs: Vec<(f64, f64)> = points.iter().map(|(x, y)| (x.ln(), y.ln())).collect();
    let x = logs.iter().map(|it| it.0).sum::<f64>() / n;
    let y = logs.iter().map(|it| it.1).sum::<f64>() / n;
    let above: f64 = logs.iter().map(|it| (it.0 - x) * (it.1 - y)).sum();
    above / logs.iter().map(|it| (it.0 - x).powi(2)).sum::<f64>()
}

const WIDTH: f64 = 320.0;
const HEIGHT: f64 = 220.0;
const LEFT: f64 = 56.0;
const RIGHT: f64 = 16.0;
const TOP: f64 = 34.0;
const BOTTOM: f64 = 40.0;

/// Both axes by their logarithms, so that a straight line at 45 degrees is what grows in step.
fn plot(what: &str, points: &[(f64, f64)], exponent: f64) -> String {
    let (first, last) = (points[0], points[points.len() - 1]);
    let across = |x: f64| LEFT + (x / first.0).ln() / (last.0 / first.0).ln() * (WIDTH - LEFT - RIGHT);
    // As many powers upwards as sideways, whatever the points do.
    let up =
        |y: f64| HEIGHT - BOTTOM - (y / first.1).ln() / (last.0 / first.0).ln() * (HEIGHT - TOP - BOTTOM);
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDTH} {HEIGHT}\" role=\"img\" font-family=\"sans-serif\" \
         font-size=\"10\" fill=\"#222\">\n<title>Work of a check over {what}: exponent {exponent:.2}</title>\n\
         <rect width=\"{WIDTH}\" height=\"{HEIGHT}\" fill=\"#fff\"/>\n\
         <text x=\"{LEFT}\" y=\"18\" font-size=\"12\" font-weight=\"bold\">Over {what}</text>\n\
         <path d=\"M{LEFT} {TOP} V{} H{}\" fill=\"none\" stroke=\"#222\"/>\n\
         <path d=\"M{LEFT} {} L{} {TOP}\" fill=\"none\" stroke=\"#999\" stroke-dasharray=\"3 3\"/>\n",
        HEIGHT - BOTTOM,
        WIDTH - RIGHT,
        HEIGHT - BOTTOM,
        WIDTH - RIGHT,
    );
    let line: Vec<String> = points.iter().map(|&(x, y)| format!("{:.1} {:.1}", across(x), up(y))).collect();
    let _ =
        writeln!(svg, "<path d=\"M{}\" fill=\"none\" stroke=\"#0a5\" stroke-width=\"2\"/>", line.join(" L"));
    let mut lowest_said = f64::MAX;
    for &(x, y) in points {
        let (at, over) = (across(x), up(y));
        let _ = writeln!(svg, "<circle cx=\"{at:.1}\" cy=\"{over:.1}\" r=\"3\" fill=\"#0a5\"/>");
        let below = HEIGHT - BOTTOM + 14.0;
        let _ = writeln!(svg, "<text x=\"{at:.1}\" y=\"{below}\" text-anchor=\"middle\">{x}</text>");
        // One below the other, none over another.
        if lowest_said - over < 10.0 {
            continue;
        }
        lowest_said = over;
        let beside = over + 3.0;
        let million = y / 1e6;
        let digits = usize::from(million < 10.0);
        let _ = writeln!(
            svg,
            "<text x=\"{}\" y=\"{beside:.1}\" text-anchor=\"end\">{million:.digits$}</text>",
            LEFT - 6.0
        );
    }
    let _ = writeln!(
        svg,
        "<text x=\"{LEFT}\" y=\"{}\">million instructions; dashed: in step; exponent {exponent:.2}</text>\n</svg>",
        HEIGHT - 8.0
    );
    svg
}
