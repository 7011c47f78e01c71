//! The benchmark's corpus stays what it was: its ratios are compared over years.
#[allow(dead_code, clippy::module_inception)]
#[path = "bench/corpus.rs"]
mod frozen;

#[test]
fn the_corpus_is_frozen() {
    assert_eq!(
        frozen::checksum(),
        0xf972_f24b_d22b_0189,
        "the generator changed: old ratios no longer compare"
    );
}

#[test]
fn a_file_of_the_corpus_is_as_long_and_as_wordy_as_it_says() {
    let text = frozen::procedure(7);
    let prose: usize = text.lines().filter(|l| l.starts_with("    ") && l.ends_with('.')).map(str::len).sum();
    assert!((6_000..7_168).contains(&text.len()), "{} bytes", text.len());
    let share = prose as f64 / text.len() as f64;
    assert!((0.59..0.62).contains(&share), "{share:.2} of it is prose");
}
