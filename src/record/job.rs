//! Times as a record writes them, and names as people write them.

/// Whether it is a moment of the calendar: `2026-11-02T09:15:00Z`. Such texts sort as the moments do.
pub fn is_time(text: &str) -> bool {
    let shape = b"dddd-dd-ddTdd:dd:ddZ";
    let fits = text.len() == shape.len()
        && text.bytes().zip(shape).all(|(byte, wanted)| match wanted {
            b'd' => byte.is_ascii_digit(),
            mark => byte == *mark,
        });
    let number = |range: std::ops::Range<usize>| text.get(range).and_then(|it| it.parse::<u32>().ok());
    let (Some(year), Some(month), Some(day)) = (number(0..4), number(5..7), number(8..10)) else {
        return false;
    };
    let below = |range, limit| number(range).is_some_and(|it| it < limit);
    let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    let days = match month {
        2 => 28 + u32::from(leap),
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    };
    let in_calendar = (1..=12).contains(&month) && (1..=days).contains(&day);
    fits && in_calendar && below(11..13, 24) && below(14..16, 60) && below(17..19, 60)
}

/// Whether two names are of one person, as far as their letters tell.
pub fn same_name(one: &str, other: &str) -> bool {
    let plain = |name: &str| name.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
    plain(one) == plain(other)
}
