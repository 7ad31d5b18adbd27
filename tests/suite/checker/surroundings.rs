//! A segment says rightly what it runs through and how much insulation lies
//! around it.

use wirewend::plan::{VoidId, VoidKind, WallBuild};
use wirewend::runs::{Segment, Surrounding};
use wirewend::units::Mm;

use super::complaint::{Code, Complaints};
use super::medium::Medium;
use super::walk::Walk;

pub(crate) fn judge(walk: &Walk, book: &mut Complaints) {
    for (at, segment, medium) in walk.pieces() {
        let Some(may) = surroundings(walk, medium) else { continue };
        if !may.contains(&segment.through) {
            let text = format!("says {:?}, may be {may:?}", segment.through);
            book.segment(Code::Surrounding, walk.leg, at, text);
        }
        if !insulation_fits(walk, segment, medium) {
            let text = format!("says {} in {medium:?}", segment.insulation);
            book.segment(Code::Insulation, walk.leg, at, text);
        }
    }
}

/// What a segment in this medium may run through.
fn surroundings(walk: &Walk, medium: Medium) -> Option<Vec<Surrounding>> {
    use Surrounding::{Cavity, Chase, Ground, HollowWall, Plate, Post, Surface};
    Some(match medium {
        Medium::Wall(id) => match walk.plan.walls.get(&id)?.build {
            WallBuild::Stud | WallBuild::BrickVeneer | WallBuild::LathAndPlaster => {
                vec![HollowWall, Surface]
            }
            WallBuild::SolidMasonry | WallBuild::Concrete => vec![Chase, Surface],
            WallBuild::CavityMasonry | WallBuild::DoubleBrick => vec![Cavity, Chase, Surface],
            // That nothing runs there at all is said elsewhere.
            WallBuild::Screen => return None,
        },
        Medium::Void(id) => vec![of_void(walk, id)?],
        Medium::Plate(..) | Medium::Passage(_) => vec![Plate],
        Medium::Riser(one, other) => vec![Plate, of_void(walk, one)?, of_void(walk, other)?],
        Medium::Post => vec![Post, Ground],
        Medium::Concrete | Medium::BadPlate | Medium::Unknown => return None,
    })
}

fn of_void(walk: &Walk, id: VoidId) -> Option<Surrounding> {
    Some(match walk.plan.voids.get(&id)?.kind {
        VoidKind::RoofSpace => Surrounding::RoofSpace,
        VoidKind::BetweenFloors => Surrounding::BetweenFloors,
        VoidKind::Subfloor => Surrounding::Subfloor,
        VoidKind::Ground => Surrounding::Ground,
    })
}

/// In a void its own thickness; in an insulated wall some, in others none; on
/// a face or a post none. Through a plate either side's may be said.
fn insulation_fits(walk: &Walk, segment: &Segment, medium: Medium) -> bool {
    let said = segment.insulation;
    let of_void = |id: VoidId| walk.plan.voids.get(&id).map_or(Mm::ZERO, |void| void.insulation);
    let filled = |id| walk.plan.walls.get(&id).is_some_and(|wall| wall.insulated);
    match medium {
        Medium::Wall(_) if segment.through == Surrounding::Surface => said == Mm::ZERO,
        Medium::Wall(id) => (said > Mm::ZERO) == filled(id) && said >= Mm::ZERO,
        Medium::Void(id) => said == of_void(id),
        Medium::Plate(wall, void) => {
            said == Mm::ZERO || said == of_void(void) || (said > Mm::ZERO && filled(wall))
        }
        Medium::Passage(void) => said == Mm::ZERO || said == of_void(void),
        Medium::Riser(one, other) => [Mm::ZERO, of_void(one), of_void(other)].contains(&said),
        _ => said == Mm::ZERO,
    }
}
