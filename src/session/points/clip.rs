//! Cut, copy, paste, mirror: points with their places to each other.

use std::collections::BTreeSet;

use kurbo::{Point, Rect};

use crate::plan::{self, Edit, End, OnLevel, OnWall, Place, Subject};
use crate::session::Session;
use crate::session::ground::places::{exact, rounded};
use crate::session::ground::{near, wire};
use crate::session::state::Clip;
use crate::units::Mm;

/// How far a point looks for a wall, mm.
const REACH: f64 = 600.0;

impl Clip {
    fn middle(&self) -> Option<Point> {
        middle(self.points.iter().map(|(_, at)| *at))
    }
}

fn middle(places: impl Iterator<Item = Point>) -> Option<Point> {
    let boxes = places.map(|at| Rect::from_points(at, at));
    boxes.reduce(|all, one| all.union(one)).map(|around| around.center())
}

impl Session {
    /// Copies the chosen points; false where none is chosen.
    pub fn copy(&mut self) -> bool {
        let copied: Vec<(plan::Point, Point)> = self
            .chosen_points()
            .iter()
            .filter_map(|id| {
                let point = self.document.plan().points.get(id)?;
                let at = self.document.plan().position_on_face(point.place.as_ref()?)?;
                Some((point.clone(), exact(at.on_floor())))
            })
            .collect();
        if copied.is_empty() {
            self.said = "choose points first".to_owned();
            return false;
        }
        self.said = match copied.len() {
            1 => "1 point copied: point where it goes and press Ctrl+V".to_owned(),
            count => format!("{count} points copied: point where they go and press Ctrl+V"),
        };
        self.hand.keep_clip(Clip { points: copied });
        true
    }

    /// Copies the chosen points and takes them away.
    pub fn cut(&mut self) {
        if self.copy() {
            let copied = std::mem::take(&mut self.said);
            let points = self.chosen_points();
            self.selection.choose(points.into_iter().map(Subject::Point));
            self.delete();
            if self.said.is_empty() {
                self.said = copied.replacen("copied", "cut out", 1);
            }
        }
    }

    /// Places what was copied with its middle at the pointer, on circuits by
    /// their use; each on the wall that is nearest to it there.
    pub fn paste(&mut self, mirrored: bool) {
        let clip = self.hand.clip().clone();
        let Some(middle) = clip.middle() else {
            self.said = "nothing was copied".to_owned();
            return;
        };
        let to = self.hand.pointer().unwrap_or(middle + kurbo::Vec2::new(300.0, 0.0));
        let (mut scratch, mut edits) = (self.document.plan().clone(), Vec::new());
        let mut new = BTreeSet::new();
        for (point, at) in &clip.points {
            let mut off = *at - middle;
            if mirrored {
                off.x = -off.x;
            }
            let Some(place) = point.place.and_then(|place| self.landed(place, to + off)) else {
                continue;
            };
            let (id, edit) = wire::placed_as(&scratch, point, place);
            if scratch.apply(edit.clone()).is_ok() {
                new.insert(Subject::Point(id));
                edits.push(edit);
            }
        }
        let (all, placed) = (clip.points.len(), new.len());
        if edits.is_empty() {
            self.said = "no wall is near: point to where they go".to_owned();
        } else if self.edit(Edit::Many(edits)) {
            self.selection.choose(new);
            if placed < all {
                self.said = format!("{placed} of {all}: no wall was near the others");
            }
        }
    }

    /// Turns the chosen points left for right about the middle between them.
    pub fn mirror(&mut self) {
        let ends: Vec<(End, Place, Point)> = self
            .chosen_ends()
            .into_iter()
            .filter_map(|end| {
                let place = self.document.plan().place_of(end)?;
                let at = self.document.plan().position_on_face(&place)?;
                Some((end, place, exact(at.on_floor())))
            })
            .collect();
        let Some(middle) = middle(ends.iter().map(|(_, _, at)| *at)) else {
            self.said = "choose points first".to_owned();
            return;
        };
        let edits: Vec<Edit> = ends
            .iter()
            .filter_map(|(end, place, at)| {
                let to = Point::new(2.0 * middle.x - at.x, at.y);
                self.moved(*end, self.landed(*place, to)?)
            })
            .collect();
        let (all, turned) = (ends.len(), edits.len());
        if turned < all {
            self.said = format!("{} of them would find no wall there", all - turned);
        } else {
            self.edit(Edit::Many(edits));
        }
    }

