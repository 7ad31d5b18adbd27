//! Several searches, and what they agree upon.

use super::legs::{Legs, narrow};
use super::penalty::Room;
use super::picture::Picture;
use super::stream::Stream;
use super::task::{GroupingEffort, Work};

/// The heat of the searches by themselves, from first to last.
const APART: (f64, f64) = (0.45, 0.05);
/// The heat where they differ.
const TOGETHER: (f64, f64) = (0.0675, 0.02);
/// So many times the best is searched where the streams differ.
const ROUNDS: u32 = 2;
/// The part of all steps that such a round takes, in percent.
const ROUND: u32 = 20;
/// Fewer steps are not worth a thread.
const STEPS_A_THREAD: u32 = 10_000;

/// Circuits as they come out of it. Each stream searches by itself at first.
/// Where two of them join a point to the same others, it is most likely right;
/// so all go on from the best, only around the points in which they differ.
pub(super) fn improve(work: &Work<'_>, effort: &GroupingEffort) -> Vec<Vec<usize>> {
    let legs = Legs::new(work);
    let loads: Vec<Room> = work.loads.iter().map(|load| Room::of(*load)).collect();
    let limit = Room::of(work.limit);
    let count = u64::from(effort.streams.max(1));
    let mut streams: Vec<Stream<'_>> =
        (0..count).map(|stream| Stream::new(&legs, &loads, limit, stream)).collect();
    let steps = effort.steps.max(1);
    let together = if streams.len() < 2 { 0 } else { share(steps) };
    each(&mut streams, steps - ROUNDS * together, |stream, steps| {
        stream.search(steps, &[], APART);
    });
    for _ in 0..ROUNDS {
        let seeds = differing(&streams);
        if together == 0 || seeds.is_empty() {
            break;
        }
        let best = best(&streams).clone();
        each(&mut streams, together, |stream, steps| {
            stream.go_on_from(&best);
            stream.search(steps, &seeds, TOGETHER);
        });
    }
    best(&streams).groups()
}

fn share(steps: u32) -> u32 {
    (steps.div_euclid(100)) * ROUND
}

/// Does the same to every stream, each on a thread where it is worth one. They
/// know nothing of each other, so that the result is the same either way.
fn each(streams: &mut [Stream<'_>], steps: u32, search: impl Fn(&mut Stream<'_>, u32) + Sync) {
    let Some((first, others)) = streams.split_first_mut() else { return };
    if steps < STEPS_A_THREAD {
        search(first, steps);
        others.iter_mut().for_each(|stream| search(stream, steps));
        return;
    }
    std::thread::scope(|scope| {
        let search = &search;
        for stream in others {
            scope.spawn(move || search(stream, steps));
        }
        search(first, steps);
    });
}

/// The first of the best.
fn best<'a>(streams: &'a [Stream<'_>]) -> &'a Picture {
    let least = streams.iter().skip(1).fold(&streams[0], |least, stream| {
        if stream.best.weight < least.best.weight { stream } else { least }
    });
    &least.best
}

/// The points that do not stand between the same others in all streams.
fn differing(streams: &[Stream<'_>]) -> Vec<u32> {
    let Some((first, others)) = streams.split_first() else { return Vec::new() };
    let mut points: Vec<usize> =
        others.iter().flat_map(|other| first.best.differing(&other.best)).collect();
    points.sort_unstable();
    points.dedup();
    points.into_iter().map(narrow).collect()
}
