//! Circuits while they are being improved.

use super::task::{Load, Work};

/// No circuit.
pub(super) const NOWHERE: usize = usize::MAX;

/// Points on circuits, and those on none.
#[derive(Clone, Debug)]
pub(super) struct Circuits {
    /// For every circuit its points in order; a circuit may be empty.
    pub(super) groups: Vec<Vec<usize>>,
    /// For every circuit what is on it.
    pub(super) loads: Vec<Load>,
    /// For every end its circuit, or [`NOWHERE`].
    pub(super) of: Vec<usize>,
    /// For every end its place in its circuit.
    pub(super) place: Vec<usize>,
    /// What all circuits weigh.
    pub(super) weight: i64,
    /// Points on no circuit.
    pub(super) absent: Vec<usize>,
    /// Circuits that are no longer as they were.
    touched: Vec<usize>,
}

impl Circuits {
    /// No circuits yet.
    pub(super) fn first(work: &Work<'_>) -> Self {
        let count = work.points() + 1;
        Self {
            groups: Vec::new(),
            loads: Vec::new(),
            of: vec![NOWHERE; count],
            place: vec![0; count],
            weight: 0,
            absent: (1..count).collect(),
            touched: Vec::new(),
        }
    }

    /// Makes another state like this one, where this one was touched since they
    /// were alike; which side has changed does not matter.
    pub(super) fn settle(&mut self, other: &mut Self, keep: bool) {
        let mut touched = std::mem::take(&mut self.touched);
        let (from, to) = if keep { (&*self, &mut *other) } else { (&*other, &mut *self) };
        for group in &touched {
            if *group >= to.groups.len() {
                to.groups.resize_with(group + 1, Vec::new);
                to.loads.resize(group + 1, Load::default());
            }
            match from.groups.get(*group) {
                Some(points) => {
                    to.groups[*group].clone_from(points);
                    to.loads[*group] = from.loads[*group];
                    for (place, point) in points.iter().enumerate() {
                        (to.of[*point], to.place[*point]) = (*group, place);
                    }
                }
                None => {
                    to.groups[*group].clear();
                    to.loads[*group] = Load::default();
                }
            }
        }
        to.weight = from.weight;
        touched.clear();
        self.touched = touched;
    }

    fn touch(&mut self, group: usize) {
        if !self.touched.contains(&group) {
            self.touched.push(group);
        }
    }

    /// Notes the places from one on.
    fn note(&mut self, group: usize, from: usize) {
        for place in from..self.groups[group].len() {
            self.place[self.groups[group][place]] = place;
        }
    }

    /// Puts a point on a circuit, before what stands at a place.
    pub(super) fn put(&mut self, work: &Work<'_>, point: usize, group: usize, at: usize) {
        self.touch(group);
        self.groups[group].insert(at, point);
        self.of[point] = group;
        self.loads[group] = self.loads[group].and(work.loads[point]);
        self.note(group, at);
    }

    /// Begins a circuit with a point.
    pub(super) fn begin(&mut self, work: &Work<'_>, point: usize) {
        let empty = self.groups.iter().position(Vec::is_empty);
        let group = empty.unwrap_or_else(|| {
            self.groups.push(Vec::new());
            self.loads.push(Load::default());
            self.groups.len() - 1
        });
        self.put(work, point, group, 0);
        self.weight += work.group_weight(&[point]);
    }

    /// Takes a stretch of a circuit out.
    pub(super) fn take(&mut self, work: &Work<'_>, group: usize, from: usize, count: usize) {
        self.touch(group);
        self.weight -= work.group_weight(&self.groups[group]);
        let taken: Vec<usize> = self.groups[group].drain(from..from + count).collect();
        self.weight += work.group_weight(&self.groups[group]);
        for point in taken {
            self.of[point] = NOWHERE;
            self.loads[group] = self.loads[group].without(work.loads[point]);
            self.absent.push(point);
        }
        self.note(group, from);
    }
}
