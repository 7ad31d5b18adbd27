//! What the chosen parts of the building are: what walls are made of, what
//! rooms are called and used for, what is over and under a level.

use crate::plan::{
    Area, AreaEffect, Change, Edit, Opening, Room, RoomUse, Subject, Wall, WallBuild, WallId,
};
use crate::session::Session;
use crate::session::ground::rooms;
use crate::session::survey::reshape::{hung, shifted};
use crate::units::Mm;

/// All builds in the order of their keys.
pub const BUILDS: [WallBuild; 8] = [
    WallBuild::Stud,
    WallBuild::BrickVeneer,
    WallBuild::SolidMasonry,
    WallBuild::CavityMasonry,
    WallBuild::DoubleBrick,
    WallBuild::Concrete,
    WallBuild::LathAndPlaster,
    WallBuild::Screen,
];

/// What a build is called, and how thick such a wall is drawn, mm: common
/// practice, to be measured.
pub const fn build(of: WallBuild) -> (&'static str, Mm) {
    match of {
        WallBuild::Stud => ("stud", Mm::new(110)),
        WallBuild::BrickVeneer => ("brick veneer", Mm::new(250)),
        WallBuild::SolidMasonry => ("solid masonry", Mm::new(130)),
        WallBuild::CavityMasonry => ("cavity masonry", Mm::new(280)),
        WallBuild::DoubleBrick => ("double brick", Mm::new(270)),
        WallBuild::Concrete => ("concrete", Mm::new(180)),
        WallBuild::LathAndPlaster => ("lath and plaster", Mm::new(130)),
        WallBuild::Screen => ("screen", Mm::new(60)),
    }
}

/// All uses with what they are called.
pub const USES: [(RoomUse, &str); 14] = [
    (RoomUse::Living, "living"),
    (RoomUse::Dining, "dining"),
    (RoomUse::Kitchen, "kitchen"),
    (RoomUse::Bedroom, "bedroom"),
    (RoomUse::Bathroom, "bathroom"),
    (RoomUse::Toilet, "toilet"),
    (RoomUse::Laundry, "laundry"),
    (RoomUse::Hall, "hall"),
    (RoomUse::Stair, "stair"),
    (RoomUse::Study, "study"),
    (RoomUse::Garage, "garage"),
    (RoomUse::Store, "store"),
    (RoomUse::Outdoor, "outdoors"),
    (RoomUse::Other, "not said"),
];

impl Session {
    /// The walls that are chosen.
    pub fn chosen_walls(&self) -> Vec<(WallId, Wall)> {
        let walls = self.selection.chosen().iter().filter_map(|subject| match subject {
            Subject::Wall(id) => Some((*id, self.document.plan().walls.get(id)?.clone())),
            _ => None,
        });
        walls.collect()
    }

    /// One edit for every chosen thing that a question fits; says what to
    /// choose where it fits none.
    fn each(&mut self, what: &str, edits: Vec<Edit>) {
        if edits.is_empty() {
            self.said = format!("choose {what} first");
        } else {
            self.edit(Edit::Many(edits));
        }
    }

    /// What the chosen walls are made of, and those that are drawn from now on.
    pub fn build(&mut self, of: WallBuild) {
        let (name, thickness) = build(of);
        let walls = self.chosen_walls();
        if walls.is_empty() {
            self.hand.drawing.build = Some(of);
            self.said = format!("new walls are {name}, {thickness} thick");
            return;
        }
        let edits: Vec<Edit> = walls
            .iter()
            .map(|(id, wall)| {
                Change::Put(*id, Wall { build: of, thickness, ..wall.clone() }).into()
            })
            .collect();
        self.with_faces(edits);
    }

    /// Edits of walls with the faces of rooms after them.
    pub(crate) fn with_faces(&mut self, edits: Vec<Edit>) {
        match self.sight.level() {
            Some(level) => self.edit(rooms::with_rooms(self.document.plan(), level, edits)),
            None => self.edit(Edit::Many(edits)),
        };
    }

    /// Fills the chosen walls with insulation, or empties them.
    pub fn insulate(&mut self) {
        let walls = self.chosen_walls();
        let all = walls.iter().all(|(_, wall)| wall.insulated);
        let edits = walls
            .into_iter()
            .map(|(id, wall)| Change::Put(id, Wall { insulated: !all, ..wall }).into());
        self.each("a wall", edits.collect());
    }

