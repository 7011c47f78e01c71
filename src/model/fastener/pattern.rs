//! Where the fasteners of a set lie, and in which order they are tightened.
use crate::model::torque::Pattern;

/// How the pieces of a set lie to each other.
///
/// On a circle they are numbered clockwise from the top; in rows from the top left, row by row.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Layout {
    Circle,
    Line,
    /// Rows of the same length, or one longer than those below it.
    Rows(u32),
    /// All of so many across by so many down, or those at its edge alone: the count says which.
    Rectangle {
        across: u32,
        down: u32,
    },
}

/// The most that are drawn, and gone round in an order of their own.
pub const MOST: u32 = 36;

/// Where one fastener lies, in steps from its neighbour: `x` to the right and `y` down from the middle of all.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    pub x: f64,
    pub y: f64,
}

/// Whether `count` fasteners can lie so.
pub fn fits(layout: Layout, count: u32) -> bool {
    match layout {
        Layout::Circle | Layout::Line => true,
        Layout::Rows(rows) => (1..=count).contains(&rows),
        Layout::Rectangle { across, down } => {
            across.checked_mul(down) == Some(count) || is_edge(across, down, count)
        }
    }
}

/// Whether they are those at the edge of the rectangle alone.
fn is_edge(across: u32, down: u32, count: u32) -> bool {
    let both = across.checked_add(down).and_then(|both| both.checked_mul(2));
    across > 1 && down > 1 && both.and_then(|both| both.checked_sub(4)) == Some(count)
}

/// The places of `count` fasteners by their numbers; `None` where so many do not lie so, or are more than [`MOST`].
pub fn places(layout: Layout, count: u32) -> Option<Vec<Place>> {
    if count > MOST || !fits(layout, count) {
        return None;
    }
    if layout == Layout::Circle {
        let angle = |at: u32| f64::from(at) / f64::from(count) * std::f64::consts::TAU;
        let radius = (f64::from(count) / std::f64::consts::TAU).max(0.75);
        let place = |at| Place { x: radius * angle(at).sin(), y: -radius * angle(at).cos() };
        return Some((0..count).map(place).collect());
    }
    let rows = rows(layout, count)?;
    let down = middle(rows.len() as u32);
    let place = |(at, row): (usize, Vec<f64>)| {
        row.into_iter().map(move |x| Place { x, y: at as f64 - down }).collect::<Vec<_>>()
    };
    Some(rows.into_iter().enumerate().flat_map(place).collect())
}

/// The order in which `count` fasteners are gone round, by their numbers from 1; `None` where there is none: the
/// pattern needs a layout that is not said, the fasteners do not lie so, the author's own order is not one of
/// all of them, or they are too few or too many.
///
/// Without a layout they lie on a circle, except that a circle has no centre to start from.
pub fn order(pattern: &Pattern, layout: Option<Layout>, count: u32) -> Option<Vec<u32>> {
    if !(2..=MOST).contains(&count) {
        return None;
    }
    let lie = layout.unwrap_or(Layout::Circle);
    let places = places(lie, count)?;
    match pattern {
        Pattern::Order(order) => is_whole(order, count).then(|| order.clone()),
        Pattern::Crosswise => Some(crosswise(lie, &places)),
        Pattern::Clockwise => Some(clockwise(lie, &places)),
        Pattern::FromCentre if lie != Layout::Circle => Some(numbers(from_centre(&places))),
        Pattern::FromEnds if lie != Layout::Circle => Some(numbers(from_centre(&places).into_iter().rev())),
        Pattern::FromCentre | Pattern::FromEnds => None,
    }
}

/// Whether the order names each of `count` fasteners once.
pub fn is_whole(order: &[u32], count: u32) -> bool {
    order.len() == count as usize && (1..=count).all(|number| order.contains(&number))
}

fn rows(layout: Layout, count: u32) -> Option<Vec<Vec<f64>>> {
    let row = |length: u32| (0..length).map(|at| f64::from(at) - middle(length)).collect::<Vec<_>>();
    match layout {
        Layout::Circle => None,
        Layout::Line => Some(vec![row(count)]),
        Layout::Rows(rows) => {
            let longer = count.checked_rem(rows)?;
            Some((0..rows).map(|at| row(count / rows + u32::from(at < longer))).collect())
        }
        Layout::Rectangle { across, down } => {
            let ends = vec![-middle(across), middle(across)];
            let edge = across.checked_mul(down) != Some(count);
            let inner = |at: u32| if edge && at > 0 && at + 1 < down { ends.clone() } else { row(across) };
            Some((0..down).map(inner).collect())
        }
    }
}

