//! What can be typed of the chosen parts of the building: names, lengths,
//! heights, directions.

use crate::plan::{
    Area, AreaEffect, Change, Edit, Joists, Level, LevelId, Opening, Plan, Room, Subject, Void,
    Wall,
};
use crate::session::Session;
use crate::session::ground::length;
use crate::session::state::Amount;
use crate::session::survey::reshape::{corner_moved, shifted};
use crate::units::{Angle, Mm, Point2};

impl Session {
    /// What something that is chosen could be asked for, in its own words.
    pub fn asks(&self, amount: Amount) -> Option<String> {
        let show = |length: Mm| self.sight.measure().show(length);
        let level = self.sight.level().and_then(|id| self.document.plan().levels.get(&id));
        match amount {
            Amount::Name => Some(match self.named()? {
                Subject::Room(id) => self.document.plan().rooms.get(&id)?.name.clone(),
                Subject::Area(id) => self.document.plan().areas.get(&id)?.name.clone(),
                Subject::Void(id) => self.document.plan().voids.get(&id)?.name.clone(),
                _ => level?.name.clone(),
            }),
            Amount::Ceiling => level.map(|level| show(level.height)),
            Amount::Floor => level.map(|level| show(level.floor)),
            _ if self.shown(amount).is_some() => self.shown(amount),
            _ => {
                let fits = self.selection.chosen().iter().any(|subject| amount.fits(*subject));
                fits.then(String::new)
            }
        }
    }

    /// What a typed name goes to: what is chosen, otherwise the level.
    fn named(&self) -> Option<Subject> {
        let chosen = self.selection.chosen().iter().copied().find(|subject| {
            matches!(subject, Subject::Room(_) | Subject::Area(_) | Subject::Void(_))
        });
        chosen.or(self.sight.level().map(Subject::Level))
    }

    /// Gives what is chosen another name.
    fn rename(&mut self, name: &str) {
        let name = name.trim().to_owned();
        let Some(subject) = self.named() else { return };
        let (plan, mut edits) = (self.document.plan(), Vec::<Edit>::new());
        let all = self.selection.chosen().iter().copied().chain([subject]);
        let same = |one: &Subject| std::mem::discriminant(one) == std::mem::discriminant(&subject);
        let all: std::collections::BTreeSet<Subject> = all.filter(same).collect();
        for subject in all {
            let name = name.clone();
            match subject {
                Subject::Room(id) => {
                    let room = plan.rooms.get(&id).cloned();
                    edits.extend(room.map(|room| Change::Put(id, Room { name, ..room }).into()));
                }
                Subject::Area(id) => {
                    let area = plan.areas.get(&id).cloned();
                    edits.extend(area.map(|a| Change::Put(id, Area { name, ..a }).into()));
                }
                Subject::Void(id) => {
                    let void = plan.voids.get(&id).cloned();
                    edits.extend(void.map(|void| Change::Put(id, Void { name, ..void }).into()));
                }
                Subject::Level(id) => {
                    let level = plan.levels.get(&id).cloned();
                    edits
                        .extend(level.map(|level| Change::Put(id, Level { name, ..level }).into()));
                }
                _ => {}
            }
        }
        self.edit(Edit::Many(edits));
    }

    /// Sets what was asked of the building; false where it is no question of
    /// the building.
    pub fn set_building(&mut self, amount: Amount, typed: &str) -> bool {
        if amount == Amount::Name {
            self.rename(typed);
            return true;
        }
        let parsed = match amount {
            Amount::Direction | Amount::Percent => {
                length::signed(typed).and_then(|value| Mm::from_f64(value * 1000.0).ok())
            }
            Amount::Along | Amount::Floor | Amount::Height => length::parse_signed(typed),
            _ => length::parse(typed),
        };
        let Some(value) = parsed else {
            self.said = format!("\"{typed}\" is none; type 3600, 3.6 m or 12'6\", an angle as 45");
            return true;
        };
        if matches!(amount, Amount::Ceiling | Amount::Floor) {
            self.set_level(amount, value);
            return true;
        }
        let mut edits: Vec<Edit> = Vec::new();
        let mut scratch = self.document.plan().clone();
        for subject in self.selection.chosen().clone() {
            match set_one(&scratch, subject, amount, value) {
                Ok(Some(edit)) => {
                    if let Err(error) = scratch.apply(edit.clone()) {
                        self.said = error.to_string();
                        return true;
                    }
                    edits.push(edit);
                }
                Ok(None) => {}
                Err(why) => {
                    self.said = why;
                    return true;
                }
            }
        }
        if edits.is_empty() {
            return false;
        }
        let walls = amount == Amount::Thick;
        if walls {
            self.with_faces(edits);
        } else {
            self.edit(Edit::Many(edits));
        }
        true
    }

