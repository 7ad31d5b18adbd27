//! The columns and rows of one wall, searched on their own.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::super::{Key, Modes, Space, Step, Stop};
use crate::units::{Mm, Point3};

/// The columns and rows of a wall as a grid.
#[derive(Clone, Debug)]
pub(super) struct WallGraph {
    pub(super) wall: usize,
    columns: Vec<i64>,
    heights: Vec<i64>,
    step: Step,
    /// From each place upwards; [`Key::NONE`] where blocked.
    up: Vec<Key>,
    /// From each place to the next column.
    side: Vec<Key>,
    bend: Key,
    /// Whether ways from void to void may go sideways.
    sideways_through: bool,
}

/// The cheapest ways from one place of a wall, by the direction of arrival.
#[derive(Clone, Debug)]
pub(super) struct WallWays {
    best: Vec<[Key; 2]>,
    before: Vec<[u32; 2]>,
}

const UPRIGHT: usize = 0;
const SIDEWAYS: usize = 1;
const START: u32 = u32::MAX;

impl WallGraph {
    /// The grid of a wall with the places of some ends on it.
    pub(super) fn of(space: &Space, modes: Modes, wall: usize, ends: &[(i64, i64)]) -> Self {
        let field = &space.walls[wall];
        let mut columns: Vec<i64> = field.columns.iter().map(|column| column.along).collect();
        let mut heights = vec![field.floor, field.ceiling];
        heights.extend(&field.rows);
        for (along, z) in ends {
            columns.push(*along);
            heights.push(*z);
        }
        heights.retain(|z| field.floor <= *z && *z <= field.ceiling);
        for lines in [&mut columns, &mut heights] {
            lines.sort_unstable();
            lines.dedup();
        }
        let (step, density) = space.sideways(wall, modes);
        let count = columns.len() * heights.len();
        let (mut up, mut side) = (vec![Key::NONE; count], vec![Key::NONE; count]);
        for (column, &along) in columns.iter().enumerate() {
            for (row, &z) in heights.iter().enumerate() {
                let node = column * heights.len() + row;
                if let Some(&next) = heights.get(row + 1)
                    && field.upright_free(along, z, next)
                {
                    up[node] = Key::run(next - z, 100);
                }
                if let Some(&next) = columns.get(column + 1)
                    && modes.sideways()
                    && field.rows.contains(&z)
                    && field.sideways_free(z, along, next)
                {
                    side[node] = Key::run(next - along, density);
                }
            }
        }
        let bend = Key::new(space.tariff.bend, 0);
        let sideways_through = space.sideways_through;
        Self { wall, columns, heights, step, up, side, bend, sideways_through }
    }

    /// The index of a place. None where the grid has none.
    pub(super) fn node(&self, along: i64, z: i64) -> Option<usize> {
        let column = self.columns.binary_search(&along).ok()?;
        let row = self.heights.binary_search(&z).ok()?;
        Some(column * self.heights.len() + row)
    }

    /// The cheapest ways from a place: from an end in any direction, from a
    /// void upright.
    pub(super) fn ways(&self, start: usize, from_void: bool) -> WallWays {
        let mut ways = WallWays {
            best: vec![[Key::NONE; 2]; self.up.len()],
            before: vec![[START; 2]; self.up.len()],
        };
        let mut queue = BinaryHeap::new();
        ways.best[start][UPRIGHT] = Key::ZERO;
        queue.push(Reverse((Key::ZERO, start, UPRIGHT)));
        if !from_void {
            ways.best[start][SIDEWAYS] = Key::ZERO;
            queue.push(Reverse((Key::ZERO, start, SIDEWAYS)));
        }
        while let Some(Reverse((key, node, axis))) = queue.pop() {
            if key > ways.best[node][axis] {
                continue;
            }
            for (next, next_axis, step) in self.moves(node) {
                if from_void && next_axis == SIDEWAYS && !self.sideways_through {
                    continue;
                }
                let turn = if axis == next_axis { Key::ZERO } else { self.bend };
                let come = key.then(step).then(turn);
                if come < ways.best[next][next_axis] {
                    ways.best[next][next_axis] = come;
                    ways.before[next][next_axis] = u32::try_from(node * 2 + axis).unwrap_or(START);
                    queue.push(Reverse((come, next, next_axis)));
                }
            }
        }
        ways
    }

    fn moves(&self, node: usize) -> impl Iterator<Item = (usize, usize, Key)> {
        let high = self.heights.len();
        let down = !node.is_multiple_of(high);
        let back = node >= high;
        let moves = [
            (Some(node + 1), UPRIGHT, self.up[node]),
            (down.then(|| node - 1), UPRIGHT, if down { self.up[node - 1] } else { Key::NONE }),
            (Some(node + high), SIDEWAYS, self.side[node]),
            (
                back.then(|| node - high),
                SIDEWAYS,
                if back { self.side[node - high] } else { Key::NONE },
            ),
        ];
        moves
            .into_iter()
            .filter(|made| made.2.is_way())
            .filter_map(|(to, axis, key)| to.map(|to| (to, axis, key)))
    }

    /// How far apart two neighbours of the grid are.
    fn apart(&self, one: usize, other: usize) -> i64 {
        let high = self.heights.len();
        let along = |node: usize| self.columns[node.div_euclid(high)];
        let z = |node: usize| self.heights[node % high];
        (along(one) - along(other)).abs() + (z(one) - z(other)).abs()
    }

    fn place(&self, space: &Space, node: usize) -> Point3 {
        let (column, row) = (node.div_euclid(self.heights.len()), node % self.heights.len());
        let page = space.walls[self.wall].page(self.columns[column]);
        page.at_height(Mm::new(self.heights[row]))
    }

    /// The stops of the cheapest way to a place, the start first, arriving
    /// upright if asked.
    pub(super) fn back_trace(
        &self,
        space: &Space,
        ways: &WallWays,
        to: usize,
        upright: bool,
    ) -> Vec<Stop> {
        let mut axis = if upright || ways.best[to][UPRIGHT] <= ways.best[to][SIDEWAYS] {
            UPRIGHT
        } else {
            SIDEWAYS
        };
        let mut node = to;
        let stop = |node: usize, length: i64| Stop {
            place: self.place(space, node),
            step: self.step,
            length,
        };
        let mut back_trace = Vec::new();
        while ways.before[node][axis] != START {
            let before = ways.before[node][axis] as usize;
            let length = self.apart(node, before.div_euclid(2));
            back_trace.push(stop(node, length));
            (node, axis) = (before.div_euclid(2), before % 2);
        }
        back_trace.push(stop(node, 0));
        back_trace.reverse();
        back_trace
    }
}

impl WallWays {
    /// Arriving in any direction.
    pub(super) fn key(&self, node: usize) -> Key {
        self.best[node][UPRIGHT].min(self.best[node][SIDEWAYS])
    }

    /// Arriving upright, to go on into a void.
    pub(super) fn upright(&self, node: usize) -> Key {
        self.best[node][UPRIGHT]
    }
}
