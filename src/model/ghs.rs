//! The codes of the hazard statements of the GHS (Annex 3, revision 10, from memory), and of the European Union's
//! own (Regulation (EC) No 1272/2008, Annex II and III, from memory).

/// First and last number of each run of codes.
const RUNS: &[(u16, u16)] = &[
    // Physical.
    (200, 211),
    (220, 232),
    (240, 242),
    (250, 252),
    (260, 261),
    (270, 272),
    (280, 284),
    (290, 290),
    // Health.
    (300, 305),
    (310, 320),
    (330, 336),
    (340, 341),
    (350, 351),
    (360, 362),
    (370, 373),
    // Environment.
    (400, 402),
    (410, 413),
    (420, 420),
];

const OF_THE_UNION: &[u16] = &[
    1, 6, 14, 18, 19, 29, 31, 32, 44, 59, 66, 70, 71, 201, 202, 203, 204, 205, 206, 207, 208, 209, 210, 211,
    212, 380, 381, 401, 430, 431, 440, 441, 450, 451,
];

/// Letters that say more of a code: by which way it is inhaled, what it harms of the unborn and of fertility.
const LETTERS: &[(u16, &[&str])] =
    &[(350, &["i"]), (360, &["F", "D", "f", "d", "FD", "Fd", "Df", "Fdf"]), (361, &["f", "d", "fd"])];

/// Whether the word is one, with letters behind or without.
pub fn is_code(word: &str) -> bool {
    let Some(digits) = word.strip_prefix("EUH") else {
        let Some(rest) = word.strip_prefix('H') else { return false };
        let Some((digits, letters)) = rest.split_at_checked(3) else { return false };
        let Some(number) = number(digits) else { return false };
        let run = RUNS.iter().any(|(first, last)| (*first..=*last).contains(&number));
        let said = LETTERS.iter().any(|(of, known)| *of == number && known.contains(&letters));
        return run && (letters.is_empty() || said);
    };
    // `EUH201A` is a variant of `EUH201`, `EUH209A` of `EUH209`.
    let digits = digits.strip_suffix('A').unwrap_or(digits);
    number(digits).is_some_and(|number| OF_THE_UNION.contains(&number))
}

/// Every code without letters.
pub fn codes() -> impl Iterator<Item = &'static str> {
    static CODES: std::sync::LazyLock<Vec<String>> = std::sync::LazyLock::new(|| {
        let runs = RUNS.iter().flat_map(|(first, last)| *first..=*last).map(|number| format!("H{number}"));
        runs.chain(OF_THE_UNION.iter().map(|number| format!("EUH{number:03}"))).collect()
    });
    CODES.iter().map(String::as_str)
}

/// Exactly three digits.
fn number(digits: &str) -> Option<u16> {
    let plain = digits.len() == 3 && digits.bytes().all(|byte| byte.is_ascii_digit());
    digits.parse().ok().filter(|_| plain)
}
