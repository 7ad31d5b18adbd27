//! Where one goes: to a thing that was found, to a finding and its mend, to a
//! figure that is asked how it came about.

use kurbo::{Point, Rect};

use super::Session;
use super::circuits::mend;
use super::ground::places::exact;
use super::state::REDUCTION;
use super::work::Figure;
use crate::plan::Subject;
use crate::rules::RuleBook;

impl Session {
    /// Chooses a thing, on its own level, where it can be seen.
    pub fn go_to(&mut self, subject: Subject) {
        match subject {
            Subject::Circuit(id) | Subject::Leg { circuit: id, .. } => {
                self.selection.open(None);
                self.choose_circuit(Some(id));
                return;
            }
            Subject::Level(id) => return self.go_to_level(id),
            _ => {}
        }
        self.selection.choose([subject]);
        let place = match subject {
            Subject::Point(id) => {
                self.document.plan().points.get(&id).and_then(|point| point.place)
            }
            Subject::Board(id) => {
                self.document.plan().boards.get(&id).and_then(|board| board.place)
            }
            _ => None,
        };
        let level = match subject {
            Subject::Wall(id) => self.document.plan().walls.get(&id).map(|wall| wall.level),
            _ => place.and_then(|place| self.document.plan().level_of(&place)),
        };
        if let Some(level) = level {
            self.go_to_level(level);
        }
        if let Some(around) =
            self.jobs.picture().cloned().and_then(|picture| picture.bounds_of(subject))
        {
            self.sight.show(around);
        }
    }

    /// Goes to a finding, by its place in the list.
    pub fn finding(&mut self, index: usize) {
        let picture = self.jobs.picture();
        let found = picture.and_then(|picture| picture.findings.get(index));
        let Some((subject, place)) = found.map(|one| (one.subject, one.place)) else { return };
        self.go_to(subject);
        // Walls are one drawing: their own marks cannot be told apart.
        if let (Subject::Wall(_), Some(place)) = (subject, place) {
            let at = exact(place.on_floor());
            let on_paper = Point::new(at.x / REDUCTION, -at.y / REDUCTION);
            self.sight.show(Rect::from_points(on_paper, on_paper));
        }
    }

    /// Goes to the next finding.
    pub fn next_finding(&mut self) {
        let count = self.jobs.picture().map_or(0, |picture| picture.findings.len());
        if count == 0 {
            self.said = "nothing to look at".to_owned();
            return;
        }
        let next = self.selection.finding().map_or(0, |now| (now + 1) % count);
        self.finding(next);
        let picture = self.jobs.picture();
        if let Some(finding) = picture.and_then(|picture| picture.findings.get(next)) {
            let mends = if mend::offers(finding) { "; F8 mends it" } else { "" };
            self.said = format!("{} of {count}: {}{mends}", next + 1, finding.message);
        }
        self.selection.go_to_finding(next);
    }

    /// Applies the mend of a finding, by its place in the list.
    pub fn mend(&mut self, index: usize, rules: &RuleBook) {
        let Some(picture) = self.jobs.picture().cloned() else { return };
        let Some(finding) = picture.findings.get(index) else { return };
        if self.jobs.is_behind() {
            self.said = "still computing: try again in a moment".to_owned();
            return;
        }
        match mend::of(finding, &picture, rules) {
            Ok((edit, says)) => {
                if self.edit(edit) {
                    self.said = says;
                }
            }
            Err(why) => self.said = why,
        }
    }

    /// The figures that can be asked, of the open circuit or of the job.
    fn figures(&self) -> Vec<Figure> {
        let Some(picture) = self.jobs.picture() else { return Vec::new() };
        let mut all = Vec::new();
        let open = self.selection.circuit();
        for id in picture.plan.circuits.keys().filter(|id| open.is_none_or(|open| open == **id)) {
            all.extend([
                Figure::Metres(*id),
                Figure::Device(*id),
                Figure::VoltDrop(*id),
                Figure::Loop(*id),
            ]);
            if open.is_some() {
                let legs = picture.runs.circuits.get(id).map_or(0, |run| run.legs.len());
                all.extend((0..legs).map(|index| Figure::Leg(*id, index)));
            }
        }
        all.extend([Figure::Cable, Figure::Price]);
        all.retain(|figure| figure.shown(picture).is_some());
        all
    }

    /// Asks how the next figure came about.
    pub fn next_figure(&mut self) {
        let all = self.figures();
        let now = all.iter().position(|figure| Some(*figure) == self.selection.figure());
        let next = now.map_or(0, |now| (now + 1) % all.len().max(1));
        self.selection.ask(all.get(next).copied());
        if self.selection.figure().is_none() {
            self.said = "nothing has been computed yet".to_owned();
        }
    }
}
