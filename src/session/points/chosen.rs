//! What is done to chosen points and boards: moved by steps, turned, set,
//! placed once more.

use std::collections::BTreeSet;

use kurbo::Rect;

use crate::plan::{Change, Edit, End, OnWall, Place, Subject};
use crate::session::Session;
use crate::session::ground::{corners, kit, length, wire};
use crate::session::state::{Amount, Step};

impl Session {
    /// Places every chosen point once more, 300 mm beside itself.
    pub fn duplicate(&mut self) {
        let (mut scratch, mut edits) = (self.document.plan().clone(), Vec::new());
        let mut new = BTreeSet::new();
        for id in self.chosen_points() {
            let Some(point) = self.document.plan().points.get(&id) else { continue };
            let beside = |place| {
                kit::nudged(self.document.plan(), place, kit::aside(self.document.plan(), place))
            };
            let Some(place) = point.place.and_then(beside) else { continue };
            let (copy, edit) = wire::placed_as(&scratch, point, place);
            if scratch.apply(edit.clone()).is_ok() {
                new.insert(Subject::Point(copy));
                edits.push(edit);
            }
        }
        if edits.is_empty() {
            self.said = "choose a point first".to_owned();
        } else if self.edit(Edit::Many(edits)) {
            self.selection.choose(new);
        }
    }

    /// Chooses every point of the level.
    pub fn choose_all(&mut self) {
        let all = self.jobs.picture().into_iter().flat_map(|picture| picture.symbols());
        let points =
            all.map(|(subject, _)| subject).filter(|subject| matches!(subject, Subject::Point(_)));
        self.selection.choose(points);
    }

    /// Moves what is chosen across the page, along its wall where it is on one.
    pub fn nudge(&mut self, x: i8, y: i8) {
        let by = kurbo::Vec2::new(f64::from(x), f64::from(y)) * 50.0;
        let edits: Vec<Edit> = self
            .chosen_ends()
            .into_iter()
            .filter_map(|end| {
                let place = self.document.plan().place_of(end)?;
                self.moved(end, kit::nudged(self.document.plan(), place, by)?)
            })
            .collect();
        if edits.is_empty() {
            self.said = "choose a point first".to_owned();
        } else {
            self.edit(Edit::Many(edits));
        }
    }

    /// Sets a distance or a height of what is chosen.
    pub fn set(&mut self, amount: Amount, typed: &str) {
        // What the field shows is what there is: entered again it changes nothing.
        if self.shown(amount).is_some_and(|shown| shown == typed.trim()) {
            return;
        }
        let Some(length) = length::parse(typed) else {
            self.said = format!("\"{typed}\" is no length; type 3600, 3.6 m or 12'6\"");
            return;
        };
        let mut edits = Vec::new();
        for end in self.chosen_ends() {
            let to = match (self.document.plan().place_of(end), amount) {
                (Some(Place::Wall(on)), Amount::Along) => {
                    let Some(to) = corners::set(self.document.plan(), &on, length) else {
                        self.said = "the wall's face ends before that".to_owned();
                        return;
                    };
                    Place::Wall(to)
                }
                (Some(Place::Wall(on)), Amount::Height) => {
                    Place::Wall(OnWall { height: length, ..on })
                }
                _ => continue,
            };
            edits.extend(self.moved(end, to));
        }
        if edits.is_empty() {
            self.said = "choose a point on a wall first".to_owned();
        } else {
            self.edit(Edit::Many(edits));
        }
    }

    /// What the card of the one thing that is chosen shows of it.
    pub(crate) fn shown(&self, amount: Amount) -> Option<String> {
        let ends = self.chosen_ends();
        let ([end], 1) = (ends.as_slice(), self.selection.chosen().len()) else { return None };
        let Some(Place::Wall(on)) = self.document.plan().place_of(*end) else { return None };
        let length = match amount {
            Amount::Along => corners::offset(self.document.plan(), &on)?.away,
            Amount::Height => on.height,
            _ => return None,
        };
        Some(self.sight.measure().show(length))
    }

    /// Turns what is chosen to the other face of its wall.
    pub fn turn(&mut self) {
        let mut edits = Vec::new();
        for end in self.chosen_ends() {
            if let Some(Place::Wall(on)) = self.document.plan().place_of(end) {
                let to = Place::Wall(crate::plan::OnWall { face: kit::other(on.face), ..on });
                edits.extend(self.moved(end, to));
            }
        }
        if edits.is_empty() {
            self.said = "choose a point on a wall first".to_owned();
        } else {
            self.edit(Edit::Many(edits));
        }
    }

    /// Makes the chosen points another kind.
    pub fn make(&mut self, kind: crate::plan::PointKind) {
        let plan = self.document.plan();
        let edits: Vec<Edit> = self
            .chosen_points()
            .iter()
            .filter_map(|id| {
                let point = plan.points.get(id).filter(|point| point.kind != kind)?;
                Some(Change::Put(*id, crate::plan::Point { kind, ..point.clone() }).into())
            })
            .collect();
        if !edits.is_empty() && self.edit(Edit::Many(edits)) {
            self.said = format!("now: {}", kind.name());
        }
    }

    /// One more gang on what is chosen.
    pub fn gangs(&mut self) {
        let points = self.chosen_points();
        let edits: Vec<Edit> = points
            .iter()
            .filter_map(|id| {
                let mut point = self.document.plan().points.get(id)?.clone();
                point.gangs = point.gangs % 4 + 1;
                Some(Change::Put(*id, point).into())
            })
            .collect();
        if !edits.is_empty() {
            self.edit(Edit::Many(edits));
        }
    }

    /// The points and boards that are chosen.
    pub fn chosen_ends(&self) -> Vec<End> {
        let ends = self.selection.chosen().iter().filter_map(|subject| match subject {
            Subject::Point(id) => Some(End::Point(*id)),
            Subject::Board(id) => Some(End::Board(*id)),
            _ => None,
        });
        ends.collect()
    }

    /// Chooses the next point or board of the level and brings it into view.
    pub fn next(&mut self) {
        if self.sight.step() == Step::Survey {
            return self.next_part();
        }
        let Some(picture) = self.jobs.picture().cloned() else { return };
        let all: Vec<(Subject, Rect)> = picture.symbols().collect();
        let now = all.iter().position(|(subject, _)| self.selection.chosen().contains(subject));
        let next = now.map_or(0, |now| (now + 1) % all.len().max(1));
        if let Some((subject, around)) = all.get(next) {
            self.selection.choose([*subject]);
            self.sight.show(*around);
        }
    }
}
