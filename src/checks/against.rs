//! What a reading is held against.

use serde::Serialize;

use super::expected_tests::CircuitTests;
use crate::plan::{End, Test};

/// What a reading is held against.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Against {
    /// What the meter should read, in the unit of the test.
    pub expected: Option<f64>,
    /// Where that comes from.
    pub expected_from: String,
    /// What it may read.
    pub limit: Option<Bound>,
    /// Where that comes from.
    pub limit_from: String,
    /// Why there is neither.
    pub lacking: &'static str,
}

/// A limit.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Bound {
    /// No more than this.
    AtMost(f64),
    /// No less than this.
    AtLeast(f64),
}

const LENGTHS: &str = "lengths and conductor tables";

impl CircuitTests {
    /// What a reading at an end is held against.
    ///
    /// R1 + R2 ≤ Zs(cold) − Ze, so that the loop keeps to its limit.
    ///
    /// Source: IEC 60364-6 cl. 6.4.3.7, annex D.
    #[must_use]
    pub fn against(&self, at: End, test: Test) -> Against {
        let point = self.points.iter().find(|point| point.end == at);
        let ring = self.ring.as_ref();
        let at_board = at == self.board;
        let expected = |value: Option<f64>, from: &str, lacking: &'static str| Against {
            expected: value,
            expected_from: from.to_owned(),
            lacking,
            ..Against::default()
        };
        let limited = |limit: Option<Bound>, from: &str, lacking: &'static str| Against {
            limit,
            limit_from: from.to_owned(),
            lacking,
            ..Against::default()
        };
        let not_on_way = "no leg leads there";
        let no_ring = "the circuit is no ring";
        match test {
            Test::R1R2 => Against {
                limit: self.r1_r2_limit_cold().map(Bound::AtMost),
                limit_from: "least loop that trips the device cold, less the supply's".to_owned(),
                ..expected(point.map(|one| one.r1_r2.0), LENGTHS, not_on_way)
            },
            Test::R2 => expected(point.map(|one| one.r2.0), LENGTHS, not_on_way),
            Test::RingPhase => expected(ring.map(|one| one.phase.0), LENGTHS, no_ring),
            Test::RingNeutral => expected(ring.map(|one| one.neutral.0), LENGTHS, no_ring),
            Test::RingEarth => expected(ring.map(|one| one.earth.0), LENGTHS, no_ring),
            Test::Loop => {
                let value = if at_board {
                    self.outside.map(|ohms| ohms.0)
                } else {
                    point.and_then(|one| one.loop_impedance).map(|ohms| ohms.0)
                };
                Against {
                    limit: self.loop_limit_cold.map(|ohms| Bound::AtMost(ohms.0)),
                    limit_from: self.loop_limit_from.clone(),
                    ..expected(
                        value,
                        if at_board { "plan: supply" } else { "supply, lengths and tables" },
                        "neither the supply's loop nor a device is known",
                    )
                }
            }
            Test::Insulation => limited(
                self.insulation.map(|(_, least)| Bound::AtLeast(least)),
                "table insulation_test",
                "no table has a limit",
            ),
            Test::Polarity => Against {
                limit_from: "IEC 60364-6 cl. 6.4.3.6".to_owned(),
                lacking: "",
                ..Against::default()
            },
            Test::Trip => limited(self.trips_within(1.0), TRIPS, NO_RESIDUAL),
            Test::TripFive => limited(self.trips_within(5.0), TRIPS, NO_RESIDUAL),
            Test::FaultCurrent => expected(
                self.fault_current.map(|amps| amps.0).filter(|_| at_board),
                "plan: supply",
                "the plan does not say what the supply has there",
            ),
        }
    }

    /// What phase and protective conductor may have, cold, Ω.
    fn r1_r2_limit_cold(&self) -> Option<f64> {
        Some((self.loop_limit_cold?.0 - self.outside?.0).max(0.0))
    }

    fn trips_within(&self, times: f64) -> Option<Bound> {
        let row = self.residual_ms.iter().find(|(row, _)| (row - times).abs() < 1e-9);
        row.map(|(_, ms)| Bound::AtMost(*ms))
    }

    /// The tests that the papers ask for, in the order in which they are made:
    /// where, and which.
    #[must_use]
    pub fn wanted(&self) -> Vec<(End, Test)> {
        let mut wanted = Vec::new();
        let points = || self.points.iter().map(|point| point.end);
        if self.ring.is_some() {
            let ends = [Test::RingPhase, Test::RingNeutral, Test::RingEarth];
            wanted.extend(ends.map(|test| (self.board, test)));
        }
        wanted.extend(points().map(|end| (end, Test::R1R2)));
        wanted.push((self.board, Test::Insulation));
        wanted.extend(points().map(|end| (end, Test::Polarity)));
        wanted.push((self.board, Test::Loop));
        wanted.extend(points().map(|end| (end, Test::Loop)));
        for (times, test) in [(1.0, Test::Trip), (5.0, Test::TripFive)] {
            wanted.extend(self.trips_within(times).map(|_| (self.board, test)));
        }
        wanted.push((self.board, Test::FaultCurrent));
        wanted
    }
}

const TRIPS: &str = "table residual_trip_time";
const NO_RESIDUAL: &str = "the circuit has no residual-current device in the plan";
