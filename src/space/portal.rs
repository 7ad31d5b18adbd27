//! Where the columns of walls reach voids.

use std::collections::BTreeSet;

use super::{Modes, Rect, Space, Step, Terminal};
use crate::units::Point2;

/// A column that reaches a void.
#[derive(Clone, Copy, Debug)]
pub(super) struct Portal {
    /// The wall, by its index.
    pub(super) wall: usize,
    /// How far along it the column is.
    pub(super) along: i64,
    /// Whether only legs that end on the wall may use it.
    pub(super) own: bool,
    /// Whether it leaves by the top of the wall.
    pub(super) top: bool,
    /// The void, by its index.
    pub(super) void: usize,
    /// The place in the void's frame.
    pub(super) at: (i64, i64),
    /// The place on the page.
    pub(super) page: Point2,
}

impl Space {
    /// Every column of a wall that reaches a void which these modes open.
    pub(super) fn portals(&self, wall: usize, modes: Modes) -> Vec<Portal> {
        let field = &self.walls[wall];
        let mut portals = Vec::new();
        for (top, voids) in [(true, &field.above), (false, &field.below)] {
            let edge = if top { field.ceiling } else { field.floor };
            let inside = if top { edge - 1 } else { edge + 1 };
            for &void in voids {
                if !modes.opens(self.voids[void].kind, top) {
                    continue;
                }
                for column in &field.columns {
                    if !field.upright_free(column.along, edge.min(inside), edge.max(inside)) {
                        continue;
                    }
                    let page = field.page(column.along);
                    let there = self.voids[void].frame.frame_from_page(page);
                    if let Some(at) = self.settle_in(void, there) {
                        let (along, own) = (column.along, !column.through);
                        portals.push(Portal { wall, along, own, top, void, at, page });
                    }
                }
            }
        }
        portals
    }

    /// Whether any of the ends is on a wall that reaches no void by these modes.
    /// Then legs of its circuit may turn from wall to wall.
    #[must_use]
    pub fn is_stuck(&self, modes: Modes, ends: &[Terminal]) -> bool {
        let walls: BTreeSet<usize> = ends.iter().filter_map(Terminal::wall).collect();
        walls.into_iter().any(|wall| self.portals(wall, modes).is_empty())
    }

    /// A place of a void's frame, moved in from just outside where rounding
    /// put it; None where the void is not.
    pub(super) fn settle_in(&self, void: usize, at: (i64, i64)) -> Option<(i64, i64)> {
        let (u, v) = self.voids[void].settle(at);
        const ROUNDING: i64 = 5;
        let moved = |r: &Rect| (u.clamp(r.u0, r.u1), v.clamp(r.v0, r.v1));
        let kept_out = |(u, v): (i64, i64)| {
            self.voids[void]
                .keep_outs
                .iter()
                .any(|area| area.blocks_upright(u, v, v + 1) && area.v0 < v)
        };
        self.voids[void]
            .regions
            .iter()
            .map(moved)
            .filter(|at| !kept_out(*at))
            .filter(|at| (at.0 - u).abs() <= ROUNDING && (at.1 - v).abs() <= ROUNDING)
            .min_by_key(|at| ((at.0 - u).abs() + (at.1 - v).abs(), *at))
    }

    /// Whether anything can lead away from an end, whichever way is open: not
    /// from inside an opening, nor from a place on a ceiling, a floor or a post
    /// that no void covers.
    #[must_use]
    pub fn leads_out(&self, end: &Terminal) -> bool {
        match end {
            Terminal::Wall { wall, along, z } => {
                let inside = |rect: &Rect| rect.blocks_upright(*along, *z, *z);
                !self.walls[*wall].blocked.iter().any(inside)
            }
            Terminal::Upright { place, voids, .. } => voids.iter().any(|void| {
                let frame = self.voids[*void].frame;
                self.settle_in(*void, frame.frame_from_page(place.on_floor())).is_some()
            }),
            Terminal::InVoid { .. } => true,
        }
    }

    /// What a sideways move in or on a wall is, and what a millimetre costs.
    pub(super) fn sideways(&self, wall: usize, modes: Modes) -> (Step, i64) {
        let inside = self.walls[wall].sideways;
        if modes.surface && (!modes.in_wall || self.tariff.surface < inside) {
            (Step::Face(wall), self.tariff.surface)
        } else {
            (Step::Wall(wall), inside)
        }
    }
}
