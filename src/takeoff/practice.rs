//! The habits by which materials and work are counted. They are nobody's rule
//! and no standard's figures: common practice, kept together here so that they
//! can be found and argued with.

use crate::plan::{Access, Cable, Family, Labour, PointKind};
use crate::units::{Csa, Mm};

/// Beside what is simply there in the drawing.
pub(super) const COUNTED: &str = "counted in the drawing";
/// Beside what follows from a habit in this file.
pub(super) const PRACTICE: &str = "common practice";

/// From clip to clip.
pub(super) struct ClipSpacing {
    /// For cables up to this size.
    up_to: Csa,
    /// Where the cable runs level, mm.
    pub(super) level: Mm,
    /// Where it runs upright, mm.
    pub(super) upright: Mm,
}

/// Clip spacings for flat sheathed cable by its larger side: 10 to 15 mm wide
/// up to 2.5 mm², 16 to 20 mm up to 10 mm², wider beyond.
const CLIPS: [ClipSpacing; 3] = [
    ClipSpacing { up_to: Csa::from_hundredths(250), level: Mm::new(300), upright: Mm::new(400) },
    ClipSpacing { up_to: Csa::from_hundredths(1000), level: Mm::new(350), upright: Mm::new(450) },
    ClipSpacing {
        up_to: Csa::from_hundredths(u32::MAX),
        level: Mm::new(400),
        upright: Mm::new(550),
    },
];

/// From clip to clip for a cable.
pub(super) fn clip_spacing(cable: Cable) -> &'static ClipSpacing {
    CLIPS.iter().find(|row| cable.size <= row.up_to).unwrap_or(&CLIPS[CLIPS.len() - 1])
}

/// Depths of boxes let into masonry, mm.
pub(super) const MASONRY_DEPTHS: [u32; 3] = [25, 35, 47];
/// Depths of boxes set into the lining of a hollow wall, mm.
pub(super) const HOLLOW_DEPTHS: [u32; 2] = [35, 47];
/// Single plates no further apart than this, middle to middle, share a box of
/// two gangs, mm: a plate is 75 to 90 wide.
pub(super) const SIDE_BY_SIDE: Mm = Mm::new(95);
/// A box takes this many cables; each further two need the next depth.
const CABLES_IN_BOX: u32 = 2;

/// The depth of box that a kind of point with so many cables needs, out of
/// those there are; the deepest where none is deep enough.
pub(super) fn box_depth(kind: PointKind, cables: u32, depths: &[u32]) -> u32 {
    let least = match (kind, kind.family()) {
        (PointKind::Dimmer, _) | (_, Family::Sockets) => 35,
        (_, Family::Fixed) => 47,
        _ => 25,
    };
    let deeper = cables.saturating_sub(CABLES_IN_BOX).div_ceil(2);
    let start = depths.iter().position(|depth| *depth >= least).unwrap_or(depths.len() - 1);
    let at = start.saturating_add(usize::try_from(deeper).unwrap_or(usize::MAX));
    depths[at.min(depths.len() - 1)]
}

/// Where no person gets in, a board is lifted at least this often along the
/// joists to pass a cable on, mm.
pub(super) const BOARD_EVERY: Mm = Mm::new(2000);
/// Across the joists a cable follows one board, which is about so long, mm.
pub(super) const BOARD_LENGTH: Mm = Mm::new(2400);

/// Minutes for one, or for one metre, under average conditions.
pub(super) struct Rate {
    /// The task.
    pub(super) code: &'static str,
    /// What it is, in words.
    pub(super) name: &'static str,
    /// Minutes for one, or for one metre.
    pub(super) minutes: u32,
}

const fn rate(code: &'static str, name: &'static str, minutes: u32) -> Rate {
    Rate { code, name, minutes }
}

/// Every task; none begins as the code of a material does, so that neither is
/// priced as the other. The minutes are round figures to begin with: set your own in
/// the price book.
pub(super) const RATES: [Rate; 15] = [
    rate("point_first_fix", "set box and bring in cables, by point", 12),
    rate("point_second_fix", "connect and fix accessory, by point", 12),
    rate("appliance", "connect fixed appliance", 30),
    rate("pull", "run, clip and draw in cable, by metre", 2),
    rate("chase_masonry", "cut chase in masonry, by metre", 20),
    rate("chase_concrete", "cut chase in concrete, by metre", 45),
    rate("surface", "fix trunking on the surface, by metre", 8),
    rate("trench", "dig and fill trench, by metre", 40),
    rate("lift_board", "lift and refix floorboard", 15),
    rate("hole_joist", "drill joist", 3),
    rate("hole_plate", "drill plate or way through a wall's end", 6),
    rate("fit_board", "fix distribution board", 120),
    rate("way", "connect circuit at the board", 15),
    rate("test_circuit", "test circuit, dead and live", 20),
    rate("test_point", "test point", 3),
];

/// Thousandths added to pulling cable in a void, by how one gets at it.
pub(super) const fn access_permille(access: Access, labour: &Labour) -> u16 {
    match access {
        Access::WalkIn => 0,
        Access::Crawl => labour.crawl_permille,
        Access::Closed => labour.closed_permille,
    }
}