    /// The heights of the level that is shown. What lies above its ceiling
    /// goes along with it.
    fn set_level(&mut self, amount: Amount, value: Mm) {
        let Some((id, level)) = self
            .sight
            .level()
            .and_then(|id| Some((id, self.document.plan().levels.get(&id)?.clone())))
        else {
            return;
        };
        let old = level.ceiling();
        let level = match amount {
            Amount::Ceiling => Level { height: value, ..level },
            _ => Level { floor: value, ..level },
        };
        let rise = level.ceiling() - old;
        let mut edits: Vec<Edit> = Vec::new();
        let higher = |(_, one): &(&LevelId, &Level)| one.floor >= old;
        for void in self.document.plan().voids.iter().filter(|(_, void)| void.z >= old) {
            edits.push(Change::Put(*void.0, Void { z: void.1.z + rise, ..void.1.clone() }).into());
        }
        for (other, one) in
            self.document.plan().levels.iter().filter(higher).filter(|(other, _)| **other != id)
        {
            edits
                .push(Change::Put(*other, Level { floor: one.floor + rise, ..one.clone() }).into());
        }
        edits.push(Change::Put(id, level).into());
        self.edit(Edit::Many(edits));
    }
}

/// What setting an amount of one thing takes. None: it is no question of it.
fn set_one(
    plan: &Plan,
    subject: Subject,
    amount: Amount,
    value: Mm,
) -> Result<Option<Edit>, String> {
    Ok(match (subject, amount) {
        (Subject::Wall(id), Amount::Along) => Some(shifted(plan, id, value.to_f64())?),
        (Subject::Wall(id), Amount::Thick) => plan
            .walls
            .get(&id)
            .map(|wall| Change::Put(id, Wall { thickness: value, ..wall.clone() }).into()),
        (Subject::Wall(id), Amount::Width) => {
            let wall = plan.walls.get(&id).ok_or("the wall is gone")?;
            let (x, y) = wall.direction();
            let by = |part: f64| Mm::from_f64(part * value.to_f64()).unwrap_or(Mm::ZERO);
            let to = Point2 { x: wall.a.x + by(x), y: wall.a.y + by(y) };
            Some(corner_moved(plan, wall.level, wall.b, to)?)
        }
        (Subject::Opening(id), amount) => {
            let Some(old) = plan.openings.get(&id) else { return Ok(None) };
            let length = plan.walls.get(&old.wall).map_or(0.0, Wall::length);
            let new = match amount {
                Amount::Along => Opening { from: value, ..old.clone() },
                Amount::Width => Opening { width: value, ..old.clone() },
                Amount::Height => Opening { sill: value, ..old.clone() },
                Amount::Head => Opening { head: value, ..old.clone() },
                _ => return Ok(None),
            };
            if new.from < Mm::ZERO || (new.from + new.width).to_f64() > length + 0.5 {
                return Err("it would not fit into its wall".to_owned());
            }
            if new.sill >= new.head {
                return Err("its upper edge must be above its lower one".to_owned());
            }
            Some(Change::Put(id, new).into())
        }
        (Subject::Void(id), amount) => {
            let Some(old) = plan.voids.get(&id) else { return Ok(None) };
            let joists = old.joists;
            let new = match amount {
                Amount::Direction => {
                    let turn = i32::try_from(value.get()).map_err(|_| "that is no angle")?;
                    Void { direction: Angle::from_millidegrees(turn), ..old.clone() }
                }
                Amount::Spacing => {
                    let joists = joists.ok_or("that void has no joists")?;
                    let joists = Some(Joists { spacing: value, ..joists });
                    Void { joists, ..old.clone() }
                }
                Amount::Height => Void { z: value, ..old.clone() },
                Amount::Thick => Void { insulation: value, ..old.clone() },
                _ => return Ok(None),
            };
            Some(Change::Put(id, new).into())
        }
        (Subject::Area(id), amount) if amount != Amount::Percent => {
            crate::session::survey::wall_areas::set(plan, id, amount, value)?
        }
        (Subject::Area(id), Amount::Percent) => {
            let area = plan.areas.get(&id).ok_or("the area is gone")?.clone();
            let part =
                u16::try_from(value.get().div_euclid(1000)).map_err(|_| "from 0 percent up")?;
            let effect = AreaEffect::Percent(part);
            Some(Change::Put(id, Area { effect, ..area }).into())
        }
        _ => None,
    })
}

impl Amount {
    /// Whether it is a question of such a thing.
    pub(crate) const fn fits(self, subject: Subject) -> bool {
        match subject {
            Subject::Point(_) | Subject::Board(_) => matches!(self, Self::Along | Self::Height),
            Subject::Wall(_) => matches!(self, Self::Along | Self::Width | Self::Thick),
            Subject::Opening(_) => {
                matches!(self, Self::Along | Self::Width | Self::Height | Self::Head)
            }
            Subject::Void(_) => {
                matches!(self, Self::Direction | Self::Spacing | Self::Height | Self::Thick)
            }
            Subject::Area(_) => {
                matches!(
                    self,
                    Self::Percent | Self::Along | Self::Width | Self::Height | Self::Head
                )
            }
            _ => false,
        }
    }
}
