//! Symbols for points and boards, one file for each family.
//!
//! Based on the signs of IEC 60617-11 for installation drawings as the trade
//! remembers them; drawn afresh and not claimed to conform, which is why every
//! sheet prints a legend. The module is 2.5 mm. A symbol stands on the face of
//! its wall at the origin and grows along `+y` into the room; one that hangs
//! from a ceiling is centred on the origin.

mod alarms;
mod board;
mod fixed;
mod junctions;
mod lights;
mod sockets;
mod switches;

use kurbo::{Affine, BezPath, Point, Rect, Vec2};

use super::lettering::Lettering;
use super::scene::{Anchor, Item, Mark, Stroke, Text, bounds};
use super::{Ink, pen};
use crate::plan::PointKind;

/// The module of the symbols, mm on paper.
pub const MODULE: f64 = 2.5;
const M: f64 = MODULE;
/// The width of symbol lines, mm: ISO 128-2 narrow beside walls of 0.5.
const LINE: f64 = 0.35;

/// What a switch does among its fellows; it decides how many strokes it has.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Duty {
    /// Works its lights alone.
    #[default]
    OneWay,
    /// One of two ends.
    TwoWay,
    /// Between two ends.
    Intermediate,
}

/// What is drawn: a kind of point with what changes its picture, or a board.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sign {
    /// A point.
    Point {
        /// What it is.
        kind: PointKind,
        /// How a switch works with others; one-way for all that is not a switch.
        duty: Duty,
    },
    /// A distribution board.
    Board,
}

impl Sign {
    /// What the legend calls it.
    #[must_use]
    pub fn name(self) -> String {
        match self {
            Self::Board => "distribution board".to_owned(),
            Self::Point { kind, duty } => match duty {
                Duty::OneWay => kind.name().to_owned(),
                Duty::TwoWay => format!("{}, two-way", kind.name()),
                Duty::Intermediate => format!("{}, intermediate", kind.name()),
            },
        }
    }
}

/// A symbol about the origin.
#[derive(Clone, Debug, PartialEq)]
pub struct Symbol {
    /// Its marks.
    pub items: Vec<Item>,
    /// Whether it is centred on the origin rather than standing on it.
    pub centred: bool,
}

impl Symbol {
    /// The symbol of a sign whose plate holds so many gangs.
    #[must_use]
    pub fn of(sign: Sign, gangs: u8) -> Self {
        use PointKind as K;
        let Sign::Point { kind, duty } = sign else { return board::board() };
        match kind {
            K::Socket => sockets::socket(gangs),
            K::WeatherproofSocket => sockets::weatherproof(gangs),
            K::Luminaire => lights::luminaire(),
            K::Downlight => lights::downlight(),
            K::WallLight => lights::wall_light(),
            K::LinearLight => lights::linear(),
            K::Switch => switches::switch(duty, gangs),
            K::Dimmer => switches::dimmer(duty, gangs),
            K::PullCord => switches::pull_cord(duty),
            K::Isolator => switches::isolator(),
            K::SmokeAlarm => alarms::smoke(),
            K::HeatAlarm => alarms::heat(),
            K::ExhaustFan => fixed::fan(),
            K::JunctionBox => junctions::junction_box(),
            other => fixed::appliance(other.letters()),
        }
    }

    /// The box around it, about its own origin.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        bounds(&self.items).unwrap_or(Rect::ZERO)
    }

    /// Its marks at a place on paper, grown along `into` (a unit vector). A
    /// symbol made for a ceiling that hangs on a wall is moved off its face.
    #[must_use]
    pub fn placed(&self, at: Point, into: Vec2, on_wall: bool) -> Vec<Item> {
        let off = if self.centred && on_wall { -self.bounds().y0 } else { 0.0 };
        let origin = at + into * off;
        let across = Vec2::new(into.y, -into.x);
        let onto = Affine::new([across.x, across.y, into.x, into.y, origin.x, origin.y]);
        self.items.iter().map(|item| self::placed(item, onto)).collect()
    }
}