    /// A place like another one, but there: on the nearest wall, or on the same
    /// ceiling or ground of the level that is shown. None: no wall is near.
    fn landed(&self, like: Place, at: Point) -> Option<Place> {
        let level = self.sight.level()?;
        Some(match like {
            Place::Wall(on) => {
                let found = near::wall(self.document.plan(), level, at, REACH)?;
                let wall = self.document.plan().walls.get(&found.wall)?;
                let along = near::stepped(wall, found.along, 10.0, 50.0);
                Place::Wall(OnWall { wall: found.wall, along, face: found.face, ..on })
            }
            Place::Ceiling(_) => Place::Ceiling(OnLevel { level, at: rounded(at) }),
            Place::Floor(_) => Place::Floor(OnLevel { level, at: rounded(at) }),
            Place::Post(on) => Place::Post(plan::OnPost { level, at: rounded(at), ..on }),
        })
    }

    /// So many points in all, evenly: between two chosen points of a wall, or
    /// along the whole wall of one, half a space from its ends.
    pub fn evenly(&mut self, count: usize) {
        let on_walls: Vec<(plan::Point, End, OnWall)> = self
            .chosen_points()
            .iter()
            .filter_map(|id| {
                let point = self.document.plan().points.get(id)?;
                let Some(Place::Wall(on)) = point.place else { return None };
                Some((point.clone(), End::Point(*id), on))
            })
            .collect();
        let alongs: Vec<f64> = match on_walls.as_slice() {
            [(_, _, on)] => {
                let Some((low, high)) =
                    crate::session::ground::corners::clear(self.document.plan(), on)
                else {
                    return;
                };
                let step = (high - low) / count_of(count);
                (0..count).map(|index| low + step * (count_of(index) + 0.5)).collect()
            }
            [(_, _, one), (_, _, two)] if one.wall == two.wall && count > 1 => {
                let (a, b) = (one.along.to_f64(), two.along.to_f64());
                let step = (b - a) / count_of(count - 1);
                (0..count).map(|index| a + step * count_of(index)).collect()
            }
            _ => {
                self.said = "choose one point on a wall, or two on the same one".to_owned();
                return;
            }
        };
        let (like, first, on) = on_walls[0].clone();
        let last = on_walls.get(1).map(|(_, end, _)| *end);
        let (mut scratch, mut edits) = (self.document.plan().clone(), Vec::new());
        let mut chosen = BTreeSet::new();
        for (index, along) in alongs.iter().enumerate() {
            let along = Mm::from_f64(*along).unwrap_or(on.along);
            let place = Place::Wall(OnWall { along, ..on });
            let there = match (index, last) {
                (0, _) => Some(first),
                (index, Some(last)) if index + 1 == alongs.len() => Some(last),
                _ => None,
            };
            let (subject, edit) = match there {
                Some(end) if last.is_some() => {
                    chosen.insert(Subject::from(end));
                    continue;
                }
                Some(end) => match self.moved(end, place) {
                    Some(edit) => (Subject::from(end), edit),
                    None => continue,
                },
                None => {
                    let (id, edit) = wire::placed_as(&scratch, &like, place);
                    (Subject::Point(id), edit)
                }
            };
            if scratch.apply(edit.clone()).is_ok() {
                chosen.insert(subject);
                edits.push(edit);
            }
        }
        if !edits.is_empty() && self.edit(Edit::Many(edits)) {
            self.selection.choose(chosen);
        }
    }
}

#[expect(clippy::cast_precision_loss, reason = "a count of points")]
const fn count_of(count: usize) -> f64 {
    count as f64
}
