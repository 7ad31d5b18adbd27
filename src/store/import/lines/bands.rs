//! Pairs of parallel lines, as bands of wall.

use std::collections::{BTreeMap, BTreeSet};

use super::Line;

/// Lines that differ by no more than this are parallel, radians (0.5°).
const PARALLEL: f64 = 0.0087;
/// Lines no farther beside each other than this are one, mm.
const BESIDE: f64 = 3.0;
/// Ends of one line no farther apart than this leave no gap, mm.
const TOUCH: f64 = 10.0;
/// A shorter band is the residue of a corner, mm.
const LENGTH_MIN: f64 = 20.0;
/// A space so many times as wide as the next between parallel lines parts two
/// walls; a narrower one is a cavity or a lining within one wall.
const PARTS: f64 = 1.5;

/// So many lines side by side are looked at, again at every end of one. A
/// house takes some ten thousand.
pub(in crate::store::import) const LOOKS_MAX: usize = 5_000_000;
/// The most bands, each held against every other: an office of 2,000 rooms has
/// some six thousand.
pub(in crate::store::import) const BANDS_MAX: usize = 10_000;

/// Why lines are not taken for walls.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::store::import) enum TooMuch {
    /// So many lie over each other as in no building.
    Looks,
    /// More than [`BANDS_MAX`] bands.
    Bands,
}

/// What makes two lines a wall.
#[derive(Clone, Copy, Debug)]
pub(in crate::store::import) struct Limits {
    /// The least and the most thickness, mm.
    pub(in crate::store::import) thickness: [f64; 2],
}

impl Default for Limits {
    /// From a thin partition to a thick outer wall: *common practice*.
    fn default() -> Self {
        Self { thickness: [50.0, 500.0] }
    }
}

/// A straight stretch of wall by its centre line, mm.
#[derive(Clone, Copy, Debug)]
pub(in crate::store::import) struct Band {
    pub(in crate::store::import) line: Line,
    pub(in crate::store::import) thickness: f64,
}

impl Band {
    /// Whether a place lies within it, grown by a margin.
    pub(super) fn holds(&self, place: [f64; 2], margin: f64) -> bool {
        // A corner of it lies no more than half its width to both sides.
        if !self.line.is_near(place, self.thickness / 2.0 + 2.0 * margin) {
            return false;
        }
        let [along, off] = self.line.locate(place);
        off.abs() <= self.thickness / 2.0 + margin
            && along >= -margin
            && along <= self.line.length() + margin
    }
}

/// Lines in line with each other: how far they lie to the left of the origin
/// and from where to where they reach.
#[derive(Debug)]
struct Track {
    off: f64,
    spans: Vec<[f64; 2]>,
}

/// Every stretch along which lines run beside each other as the faces of a
/// wall do.
pub(in crate::store::import) fn bands(
    lines: &[Line],
    limits: &Limits,
) -> Result<Vec<Band>, TooMuch> {
    let (mut bands, mut looks) = (Vec::new(), LOOKS_MAX);
    for ([ux, uy], group) in by_direction(lines) {
        let tracks = tracks(&group, [ux, uy]);
        for ([low, high], [from, to]) in
            stretches(&tracks, limits, &mut looks).ok_or(TooMuch::Looks)?
        {
            let (low, high) = (tracks[low].off, tracks[high].off);
            let middle = f64::midpoint(low, high);
            let at = |along: f64| [along * ux - middle * uy, along * uy + middle * ux];
            bands.push(Band { line: Line { a: at(from), b: at(to) }, thickness: high - low });
        }
    }
    if bands.len() > BANDS_MAX {
        return Err(TooMuch::Bands);
    }
    Ok(without_ends(bands))
}

/// Lines of one direction each, with the direction of the longest.
fn by_direction(lines: &[Line]) -> Vec<([f64; 2], Vec<Line>)> {
    let half_turn = std::f64::consts::PI;
    let angle = |line: &Line| {
        let [x, y] = line.direction();
        let angle = libm::atan2(y, x).rem_euclid(half_turn);
        if angle > half_turn - PARALLEL { angle - half_turn } else { angle }
    };
    let mut sorted: Vec<(f64, Line)> =
        lines.iter().filter(|line| line.length() >= 1.0).map(|line| (angle(line), *line)).collect();
    sorted.sort_by(|one, two| one.0.total_cmp(&two.0));
    let mut groups: Vec<(f64, Vec<Line>)> = Vec::new();
    for (angle, line) in sorted {
        match groups.last_mut() {
            Some((first, group)) if angle - *first <= 2.0 * PARALLEL => group.push(line),
            _ => groups.push((angle, vec![line])),
        }
    }
    let of = |(_, group): (f64, Vec<Line>)| {
        let longest = group.iter().max_by(|one, two| one.length().total_cmp(&two.length()))?;
        let [x, y] = longest.direction();
        let sign = if x < -1e-9 || (x.abs() <= 1e-9 && y < 0.0) { -1.0 } else { 1.0 };
        Some(([sign * x, sign * y], group))
    };
    groups.into_iter().filter_map(of).collect()
}

