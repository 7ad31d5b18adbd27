//! Rooms: what walls close in.

use geo::{Area as _, Coord, LineString, Polygon};

use super::{Band, Line, simplified};

/// What is smaller is a shaft or a flaw of the drawing, mm².
const AREA_MIN: f64 = 500_000.0;

/// The outlines that walls close in, along their faces.
pub(in crate::store::import) fn rooms(walls: &[Band]) -> Vec<Vec<[f64; 2]>> {
    let solid: Vec<Polygon<f64>> = walls.iter().map(footprint).collect();
    let mut rooms: Vec<Vec<[f64; 2]>> = Vec::new();
    for polygon in geo::unary_union(&solid) {
        for ring in polygon.interiors() {
            let area = Polygon::new(ring.clone(), Vec::new()).unsigned_area();
            let corners: Vec<[f64; 2]> = ring.coords().map(|place| [place.x, place.y]).collect();
            let corners = simplified(&corners);
            if area >= AREA_MIN && corners.len() >= 3 {
                rooms.push(corners);
            }
        }
    }
    // From the top left, as one reads.
    let key = |ring: &Vec<[f64; 2]>| {
        let low = ring
            .iter()
            .fold([f64::INFINITY; 2], |low, place| [low[0].min(place[0]), low[1].min(-place[1])]);
        (low[1], low[0])
    };
    rooms.sort_by(|one, two| {
        let (one, two) = (key(one), key(two));
        one.0.total_cmp(&two.0).then(one.1.total_cmp(&two.1))
    });
    rooms
}

fn footprint(band: &Band) -> Polygon<f64> {
    let Line { a, b } = band.line;
    let ([ux, uy], half) = (band.line.direction(), band.thickness / 2.0);
    let corner = |place: [f64; 2], side: f64| Coord {
        x: place[0] - side * half * uy,
        y: place[1] + side * half * ux,
    };
    let ring = [corner(a, 1.0), corner(a, -1.0), corner(b, -1.0), corner(b, 1.0)];
    Polygon::new(LineString::from(ring.to_vec()), Vec::new())
}