/// Half the way from the first of so many to the last.
fn middle(length: u32) -> f64 {
    f64::from(length.saturating_sub(1)) / 2.0
}

fn numbers(places: impl IntoIterator<Item = usize>) -> Vec<u32> {
    places.into_iter().filter_map(|at| u32::try_from(at + 1).ok()).collect()
}

/// Once round the edge from the top left, or the whole circle from its top.
fn round_the_edge(layout: Layout, places: &[Place]) -> Vec<usize> {
    if layout == Layout::Circle {
        return (0..places.len()).collect();
    }
    let (top, bottom) = (places.first().map_or(0.0, |p| p.y), places.last().map_or(0.0, |p| p.y));
    let on_row = |y: f64| (0..places.len()).filter(move |at| places.get(*at).is_some_and(|p| p.y == y));
    let mut edge: Vec<usize> = on_row(top).collect();
    if bottom > top {
        let inner: Vec<f64> = (1..).map(|row| top + f64::from(row)).take_while(|y| *y < bottom).collect();
        edge.extend(inner.iter().filter_map(|y| on_row(*y).next_back()));
        edge.extend(on_row(bottom).collect::<Vec<_>>().into_iter().rev());
        edge.extend(inner.iter().rev().filter_map(|y| on_row(*y).next()));
    }
    // A single column is its own left and right end.
    let mut seen = Vec::new();
    edge.retain(|at| {
        !seen.contains(at) && {
            seen.push(*at);
            true
        }
    });
    edge
}

fn clockwise(layout: Layout, places: &[Place]) -> Vec<u32> {
    let edge = round_the_edge(layout, places);
    let inner = (0..places.len()).filter(|at| !edge.contains(at));
    numbers(edge.iter().copied().chain(inner))
}

/// What lies inside first, from the centre; then across the edge.
fn crosswise(layout: Layout, places: &[Place]) -> Vec<u32> {
    let edge = round_the_edge(layout, places);
    let inner = from_centre(places).into_iter().filter(|at| !edge.contains(at));
    let across = star(edge.len()).into_iter().filter_map(|at| edge.get(at).copied());
    numbers(inner.chain(across))
}

/// Outwards in a spiral: ring by ring, each from its lower right corner up, across and down.
fn from_centre(places: &[Place]) -> Vec<usize> {
    // Half a right angle, and a little for what a calculation leaves over.
    const FROM_LOWER_RIGHT: f64 = 45.000_001;
    let key = |at: &usize| {
        let place = places.get(*at).copied().unwrap_or(Place { x: 0.0, y: 0.0 });
        let angle = (-place.y).atan2(place.x).to_degrees();
        (place.x.abs().max(place.y.abs()), (angle + FROM_LOWER_RIGHT).rem_euclid(360.0))
    };
    let mut order: Vec<usize> = (0..places.len()).collect();
    order.sort_by(|a, b| {
        let (a, b) = (key(a), key(b));
        a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1))
    });
    order
}

/// Round a circle so that each is followed by its opposite: in fours for a multiple of four (ASME PCC-1, the
/// legacy pattern), in twos for another even number. Where none has an opposite, each second or so is left out,
/// as on a wheel of five.
fn star(count: usize) -> Vec<usize> {
    if count.is_multiple_of(4) {
        let group = |start: &usize| [0, count / 2, count / 4, count / 4 * 3].map(|further| start + further);
        return starts_of_fours(count / 4).iter().flat_map(group).collect();
    }
    let half = if count.is_multiple_of(2) { count / 2 } else { count };
    let starts = (0..half).map(|at| at * (half / 2).max(1) % half.max(1));
    if half == count { starts.collect() } else { starts.flat_map(|start| [start, start + half]).collect() }
}

/// Where each group of four starts: as far as can be from those before it.
fn starts_of_fours(groups: usize) -> &'static [usize] {
    match groups {
        1 => &[0],
        2 => &[0, 1],
        3 => &[0, 1, 2],
        4 => &[0, 2, 1, 3],
        5 => &[0, 2, 4, 1, 3],
        6 => &[0, 3, 1, 4, 2, 5],
        7 => &[0, 3, 5, 1, 4, 2, 6],
        8 => &[0, 4, 2, 6, 1, 5, 3, 7],
        9 => &[0, 4, 8, 2, 6, 1, 5, 3, 7],
        _ => &[],
    }
}