/// Lettering inside a symbol stays level and centred where its middle falls.
fn placed(item: &Item, onto: Affine) -> Item {
    let Item::Text(text) = item else { return item.placed(onto) };
    let half = Vec2::new(0.0, text.height.mm() / 2.0);
    Text { at: onto * (text.at - half) + half, ..text.clone() }.into()
}

/// Lines of a symbol.
fn lines(path: BezPath) -> Item {
    Mark::line(path, Stroke::solid(Ink::BLACK, LINE)).into()
}

/// A closed shape of a symbol with paper inside, so that what lies beneath
/// does not confuse it.
fn shape(path: BezPath) -> Item {
    Mark { path, fill: Some(Ink::WHITE), stroke: Some(Stroke::solid(Ink::BLACK, LINE)) }.into()
}

/// A filled part of a symbol.
fn filled(path: BezPath) -> Item {
    Mark::area(path, Ink::BLACK).into()
}

/// Letters centred on a place.
fn letters(content: &str, centre: Point, height: Lettering) -> Item {
    Text::new(content, centre + Vec2::new(0.0, height.mm() / 2.0), height)
        .anchored(Anchor::Middle)
        .bold()
        .into()
}

/// The figure beside a plate with more than one gang.
fn gang_figure(gangs: u8, centre: Point) -> Option<Item> {
    (gangs > 1).then(|| letters(&gangs.to_string(), centre, Lettering::Tag))
}

/// A cross from rim to rim of a circle.
fn cross(radius: f64) -> BezPath {
    let reach = radius * core::f64::consts::FRAC_1_SQRT_2;
    let mut path = pen::line((-reach, -reach), (reach, reach));
    path.extend(pen::line((-reach, reach), (reach, -reach)));
    path
}

#[cfg(test)]
mod tests {
    use super::*;

    fn all_signs() -> Vec<Sign> {
        let duties = [Duty::OneWay, Duty::TwoWay, Duty::Intermediate];
        let mut signs = vec![Sign::Board];
        for kind in PointKind::ALL {
            let switches = kind.family() == crate::plan::Family::Switches;
            for duty in duties.into_iter().take(if switches { 3 } else { 1 }) {
                signs.push(Sign::Point { kind, duty });
            }
        }
        signs
    }

    #[test]
    fn every_sign_has_a_symbol_of_its_own() {
        let signs = all_signs();
        for (index, one) in signs.iter().enumerate() {
            for other in &signs[index + 1..] {
                assert_ne!(
                    Symbol::of(*one, 1),
                    Symbol::of(*other, 1),
                    "{one:?} and {other:?} look alike"
                );
            }
        }
    }

    /// ISO 128 keeps parts of a symbol no smaller than a few line widths; on
    /// paper nothing may be under 1.5 mm and nothing much larger than a board,
    /// 4 M, the long cord of a pull switch included.
    #[test]
    fn symbols_are_big_enough_to_see_and_small_enough_to_place() {
        for sign in all_signs() {
            let bounds = Symbol::of(sign, 2).bounds();
            assert!(bounds.width().max(bounds.height()) >= 1.5, "{sign:?} {bounds:?}");
            assert!(bounds.width().max(bounds.height()) <= 5.0 * M, "{sign:?} {bounds:?}");
        }
    }

    /// A socket on the lower face of a wall grows downwards on paper, one on
    /// the upper face upwards.
    #[test]
    fn symbols_grow_into_the_room() {
        let socket = Symbol::of(Sign::Point { kind: PointKind::Socket, duty: Duty::OneWay }, 1);
        let down = socket.placed(Point::new(50.0, 50.0), Vec2::new(0.0, 1.0), true);
        let box_down = bounds(&down).expect("has marks");
        assert!(box_down.y0 > 49.7 && box_down.y1 > 57.0, "{box_down:?}");
        let left = socket.placed(Point::new(50.0, 50.0), Vec2::new(-1.0, 0.0), true);
        let box_left = bounds(&left).expect("has marks");
        assert!(box_left.x1 < 50.3 && box_left.x0 < 43.0, "{box_left:?}");
    }
}