    /// What the chosen rooms are used for. A room that has no name of its own
    /// is called after it.
    pub fn usage(&mut self, usage: RoomUse) {
        let called = USES.iter().find(|(one, _)| *one == usage).map_or("", |(_, name)| *name);
        let edits = self.selection.chosen().iter().filter_map(|subject| {
            let Subject::Room(id) = subject else { return None };
            let room = self.document.plan().rooms.get(id)?;
            let plain = room.name.is_empty()
                || room.name.starts_with("Room ")
                || USES.iter().any(|(_, name)| capital(name) == room.name);
            let name =
                if plain && usage != RoomUse::Other { capital(called) } else { room.name.clone() };
            Some(Change::Put(*id, Room { usage, name, ..room.clone() }).into())
        });
        let edits = edits.collect();
        self.each("a room", edits);
    }

    /// Doors: the other face of the wall, or the handle on the other side.
    pub fn hang(&mut self, other_face: bool) -> bool {
        let edits: Vec<Edit> = self
            .selection
            .chosen()
            .iter()
            .filter_map(|subject| {
                let Subject::Opening(id) = subject else { return None };
                let new = hung(self.document.plan().openings.get(id)?, other_face)?;
                Some(Change::Put(*id, new).into())
            })
            .collect();
        let any = !edits.is_empty();
        if any || !other_face {
            self.each("a door", edits);
        }
        any
    }

    /// Turns what areas do to the next effect, and what voids are to the other
    /// access; the same key for whatever is chosen.
    pub fn effect(&mut self, effect: AreaEffect) {
        let edits = self.selection.chosen().iter().filter_map(|subject| {
            let Subject::Area(id) = subject else { return None };
            let area = self.document.plan().areas.get(id)?.clone();
            Some(Change::Put(*id, Area { effect, ..area }).into())
        });
        let edits = edits.collect();
        self.each("an area", edits);
    }

    /// Moves the chosen walls, openings, areas and the picture across the page;
    /// false where none is chosen.
    pub fn nudge_building(&mut self, by: kurbo::Vec2) -> bool {
        let walls = self.chosen_walls();
        let (mut scratch, mut edits) = (self.document.plan().clone(), self.nudged_things(by));
        if walls.is_empty() && edits.is_empty() {
            return false;
        }
        let mut moved = std::collections::BTreeSet::new();
        for (id, wall) in &walls {
            // What is one line moves once.
            if !moved.insert(*id) {
                continue;
            }
            moved.extend(crate::session::survey::reshape::line_of(self.document.plan(), *id));
            let square = by.dot(crate::session::survey::reshape::across(wall));
            if square.abs() < 1.0 {
                continue;
            }
            match shifted(&scratch, *id, square) {
                Ok(edit) => {
                    if scratch.apply(edit.clone()).is_ok() {
                        edits.push(edit);
                    }
                }
                Err(why) => {
                    self.said = why;
                    return true;
                }
            }
        }
        if edits.is_empty() {
            self.said = "a wall moves squarely to itself: use the other arrows".to_owned();
        } else {
            self.edit(Edit::Many(edits));
        }
        true
    }

    /// The edits that move everything chosen but walls.
    fn nudged_things(&self, by: kurbo::Vec2) -> Vec<Edit> {
        let moved = self.selection.chosen().iter().filter_map(|subject| match subject {
            Subject::Opening(id) => {
                let opening = self.document.plan().openings.get(id)?;
                let wall = self.document.plan().walls.get(&opening.wall)?;
                let (x, y) = wall.direction();
                let most = (wall.length() - opening.width.to_f64()).max(0.0);
                let from = opening.from.to_f64() + by.dot(kurbo::Vec2::new(x, y));
                let from = Mm::from_f64(libm::floor(from.clamp(0.0, most))).ok()?;
                Some(Change::Put(*id, Opening { from, ..opening.clone() }).into())
            }
            Subject::Area(id) => {
                crate::session::survey::outlines::moved(self.document.plan(), *id, by).ok()
            }
            Subject::Level(id) => {
                crate::session::survey::pictures::moved(self.document.plan(), *id, by).ok()
            }
            _ => None,
        });
        moved.collect()
    }
}

/// A word with a capital letter.
pub(crate) fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}