fn tracks(group: &[Line], [ux, uy]: [f64; 2]) -> Vec<Track> {
    let mut placed: Vec<(f64, [f64; 2])> = group
        .iter()
        .map(|line| {
            let along = [line.a, line.b].map(|[x, y]| x * ux + y * uy);
            let off = [line.a, line.b].map(|[x, y]| y * ux - x * uy);
            let span = [along[0].min(along[1]), along[0].max(along[1])];
            (f64::midpoint(off[0], off[1]), span)
        })
        .collect();
    placed.sort_by(|one, two| one.0.total_cmp(&two.0));
    let mut tracks: Vec<Track> = Vec::new();
    for (off, span) in placed {
        match tracks.last_mut() {
            Some(track) if off - track.off <= BESIDE => track.spans.push(span),
            _ => tracks.push(Track { off, spans: vec![span] }),
        }
    }
    for track in &mut tracks {
        track.spans.sort_by(|one, two| one[0].total_cmp(&two[0]));
        let mut joined: Vec<[f64; 2]> = Vec::new();
        for span in &track.spans {
            match joined.last_mut() {
                Some(last) if span[0] <= last[1] + TOUCH => last[1] = last[1].max(span[1]),
                _ => joined.push(*span),
            }
        }
        track.spans = joined;
    }
    tracks
}

/// From end to end of any line: which tracks are there side by side, and
/// which of them are two faces of a wall.
fn stretches(
    tracks: &[Track],
    limits: &Limits,
    looks: &mut usize,
) -> Option<Vec<([usize; 2], [f64; 2])>> {
    let mut events: Vec<(f64, bool, usize)> = Vec::new();
    for (index, track) in tracks.iter().enumerate() {
        for [from, to] in &track.spans {
            events.push((*from, true, index));
            events.push((*to, false, index));
        }
    }
    events.sort_by(|one, two| {
        one.0.total_cmp(&two.0).then(one.1.cmp(&two.1)).then(one.2.cmp(&two.2))
    });
    let mut here: BTreeSet<usize> = BTreeSet::new();
    let mut open: BTreeMap<[usize; 2], f64> = BTreeMap::new();
    let mut done = Vec::new();
    for (at, (along, begins, index)) in events.iter().enumerate() {
        if *begins {
            here.insert(*index)
        } else {
            here.remove(index)
        };
        let next = events.get(at + 1).map(|(next, _, _)| *next);
        if next.is_some_and(|next| next - along < 0.5) {
            continue;
        }
        let faces = faces(tracks, &here, limits, looks)?;
        let ended: Vec<[usize; 2]> =
            open.keys().filter(|pair| !faces.contains(*pair)).copied().collect();
        for pair in ended {
            let from = open.remove(&pair).unwrap_or(*along);
            done.push((pair, [from, *along]));
        }
        for pair in faces {
            open.entry(pair).or_insert(*along);
        }
    }
    done.retain(|(_, [from, to])| to - from >= LENGTH_MIN);
    Some(done)
}

/// Which of the tracks side by side are the outer faces of a wall.
fn faces(
    tracks: &[Track],
    here: &BTreeSet<usize>,
    limits: &Limits,
    looks: &mut usize,
) -> Option<BTreeSet<[usize; 2]>> {
    let mut found = BTreeSet::new();
    let mut chain: Vec<usize> = Vec::new();
    for index in here {
        let wide = |last: &usize| tracks[*index].off - tracks[*last].off > limits.thickness[1];
        if chain.last().is_some_and(wide) {
            split(tracks, &chain, limits, &mut found, looks)?;
            chain.clear();
        }
        chain.push(*index);
    }
    split(tracks, &chain, limits, &mut found, looks)?;
    Some(found)
}

/// One wall out of a chain of lines, or several where one space is far wider.
fn split(
    tracks: &[Track],
    chain: &[usize],
    limits: &Limits,
    found: &mut BTreeSet<[usize; 2]>,
    looks: &mut usize,
) -> Option<()> {
    let mut chains = vec![chain];
    while let Some(chain) = chains.pop() {
        *looks = looks.checked_sub(chain.len())?;
        let [first, .., last] = chain else { continue };
        let total = tracks[*last].off - tracks[*first].off;
        let mut spaces: Vec<(f64, usize)> = chain
            .windows(2)
            .enumerate()
            .map(|(at, pair)| (tracks[pair[1]].off - tracks[pair[0]].off, at))
            .collect();
        spaces.sort_by(|one, two| two.0.total_cmp(&one.0).then(one.1.cmp(&two.1)));
        let parts = spaces.get(1).is_some_and(|second| spaces[0].0 > PARTS * second.0);
        if chain.len() > 2 && (parts || total > limits.thickness[1]) {
            let (left, right) = chain.split_at(spaces[0].1 + 1);
            chains.extend([left, right]);
        } else if total >= limits.thickness[0] && total <= limits.thickness[1] {
            found.insert([*first, *last]);
        }
    }
    Some(())
}

/// Without bands that are none: between the two ends of a short wall, inside
/// a longer one; and between the end of a wall and another that it misses.
fn without_ends(bands: Vec<Band>) -> Vec<Band> {
    let covered = |band: &Band| {
        let middle = band.line.at(band.line.length() / 2.0);
        bands.iter().any(|other| {
            other.holds(middle, 0.0)
                && other.line.length() > band.line.length().max(other.thickness)
        })
    };
    let missed = |band: &Band| {
        let (middle, length) = (band.line.at(band.line.length() / 2.0), band.line.length());
        let as_wide = |other: &&Band| (other.thickness - length).abs() < 2.0 * TOUCH;
        bands.iter().filter(as_wide).any(|other| {
            let [along, off] = other.line.locate(middle);
            let beyond = (-along).max(along - other.line.length());
            other.line.length() > length
                && off.abs() < TOUCH
                && (beyond - band.thickness / 2.0).abs() < TOUCH
        })
    };
    let is_none =
        |band: &&Band| (band.line.length() < band.thickness && covered(band)) || missed(band);
    bands.iter().filter(|band| !is_none(band)).copied().collect()
}
