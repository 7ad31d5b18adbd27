//! Levels that are stacked, by hand.

use crate::plan::{Change, Level, LevelId, Subject};
use crate::session::Session;
use crate::session::ground::storeys::{HEIGHT, add_above, add_below, add_void, removed};
use crate::units::Mm;

impl Session {
    /// A level more, over the highest or under the lowest, and goes there.
    pub fn add_level(&mut self, above: bool) {
        let floors = self.document.plan().levels.iter().map(|(id, level)| (level.floor, *id));
        let end = if above { floors.max() } else { floors.min() };
        let Some((_, end)) = end else {
            let level = Level {
                name: "Ground floor".to_owned(),
                floor: Mm::ZERO,
                height: HEIGHT,
                above: Vec::new(),
                below: Vec::new(),
            };
            self.edit(Change::Put(LevelId(self.document.plan().fresh_id()), level).into());
            return;
        };
        let add = if above { add_above } else { add_below };
        if let Some((id, edit)) = add(self.document.plan(), end)
            && self.edit(edit)
        {
            self.selection.clear();
            self.go_to_level(id);
            self.said = "E names it; the level below shows through".to_owned();
        }
    }

    /// Takes the level that is shown away with all that is on it.
    pub fn remove_level(&mut self) {
        let Some(id) = self.sight.level() else { return };
        if self.document.plan().levels.len() < 2 {
            self.said = "a plan needs one level".to_owned();
            return;
        }
        let name =
            self.document.plan().levels.get(&id).map_or(String::new(), |level| level.name.clone());
        if self.edit(removed(self.document.plan(), id)) {
            self.said = format!("{name} is gone with all that was on it; undo brings it back");
        }
    }

    /// A void over or under the level, chosen so that it can be changed.
    pub fn add_void(&mut self, overhead: bool) {
        let Some(level) = self.sight.level() else { return };
        if let Some((id, edit)) = add_void(self.document.plan(), level, overhead)
            && self.edit(edit)
        {
            self.selection.choose([Subject::Void(id)]);
        }
    }

    /// Chooses a void over or under the level, the next one where there are several.
    pub fn choose_void(&mut self, overhead: bool) {
        let level = self.sight.level().and_then(|id| self.document.plan().levels.get(&id));
        let side = level.map(|level| if overhead { &level.above } else { &level.below });
        let side = side.cloned().unwrap_or_default();
        if side.is_empty() {
            self.said = "concrete there: add a void first (/ and \"add a void\")".to_owned();
            return;
        }
        // The next one where there are several.
        let now = side.iter().position(|id| self.selection.chosen().contains(&Subject::Void(*id)));
        let next = side[now.map_or(0, |now| (now + 1) % side.len())];
        self.selection.choose([Subject::Void(next)]);
        self.sight.open_step(crate::session::state::Step::Survey);
    }

    /// The chosen void covers the whole level again.
    pub fn no_outline(&mut self) {
        let void = self.selection.chosen().iter().find_map(|subject| match subject {
            Subject::Void(id) => Some((*id, self.document.plan().voids.get(id)?.clone())),
            _ => None,
        });
        match void {
            Some((id, void)) => {
                self.edit(Change::Put(id, crate::plan::Void { outline: None, ..void }).into());
            }
            None => self.said = "choose a void first (Shift+V)".to_owned(),
        }
    }
}
