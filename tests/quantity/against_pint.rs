//! Conversions against pint, a general library of units; `tests/quantity/pint/make.py` wrote its answers down.
use super::value;
use cotter::model::quantity::Exact;

const ANSWERS: &str = include_str!("pint/conversions.tsv");

#[test]
fn pint_converts_alike() {
    let rows = ANSWERS.lines().filter(|line| !line.starts_with('#'));
    let mut checked = 0;
    for row in rows {
        let columns: Vec<&str> = row.split('\t').collect();
        let [amount, from, to, answer] = columns[..] else { panic!("four columns: {row}") };
        let ours = value(amount, from).lower().expect("an exact value has limits");
        let theirs = value(answer, to).lower().expect("an exact value has limits");
        assert!(alike(ours, theirs), "{row}: {ours} and {theirs} in the base unit");
        checked += 1;
    }
    assert!(checked >= 200, "{checked} rows");
}

/// To eight figures: the answers have nine decimals at most.
fn alike(a: Exact, b: Exact) -> bool {
    let float = |x: Exact| *x.numer() as f64 / *x.denom() as f64;
    let (a, b) = (float(a), float(b));
    (a - b).abs() <= 1e-8 * a.abs().max(b.abs())
}
