//! Shapes that recur: lines, circles, arcs, rounded polylines, arrows.

use kurbo::{BezPath, Point, Rect, Vec2};

/// A straight line.
pub(crate) fn line(from: impl Into<Point>, to: impl Into<Point>) -> BezPath {
    polyline(&[from.into(), to.into()])
}

/// Straight lines from place to place.
pub(crate) fn polyline(places: &[Point]) -> BezPath {
    let mut path = BezPath::new();
    for (index, place) in places.iter().enumerate() {
        if index == 0 {
            path.move_to(*place);
        } else {
            path.line_to(*place);
        }
    }
    path
}

/// A closed polygon.
pub(crate) fn polygon(places: &[Point]) -> BezPath {
    let mut path = polyline(places);
    path.close_path();
    path
}

/// A rectangle.
pub(crate) fn rect(rect: Rect) -> BezPath {
    polygon(&[
        Point::new(rect.x0, rect.y0),
        Point::new(rect.x1, rect.y0),
        Point::new(rect.x1, rect.y1),
        Point::new(rect.x0, rect.y1),
    ])
}

/// A rectangle with round corners.
pub(crate) fn rounded_rect(rect: Rect, radius: f64) -> BezPath {
    let r = radius.min(rect.width() / 2.0).min(rect.height() / 2.0);
    let quarter = core::f64::consts::FRAC_PI_2;
    let mut path = BezPath::new();
    path.move_to((rect.x0 + r, rect.y0));
    let corners = [
        (Point::new(rect.x1 - r, rect.y0 + r), -quarter),
        (Point::new(rect.x1 - r, rect.y1 - r), 0.0),
        (Point::new(rect.x0 + r, rect.y1 - r), quarter),
        (Point::new(rect.x0 + r, rect.y0 + r), 2.0 * quarter),
    ];
    for (centre, start) in corners {
        path.line_to(on_circle(centre, r, start));
        append_arc(&mut path, centre, r, start, quarter);
    }
    path.close_path();
    path
}

/// A full circle.
pub(crate) fn circle(centre: impl Into<Point>, radius: f64) -> BezPath {
    let mut path = arc(centre, radius, 0.0, 2.0 * core::f64::consts::PI);
    path.close_path();
    path
}

/// Part of a circle from a start angle through a sweep, radians from `x`
/// towards `y`.
pub(crate) fn arc(centre: impl Into<Point>, radius: f64, start: f64, sweep: f64) -> BezPath {
    let centre = centre.into();
    let mut path = BezPath::new();
    path.move_to(on_circle(centre, radius, start));
    append_arc(&mut path, centre, radius, start, sweep);
    path
}

/// Adds an arc in cubic pieces of at most a quarter turn. Each piece has
/// handles of 4/3 tan(a/4) radii, off the true circle by less than 3 in 10 000.
fn append_arc(path: &mut BezPath, centre: Point, radius: f64, start: f64, sweep: f64) {
    let pieces = libm::ceil(sweep.abs() / core::f64::consts::FRAC_PI_2 - 1e-9).max(1.0);
    let step = sweep / pieces;
    let handle = 4.0 / 3.0 * libm::tan(step / 4.0) * radius;
    let mut from = start;
    let mut done = 0.0;
    while done < pieces {
        let to = from + step;
        let along = |angle: f64| Vec2::new(-libm::sin(angle), libm::cos(angle)) * handle;
        path.curve_to(
            on_circle(centre, radius, from) + along(from),
            on_circle(centre, radius, to) - along(to),
            on_circle(centre, radius, to),
        );
        from = to;
        done += 1.0;
    }
}

/// A place on a circle.
pub(crate) fn on_circle(centre: Point, radius: f64, angle: f64) -> Point {
    centre + Vec2::new(libm::cos(angle), libm::sin(angle)) * radius
}

/// Straight lines whose bends are rounded, each by as much as its two sides
/// leave room for.
pub(crate) fn rounded_polyline(places: &[Point], radius: f64) -> BezPath {
    let mut path = BezPath::new();
    let Some(first) = places.first() else { return path };
    path.move_to(*first);
    for bend in places.windows(3) {
        let (before, at, after) = (bend[0], bend[1], bend[2]);
        let (back, on) = (before - at, after - at);
        let (back_length, on_length) = (length(back), length(on));
        let cut = radius.min(back_length / 2.0).min(on_length / 2.0);
        if cut < 0.02 {
            path.line_to(at);
        } else {
            path.line_to(at + back * (cut / back_length));
            path.quad_to(at, at + on * (cut / on_length));
        }
    }
    if places.len() > 1 {
        path.line_to(places[places.len() - 1]);
    }
    path
}

/// How long a vector is.
pub(crate) fn length(vector: Vec2) -> f64 {
    libm::hypot(vector.x, vector.y)
}

/// The same direction, one long; nothing for nothing.
pub(crate) fn unit(vector: Vec2) -> Vec2 {
    let length = length(vector);
    if length > 1e-9 { vector / length } else { Vec2::ZERO }
}

/// A quarter turn.
pub(crate) fn square_to(vector: Vec2) -> Vec2 {
    Vec2::new(-vector.y, vector.x)
}

/// A slim arrow, tip last: a shaft and two barbs.
pub(crate) fn arrow(from: Point, to: Point, barb: f64) -> BezPath {
    let along = unit(to - from);
    let across = square_to(along);
    let mut path = line(from, to);
    path.move_to(to - along * barb + across * (barb * 0.6));
    path.line_to(to);
    path.line_to(to - along * barb - across * (barb * 0.6));
    path
}
