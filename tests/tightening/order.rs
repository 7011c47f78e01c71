//! Tightening orders against published ones, and laws over every layout and count.
use cotter::model::fastener::pattern::{Layout, MOST, fits, is_whole, order, places};
use cotter::model::torque::Pattern;

const CIRCLE: Option<Layout> = None;

#[test]
fn circles_go_as_published() {
    for (count, published, source) in [
        (4, "1 3 2 4", "ASME PCC-1, legacy pattern, from memory"),
        (5, "1 3 5 2 4", "wheel of five, printed in several trade pages"),
        (6, "1 4 2 5 3 6", "wheel of six, from memory"),
        (8, "1 5 3 7 2 6 4 8", "ASME PCC-1, legacy pattern, as reprinted"),
        (12, "1 7 4 10 2 8 5 11 3 9 6 12", "ASME PCC-1, legacy pattern, as reprinted"),
        (16, "1 9 5 13 3 11 7 15 2 10 6 14 4 12 8 16", "ASME PCC-1, legacy pattern, as reprinted"),
        (20, "1 11 6 16 3 13 8 18 5 15 10 20 2 12 7 17 4 14 9 19", "ASME PCC-1, legacy pattern, from memory"),
        (
            24,
            "1 13 7 19 4 16 10 22 2 14 8 20 5 17 11 23 3 15 9 21 6 18 12 24",
            "ASME PCC-1, legacy pattern, as reprinted",
        ),
    ] {
        assert_eq!(words(&Pattern::Crosswise, CIRCLE, count), published, "{count} on a circle: {source}");
    }
}

#[test]
fn rows_go_from_the_middle_outwards() {
    // TM 5-3805-248-23-1, appendix on torques, the straight row of nine: labels 9 7 5 3 1 2 4 6 8 from the left.
    assert_eq!(words(&Pattern::FromCentre, Some(Layout::Line), 9), "5 6 4 7 3 8 2 9 1");
    // A head with two rows of five, in a spiral: common practice, no source. From the left the turns are
    // 9 5 1 4 8 in the upper row and 10 6 2 3 7 in the lower.
    assert_eq!(words(&Pattern::FromCentre, Some(Layout::Rows(2)), 10), "3 8 9 4 2 7 10 5 1 6");
    // Two rows of four have four at the centre: common practice, no source.
    assert_eq!(words(&Pattern::FromCentre, Some(Layout::Rows(2)), 8), "7 3 2 6 8 4 1 5");
}

/// Loosening goes the other way: common practice, no source.
#[test]
fn from_the_ends_is_the_way_back() {
    for layout in layouts() {
        for count in 2..=MOST {
            let way = |pattern| order(&pattern, Some(layout), count);
            let back = way(Pattern::FromEnds).map(|order| order.into_iter().rev().collect::<Vec<_>>());
            assert_eq!(way(Pattern::FromCentre), back, "{count} in {layout:?}");
        }
    }
}

#[test]
fn every_order_comes_to_each_once() {
    let mut tried = 0;
    for layout in layouts().into_iter().chain([Layout::Circle]) {
        for count in 2..=MOST {
            for pattern in [Pattern::Crosswise, Pattern::Clockwise, Pattern::FromCentre] {
                let order = order(&pattern, Some(layout), count);
                let none = !fits(layout, count) || layout == Layout::Circle && pattern == Pattern::FromCentre;
                assert_eq!(order.is_none(), none, "{pattern:?} of {count} in {layout:?}");
                if let Some(order) = order {
                    assert!(is_whole(&order, count), "{pattern:?} of {count} in {layout:?}: {order:?}");
                    tried += 1;
                }
            }
        }
    }
    assert!(tried > 400, "{tried}");
}

/// On a circle of an even number the second of each pair lies across from the first.
#[test]
fn crosswise_means_across() {
    for count in (4..=MOST).step_by(2) {
        let order = order(&Pattern::Crosswise, CIRCLE, count).expect("a circle");
        for pair in order.chunks(2) {
            assert_eq!((pair[0] + count / 2 - 1) % count + 1, pair[1], "{count}: {order:?}");
        }
    }
    // No two neighbours follow each other on a larger odd circle.
    for count in (5..=MOST).step_by(2) {
        let order = order(&Pattern::Crosswise, CIRCLE, count).expect("a circle");
        let apart = |pair: &[u32]| pair[0].abs_diff(pair[1]).min(count - pair[0].abs_diff(pair[1]));
        assert!(order.windows(2).all(|pair| apart(pair) > 1), "{count}: {order:?}");
    }
}

#[test]
fn nothing_is_made_up() {
    assert_eq!(order(&Pattern::FromCentre, CIRCLE, 8), None);
    assert_eq!(order(&Pattern::Crosswise, CIRCLE, 1), None);
    assert_eq!(order(&Pattern::Crosswise, CIRCLE, MOST + 1), None);
    assert_eq!(order(&Pattern::Crosswise, Some(Layout::Line), u32::MAX), None);
    assert_eq!(order(&Pattern::Crosswise, Some(Layout::Rows(0)), 8), None);
    assert_eq!(order(&Pattern::Crosswise, Some(Layout::Rectangle { across: u32::MAX, down: 2 }), 8), None);
    assert_eq!(order(&Pattern::Order(vec![1, 3, 2]), CIRCLE, 4), None);
    assert_eq!(order(&Pattern::Order(vec![1, 3, 2, 4]), CIRCLE, 4), Some(vec![1, 3, 2, 4]));
}

/// Drawn a step apart at least, so that no two circles touch.
#[test]
fn no_two_lie_on_each_other() {
    for layout in layouts().into_iter().chain([Layout::Circle]) {
        for count in 2..=MOST {
            let Some(places) = places(layout, count) else { continue };
            assert_eq!(places.len(), count as usize);
            for (at, one) in places.iter().enumerate() {
                for other in &places[at + 1..] {
                    let apart = (one.x - other.x).hypot(one.y - other.y);
                    assert!(apart > 0.89, "{count} in {layout:?}: {one:?} and {other:?}");
                }
            }
        }
    }
}

fn layouts() -> Vec<Layout> {
    let sides = (1..=9).flat_map(|across| (1..=6).map(move |down| Layout::Rectangle { across, down }));
    sides.chain([Layout::Line, Layout::Rows(1), Layout::Rows(2), Layout::Rows(3), Layout::Rows(4)]).collect()
}

fn words(pattern: &Pattern, layout: Option<Layout>, count: u32) -> String {
    let order = order(pattern, layout, count).unwrap_or_default();
    order.iter().map(u32::to_string).collect::<Vec<_>>().join(" ")
}
