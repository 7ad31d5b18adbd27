//! The checks on plans wired by hand: what they say, and what they keep quiet
//! about.

use std::collections::BTreeSet;

use wirewend::checks::{
    CODES, Checked, LoadPattern, Options, Verdict, check, check_with, expected_tests, explain,
    judge_readings, suggest,
};
use wirewend::lengths::{self, LegLength, Lengths};
use wirewend::plan::{
    self, Area, AreaEffect, AreaId, CircuitId, CircuitUse, Control, ControlId, Curve, Drum,
    Earthing, Face, Finding, Joists, Level, LevelId, OnWall, Place, Plane, PointKind, Reads,
    Regime, Room, RoomId, RoomUse, Severity, Test, Void, VoidId, VoidKind, Wall, WallBuild, WallId,
    Wiring,
};
use wirewend::rules::RuleBook;
use wirewend::runs::chain::Effort;
use wirewend::runs::{self, Heading, LegRole, Surrounding};
use wirewend::space::Space;
use wirewend::takeoff::take_off;
use wirewend::units::{
    Amps, Cents, Megohms, Milliseconds, Mm, Ohms, Point2, Point3, Worked, Working,
};

use crate::fixtures::shipped_rules;
use crate::wired::{BOARD, Wired, cable};

fn checked(wired: &Wired) -> Checked {
    check(&wired.plan, &wired.runs, &wired.lengths, &RuleBook::shipped())
}

fn of_code<'c>(checked: &'c Checked, code: &str) -> Vec<&'c Finding> {
    checked.findings.iter().filter(|finding| finding.code == code).collect()
}

fn the<'c>(checked: &'c Checked, code: &str) -> &'c Finding {
    match of_code(checked, code)[..] {
        [only] => only,
        ref others => panic!("{} findings {code}: {:#?}", others.len(), checked.findings),
    }
}

/// Four sockets on 2.5 mm², 16 A, in easy reach of everything.
fn easy(regime: Regime) -> (Wired, CircuitId) {
    let mut wired = Wired::new(regime);
    let circuit = wired.circuit(CircuitUse::Sockets, 2.5, 16.0, Curve::B);
    wired.chain(circuit, PointKind::Socket, &[6000, 4000, 4000, 4000]);
    (wired, circuit)
}

#[test]
fn an_easy_circuit_has_no_fault_in_any_regime() {
    for regime in [Regime::AS_NZS, Regime::BS, Regime::IEC] {
        let (wired, circuit) = easy(regime);
        let checked = checked(&wired);
        let bad: Vec<_> =
            checked.findings.iter().filter(|finding| finding.severity > Severity::Note).collect();
        assert!(bad.is_empty(), "{regime:?}: {bad:#?}");
        let figures = &checked.circuits[&circuit];
        assert!(figures.volt_drop.is_some() && figures.loop_impedance.is_some(), "worked out");
        assert_eq!(figures.points.len(), 4, "figures at every point");
        assert!(!checked.cautions.is_empty(), "cautions belong on every output");
    }
}

#[test]
fn the_volt_drop_of_a_chain_is_the_sum_worked_by_hand() {
    let (wired, circuit) = easy(Regime::IEC);
    let rules = RuleBook::shipped();
    let drop = |pattern| {
        let options = Options { pattern: Some(pattern), ..Options::default() };
        let checked = check_with(&wired.plan, &wired.runs, &wired.lengths, &rules, options);
        checked.circuits[&circuit].volt_drop.clone().unwrap()
    };
    // 7.41 Ω/km × (234.5 + 70)/254.5, out and back.
    let per_metre = 2.0 * 0.00741 * 304.5 / 254.5;
    // Reactance turns the voltage by so little that it shows in the sixth figure.
    let spread = drop(LoadPattern::Spread);
    let by_hand = per_metre * (16.0 * 6.0 + 12.0 * 4.0 + 8.0 * 4.0 + 4.0 * 4.0);
    assert!((spread.value.0 - by_hand).abs() < 1e-5, "{} V, {by_hand} V", spread.value.0);
    let far = drop(LoadPattern::AtFarEnd);
    assert!((far.value.0 - per_metre * 16.0 * 18.0).abs() < 1e-5, "{} V", far.value.0);
    assert!(
        spread.working.terms.iter().any(|term| term.what.starts_with("leg 4")),
        "the working goes leg by leg: {:#?}",
        spread.working
    );
}

#[test]
fn the_loop_at_the_far_end_is_the_sum_worked_by_hand() {
    let (wired, circuit) = easy(Regime::BS);
    let figures = &checked(&wired).circuits[&circuit];
    // 0.35 + 18 m × (7.41 + 12.1) mΩ × 1.2
    let by_hand = 0.35 + 18.0 * 0.01951 * 1.2;
    let got = figures.loop_impedance.as_ref().unwrap().value.0;
    assert!((got - by_hand).abs() < 1e-9, "{got} Ω, {by_hand} Ω");
    // BS 7671 T41.3: B 16, 2.73 Ω.
    assert!((figures.loop_limit.as_ref().unwrap().value.0 - 2.73).abs() < 0.005, "B 16");
    let longest = (0.95 * 230.0 / 80.0 - 0.35) / (0.01951 * 1.2);
    assert!((figures.longest_m.unwrap() - longest).abs() < 1e-9, "longest way");
}

#[test]
fn a_long_chain_drops_too_much_and_the_mend_is_worked_out() {
    let mut wired = Wired::new(Regime::BS);
    let circuit = wired.circuit(CircuitUse::Fixed, 2.5, 20.0, Curve::B);
    let heater = wired.point(circuit, PointKind::Heater, Some(4600.0));
    let way = [(Surrounding::Surface, 45_000, 0, 0)];
    wired.leg(circuit, LegRole::Feed, BOARD, heater, &way);
    let checked = checked(&wired);
    let finding = the(&checked, "volt-drop");
    assert_eq!(finding.severity, Severity::Fault, "20 A × 45 m × 18 mV is 16.2 V");
    assert_eq!((finding.measured.as_str(), finding.limit.as_str()), ("7.0 %", "5.0 %"), "");
    // 4 mm²: 20 A × 45 m × 11.06 mV = 9.96 V, 4.3 %.
    assert!(finding.remedy.starts_with("4 mm² brings it to 4.3 %"), "{}", finding.remedy);
    assert!(finding.source.contains("BS 7671"), "{}", finding.source);
}

#[test]
fn insulation_lowers_a_rating_and_the_stretch_is_named() {
    let mut wired = Wired::new(Regime::BS);
    let circuit = wired.circuit(CircuitUse::Fixed, 2.5, 20.0, Curve::B);
    let oven = wired.point(circuit, PointKind::Oven, Some(3000.0));
    let way = [
        (Surrounding::HollowWall, 1500, 0, 0),
        (Surrounding::RoofSpace, 8000, 200, 0),
        (Surrounding::HollowWall, 1500, 0, 0),
    ];
    wired.leg(circuit, LegRole::Feed, BOARD, oven, &way);
    let checked = checked(&wired);
    let finding = the(&checked, "cable-below-device");
    assert!(
        finding.message.contains("in the roof space, 200 mm of insulation"),
        "the worst stretch: {}",
        finding.message
    );
    // BS 7671 T4D5: 2.5 mm², method 101: 17 A.
    assert_eq!(finding.measured, "17.1 A", "the law of method 101");
    assert_eq!(finding.limit, "20 A", "the device");
    assert!(finding.remedy.starts_with("4 mm² carries 22 A there"), "{}", finding.remedy);
    let governing = checked.circuits[&circuit].governing.unwrap();
    assert_eq!((governing.leg, governing.segment), (1, 1), "for the sheet to show");
}

#[test]
fn company_and_heat_lower_a_rating() {
    let rules = |text: &str| {
        RuleBook::with_overrides([(Regime::IEC, "surrounding_temperature", text)]).unwrap()
    };
    let capacity_where = |keep_apart, beside, rules: &RuleBook| {
        let mut wired = Wired::new(Regime::IEC);
        wired.plan.habits.keep_apart = keep_apart;
        let circuit = wired.circuit(CircuitUse::Fixed, 2.5, 16.0, Curve::B);
        let oven = wired.point(circuit, PointKind::Oven, Some(3000.0));
        let way = [(Surrounding::RoofSpace, 8000, 0, beside)];
        wired.leg(circuit, LegRole::Feed, BOARD, oven, &way);
        let checked = check(&wired.plan, &wired.runs, &wired.lengths, rules);
        checked.circuits[&circuit].capacity.clone().unwrap()
    };
    let capacity = |beside, rules: &RuleBook| capacity_where(false, beside, rules);
    let usual = RuleBook::shipped();
    let alone = capacity(0, &usual).value.0;
    // Laid two diameters apart they do not warm each other (the notes to IEC
    // 60364-5-52 TB.52.17, from memory), and the working says so.
    let apart = capacity_where(true, 2, &usual);
    assert!((apart.value.0 - alone).abs() < 1e-9, "two others, kept apart");
    let wired = Wired::new(Regime::IEC);
    let cautions = checked(&wired).cautions;
    assert!(cautions.iter().any(|one| one.contains("habits.keep_apart")), "{cautions:?}");
    let said = apart.working.terms.iter().any(|term| term.what.contains("two diameters apart"));
    assert!(said, "{:?}", apart.working);
    // IEC 60364-5-52 TB.52.17 item 2: three in a layer, 0.79.
    assert!((capacity(2, &usual).value.0 / alone - 0.79).abs() < 1e-9, "two others beside it");
    let hot = capacity(0, &rules("surrounding,temperature_c,source\nroof_space,55,own reading\n"));
    // IEC 60364-5-52 TB.52.14: 55 °C, 0.61.
    assert!((hot.value.0 / alone - 0.61).abs() < 0.003, "{} A", hot.value.0);
}

#[test]
fn facts_of_common_practice_hold() {
    // Common practice: 2.5 mm² flat cable carries a 16 A circuit in ordinary
    // places and 20-odd amperes in open air; insulation lowers it, a duct in
    // the ground raises it.
    let capacity = |regime, through, insulation| {
        let mut wired = Wired::new(regime);
        let circuit = wired.circuit(CircuitUse::Fixed, 2.5, 16.0, Curve::C);
        let point = wired.point(circuit, PointKind::Heater, Some(3000.0));
        wired.leg(circuit, LegRole::Feed, BOARD, point, &[(through, 5000, insulation, 0)]);
        checked(&wired).circuits[&circuit].capacity.as_ref().unwrap().value.0
    };
    for regime in [Regime::AS_NZS, Regime::BS, Regime::IEC] {
        let ordinary = capacity(regime, Surrounding::HollowWall, 0);
        let open = capacity(regime, Surrounding::Surface, 0);
        let insulated = capacity(regime, Surrounding::Cavity, 90);
        let ground = capacity(regime, Surrounding::Ground, 0);
        assert!(ordinary >= 16.0, "{regime:?}: ordinary {ordinary} A");
        assert!((20.0..30.0).contains(&open), "{regime:?}: open air {open} A");
        assert!(insulated < ordinary, "{regime:?}: insulated {insulated} A");
        assert!(ground > open, "{regime:?}: ground {ground} A");
    }
}

#[test]
fn the_new_zealand_check_value_is_met() {
    // A trade forum reads 27 A from AS/NZS 3008.1.2: 4 mm², partially
    // surrounded, 30 °C.
    let text = "what,temperature_c,source\nreference_air,30,AS/NZS 3008.1.2\n";
    let air = "surrounding,temperature_c,source\nroof_space,30,AS/NZS 3008.1.2\n";
    let rules = RuleBook::with_overrides([
        (Regime::AS_NZS, "temperature", text),
        (Regime::AS_NZS, "surrounding_temperature", air),
    ])
    .unwrap();
    let mut wired = Wired::new(Regime::AS_NZS);
    let circuit = wired.circuit(CircuitUse::Fixed, 4.0, 25.0, Curve::C);
    let point = wired.point(circuit, PointKind::Oven, Some(5000.0));
    wired.leg(circuit, LegRole::Feed, BOARD, point, &[(Surrounding::RoofSpace, 5000, 90, 0)]);
    let checked = check(&wired.plan, &wired.runs, &wired.lengths, &rules);
    let capacity = checked.circuits[&circuit].capacity.as_ref().unwrap().value.0;
    assert!((capacity - 27.0).abs() < 0.6, "{capacity} A");
}

#[test]
fn an_estimate_says_so_until_the_user_enters_a_rating() {
    let (wired, circuit) = easy(Regime::AS_NZS);
    let before = checked(&wired);
    assert!(the(&before, "rating-estimated").remedy.contains("your own copy"), "told to enter it");
    let own = "method,size_mm2,capacity_a,source\ntouching,2.5,26,my copy of the standard\n";
    let rules = RuleBook::with_overrides([(Regime::AS_NZS, "current_capacity", own)]).unwrap();
    let after = check(&wired.plan, &wired.runs, &wired.lengths, &rules);
    assert!(of_code(&after, "rating-estimated").is_empty(), "nothing left to estimate");
    let capacity = after.circuits[&circuit].capacity.as_ref().unwrap();
    assert!((capacity.value.0 - 26.0).abs() < 1e-9, "the user's value");
    assert!(
        capacity.working.terms.iter().any(|term| term.source.contains("your own table")),
        "the working says whose: {:#?}",
        capacity.working
    );
}

#[test]
fn a_ring_is_judged_as_a_ring() {
    let mut wired = Wired::new(Regime::BS);
    let circuit = wired.circuit(CircuitUse::Sockets, 2.5, 32.0, Curve::B);
    wired.change(circuit).wiring = Wiring::Ring;
    let ends = wired.chain(circuit, PointKind::Socket, &[10_000, 10_000, 10_000]);
    let back = [(Surrounding::Surface, 10_000, 0, 0)];
    wired.leg(circuit, LegRole::RingReturn, ends[2], BOARD, &back);
    let ring = checked(&wired);
    assert!(of_code(&ring, "cable-below-device").is_empty(), "20 A is enough for a ring of 32 A");
    // Middle socket: 20 m ‖ 20 m.
    let cold = ring.circuits[&circuit].points[1].r1_r2.0;
    assert!((cold - 0.01951 * 10.0).abs() < 1e-9, "{cold} Ω");
    let tests = expected_tests(&wired.plan, &wired.runs, &wired.lengths, &RuleBook::shipped());
    let readings = tests.circuits[&circuit].ring.unwrap();
    assert!((readings.phase.0 - 0.00741 * 40.0).abs() < 1e-9, "end to end");
    assert!((readings.phase_earth.0 - 0.01951 * 10.0).abs() < 1e-9, "(r1 + r2)/4");
    wired.runs.circuits[&circuit].legs.pop();
    let open = checked(&wired);
    assert_eq!(the(&open, "cable-below-device").limit, "32 A", "a broken ring is a chain");
}

#[test]
fn a_switch_leg_adds_to_the_drop_of_its_light() {
    let mut wired = Wired::new(Regime::IEC);
    let circuit = wired.circuit(CircuitUse::Lighting, 1.5, 10.0, Curve::B);
    let light = wired.point(circuit, PointKind::Luminaire, Some(230.0));
    let switch = wired.point(circuit, PointKind::Switch, None);
    let way = |length| [(Surrounding::Surface, length, 0, 0)];
    wired.leg(circuit, LegRole::Feed, BOARD, light, &way(10_000));
    wired.leg(circuit, LegRole::SwitchLeg, light, switch, &way(5000));
    let id = |end| match end {
        wirewend::plan::End::Point(id) => id,
        wirewend::plan::End::Board(_) => panic!("a point"),
    };
    let control = Control { lights: vec![id(light)], switches: vec![id(switch)], in_order: false };
    wired.plan.controls.insert(ControlId(90), control);
    let figures = &checked(&wired).circuits[&circuit];
    // 1 A over 10 m of feed and 5 m down to the switch and back.
    let by_hand = 2.0 * 0.0121 * 304.5 / 254.5 * 15.0;
    assert!((figures.points[0].volt_drop.0 - by_hand).abs() < 1e-5, "{by_hand} V");
}

#[test]
fn a_measured_length_counts_before_a_drawn_one() {
    let (mut wired, circuit) = easy(Regime::BS);
    let worked = |mm| Worked { value: Mm::new(mm), working: Working::default() };
    let length = |mm, measured| LegLength {
        route: worked(mm),
        cut: worked(mm + 1000),
        tail_from: Mm::ZERO,
        tail_to: Mm::ZERO,
        measured,
    };
    let legs = vec![
        length(6000, Some(Mm::new(9000))),
        length(4000, None),
        length(4000, None),
        length(4000, None),
    ];
    wired.lengths = Lengths::default();
    wired.lengths.circuits.insert(circuit, legs.into());
    let cold = checked(&wired).circuits[&circuit].points[0].r1_r2.0;
    assert!((cold - 0.01951 * 9.0).abs() < 1e-9, "{cold} Ω");
}

#[test]
fn a_small_device_and_a_large_load_do_not_go_together() {
    let mut wired = Wired::new(Regime::BS);
    let circuit = wired.circuit(CircuitUse::Fixed, 6.0, 20.0, Curve::B);
    let shower = wired.point(circuit, PointKind::Shower, Some(7000.0));
    wired.leg(circuit, LegRole::Feed, BOARD, shower, &[(Surrounding::Surface, 8000, 0, 0)]);
    let checked = checked(&wired);
    assert_eq!(the(&checked, "device-below-load").measured, "30.4 A", "7000 W / 230 V");
}

#[test]
fn a_loop_too_high_is_a_fault_unless_a_residual_device_stands_behind_it() {
    let mut wired = Wired::new(Regime::BS);
    let circuit = wired.circuit(CircuitUse::Fixed, 2.5, 32.0, Curve::C);
    let point = wired.point(circuit, PointKind::Heater, Some(2000.0));
    wired.leg(circuit, LegRole::Feed, BOARD, point, &[(Surrounding::Surface, 30_000, 0, 0)]);
    assert_eq!(the(&checked(&wired), "loop-impedance").severity, Severity::Warning, "30 mA");
    wired.change(circuit).device.as_mut().unwrap().residual = None;
    let without = checked(&wired);
    let finding = the(&without, "loop-impedance");
    assert_eq!(finding.severity, Severity::Fault, "nothing else cuts off");
    assert_eq!((finding.measured.as_str(), finding.limit.as_str()), ("1.052 Ω", "0.683 Ω"), "");
}

#[test]
fn with_an_earth_electrode_the_residual_device_sets_the_limit() {
    let (mut wired, circuit) = easy(Regime::IEC);
    wired.supply().earthing = Some(Earthing::Tt);
    wired.supply().loop_impedance = Some(wirewend::units::Ohms(80.0));
    let checked = checked(&wired);
    assert!(of_code(&checked, "loop-impedance").is_empty(), "80 Ω is far below 1667 Ω");
    let limit = checked.circuits[&circuit].loop_limit.as_ref().unwrap().value.0;
    assert!((limit - 50.0 / 0.03).abs() < 1e-9, "50 V / 30 mA");
}

#[test]
fn a_fault_near_a_stiff_supply_burns_a_small_earth() {
    let mut wired = Wired::new(Regime::BS);
    wired.supply().fault_current = Some(Amps(6000.0));
    let circuit = wired.circuit(CircuitUse::Fixed, 1.0, 16.0, Curve::B);
    let point = wired.point(circuit, PointKind::Heater, Some(2000.0));
    wired.leg(circuit, LegRole::Feed, BOARD, point, &[(Surrounding::Surface, 5000, 0, 0)]);
    let checked = checked(&wired);
    let finding = the(&checked, "let-through");
    // √35 000 / 115 = 1.63 mm²
    assert_eq!((finding.measured.as_str(), finding.limit.as_str()), ("1 mm²", "1.63 mm²"), "");
}

#[test]
fn what_is_not_known_is_said_and_never_passed_over() {
    let (mut wired, circuit) = easy(Regime::BS);
    wired.supply().loop_impedance = None;
    wired.supply().fault_current = None;
    wired.supply().main_switch = None;
    wired.plan.boards[0].ways = None;
    let first = checked(&wired);
    for code in ["loop-impedance", "let-through", "demand", "board-ways"] {
        assert_eq!(the(&first, code).severity, Severity::Missing, "{code}");
    }
    wired.change(circuit).device = None;
    let second = checked(&wired);
    assert_eq!(the(&second, "cable-below-device").severity, Severity::Missing, "no device");
    wired.supply().voltage = None;
    assert_eq!(
        the(&checked(&wired), "circuit-unfinished").severity,
        Severity::Missing,
        "no voltage"
    );
    wired.change(circuit).cable = None;
    assert!(the(&checked(&wired), "circuit-unfinished").message.contains("no cable"), "no cable");
    let (mut wired, circuit) = easy(Regime::BS);
    wired.change(circuit).cable = Some(cable(95.0));
    assert!(
        the(&checked(&wired), "circuit-unfinished").message.contains("has no row for"),
        "a size that no table knows"
    );
    let (mut wired, circuit) = easy(Regime::BS);
    wired.point(circuit, PointKind::Oven, None);
    assert_eq!(of_code(&checked(&wired), "load-unknown").len(), 1, "an oven of unknown power");
}

#[test]
fn residual_current_devices_are_there_and_shared_by_few() {
    let mut wired = Wired::new(Regime::AS_NZS);
    for _ in 0..4 {
        let circuit = wired.circuit(CircuitUse::Sockets, 2.5, 16.0, Curve::C);
        wired.chain(circuit, PointKind::Socket, &[5000]);
        wired.change(circuit).device.as_mut().unwrap().residual = None;
        wired.change(circuit).rcd_group = "RCD1".into();
    }
    let together = checked(&wired);
    assert_eq!(of_code(&together, "residual-grouping").len(), 2, "four behind one, and only one");
    for circuit in wired.plan.circuits.values_mut() {
        circuit.rcd_group.clear();
    }
    assert_eq!(of_code(&checked(&wired), "residual-current").len(), 4, "none has any");
}

#[test]
fn points_lights_appliances_and_terminals_are_counted() {
    let mut wired = Wired::new(Regime::AS_NZS);
    let sockets = wired.circuit(CircuitUse::Sockets, 2.5, 20.0, Curve::C);
    let many = wired.chain(sockets, PointKind::Socket, &[2000; 21]);
    let heater = wired.point(sockets, PointKind::WaterHeater, Some(2400.0));
    let way = [(Surrounding::Surface, 1000, 0, 0)];
    wired.leg(sockets, LegRole::Spur, many[0], heater, &way);
    let spur = wired.point(sockets, PointKind::Socket, None);
    wired.leg(sockets, LegRole::Spur, many[0], spur, &way);
    let lights = wired.circuit(CircuitUse::Lighting, 1.5, 10.0, Curve::C);
    wired.chain(lights, PointKind::Luminaire, &[2000; 8]);
    let checked = checked(&wired);
    assert_eq!(the(&checked, "points-per-circuit").measured, "23", "22 sockets and the heater");
    assert_eq!(the(&checked, "lights-on-one-circuit").measured, "8", "lights");
    assert_eq!(of_code(&checked, "appliance-shares-circuit").len(), 1, "the heater");
    assert_eq!(
        the(&checked, "terminal-crowded").measured,
        "4 ends, 10 mm² in all",
        "at one socket"
    );
}

#[test]
fn demand_ways_and_phases_are_added_up() {
    let mut wired = Wired::new(Regime::BS);
    wired.supply().phases = Some(3);
    wired.supply().main_switch = Some(Amps(20.0));
    wired.plan.boards[0].ways = Some(1);
    for phase in [1, 1, 2] {
        let circuit = wired.circuit(CircuitUse::Fixed, 6.0, 32.0, Curve::B);
        wired.change(circuit).phase = Some(phase);
        let point = wired.point(circuit, PointKind::CarCharger, Some(6900.0));
        wired.leg(circuit, LegRole::Feed, BOARD, point, &[(Surrounding::Surface, 5000, 0, 0)]);
    }
    let checked = checked(&wired);
    assert_eq!(the(&checked, "demand").measured, "30 A", "3 × 30 A over three phases");
    assert_eq!(the(&checked, "board-ways").measured, "3", "ways");
    assert!(the(&checked, "phase-balance").message.starts_with("phase 1"), "60 A against 30 A");
}

/// A bathroom of 3 × 2 m with one wall that carries things.
fn bathroom(wired: &mut Wired) {
    let level = Level {
        name: "ground".into(),
        floor: Mm::ZERO,
        height: Mm::new(2400),
        above: vec![VoidId(1)],
        below: Vec::new(),
    };
    wired.plan.levels.insert(LevelId(1), level);
    let wall = Wall {
        level: LevelId(1),
        a: Point2::new(0, 0),
        b: Point2::new(6000, 0),
        thickness: Mm::new(90),
        build: WallBuild::Stud,
        insulated: false,
        wet: None,
    };
    wired.plan.walls.insert(WallId(1), wall);
    let outline = vec![
        Point2::new(0, 45),
        Point2::new(6000, 45),
        Point2::new(6000, 3000),
        Point2::new(0, 3000),
    ];
    let room = Room { level: LevelId(1), name: "bath".into(), usage: RoomUse::Bathroom, outline };
    wired.plan.rooms.insert(RoomId(1), room);
}

fn on_wall(along: i64, height: i64) -> Option<Place> {
    Some(Place::Wall(OnWall {
        wall: WallId(1),
        along: Mm::new(along),
        height: Mm::new(height),
        face: Face::Left,
    }))
}

fn area(name: &str, from: i64, to: i64) -> Area {
    let outline = vec![
        Point2::new(from, 0),
        Point2::new(to, 0),
        Point2::new(to, 600),
        Point2::new(from, 600),
    ];
    Area { name: name.into(), on: Plane::Wall(WallId(1)), outline, effect: AreaEffect::KeepOut }
}

#[test]
fn sockets_keep_away_from_bath_sink_and_cooktop() {
    let mut wired = Wired::new(Regime::AS_NZS);
    bathroom(&mut wired);
    let circuit = wired.circuit(CircuitUse::Sockets, 2.5, 16.0, Curve::C);
    let ends = wired.chain(circuit, PointKind::Socket, &[5000, 2000]);
    for (end, along) in ends.iter().zip([2100, 4000]) {
        let wirewend::plan::End::Point(id) = end else { panic!("a point") };
        wired.plan.points[id].place = on_wall(along, 1000);
    }
    assert_eq!(the(&checked(&wired), "wet-zone").severity, Severity::Missing, "no bath drawn");
    wired.plan.areas.insert(AreaId(1), area("bath", 0, 1700));
    wired.plan.areas.insert(AreaId(2), area("sink", 3000, 3900));
    let cooktop = wired.point(circuit, PointKind::Cooktop, Some(5000.0));
    let wirewend::plan::End::Point(id) = cooktop else { panic!("a point") };
    wired.plan.points[&id].place = on_wall(4400, 900);
    let checked = checked(&wired);
    // 2100 − 1700 along, 45 out of the wall: 403 mm.
    assert_eq!(the(&checked, "wet-zone").measured, "403 mm", "first socket");
    assert_eq!(the(&checked, "sink-clearance").measured, "110 mm", "second socket: √(100² + 45²)");
    assert_eq!(the(&checked, "cooktop-clearance").measured, "100 mm", "400 less half of 600");
}

/// Walls and partitions end the zones of a bath (IEC 60364-7-701, from memory).
#[test]
fn a_bath_behind_a_wall_makes_no_zone_in_the_next_room() {
    let mut wired = Wired::new(Regime::IEC);
    bathroom(&mut wired);
    let corner = |(x, y): (i64, i64)| Point2::new(x, y);
    let outline = [(0, -45), (6000, -45), (6000, -3000), (0, -3000)].map(corner).to_vec();
    let next = Room { outline, name: "next bath".into(), ..wired.plan.rooms[0].clone() };
    wired.plan.rooms.insert(RoomId(2), next);
    let outline = [(1500, -45), (3200, -45), (3200, -750), (1500, -750)].map(corner).to_vec();
    let (name, effect) = ("bath".to_owned(), AreaEffect::KeepOut);
    wired.plan.areas.insert(AreaId(1), Area { name, on: Plane::Void(VoidId(1)), outline, effect });
    let circuit = wired.circuit(CircuitUse::Sockets, 2.5, 16.0, Curve::C);
    let socket = wired.chain(circuit, PointKind::Socket, &[5000])[0];
    let wirewend::plan::End::Point(id) = socket else { panic!("a point") };
    for (face, told) in [(Face::Left, Severity::Missing), (Face::Right, Severity::Fault)] {
        let Some(Place::Wall(on)) = on_wall(2100, 1000) else { panic!("on the wall") };
        wired.plan.points[&id].place = Some(Place::Wall(OnWall { face, ..on }));
        assert_eq!(the(&checked(&wired), "wet-zone").severity, told, "{face:?}");
    }
    // An open passage right through lets the zone out, and so does a screen.
    let place = on_wall(2100, 1000);
    wired.plan.points[&id].place = place;
    let (from, width) = (Mm::new(1000), Mm::new(2000));
    let (sill, head) = (Mm::ZERO, Mm::new(2100));
    let (wall, kind) = (WallId(1), wirewend::plan::OpeningKind::Plain);
    let passage = wirewend::plan::Opening { wall, kind, from, width, sill, head, hinge: None };
    wired.plan.openings.insert(wirewend::plan::OpeningId(1), passage);
    assert_eq!(the(&checked(&wired), "wet-zone").severity, Severity::Fault, "a passage");
    wired.plan.openings.clear();
    wired.plan.walls[&WallId(1)].build = WallBuild::Screen;
    assert_eq!(the(&checked(&wired), "wet-zone").severity, Severity::Fault, "a screen");
}

#[test]
fn heights_zones_and_depths_in_a_wall() {
    let mut wired = Wired::new(Regime::BS);
    bathroom(&mut wired);
    wired.plan.rooms[0].usage = RoomUse::Living;
    let circuit = wired.circuit(CircuitUse::Fixed, 2.5, 16.0, Curve::B);
    let heater = wired.point(circuit, PointKind::Heater, Some(1000.0));
    let switch = wired.point(circuit, PointKind::Switch, None);
    let wirewend::plan::End::Point(id) = switch else { panic!("a point") };
    wired.plan.points[&id].place = on_wall(3000, 1600);
    wired.leg(circuit, LegRole::Feed, BOARD, heater, &[(Surrounding::HollowWall, 1000, 0, 0)]);
    let segment = &mut wired.runs.circuits[&circuit].legs[0].route.segments[0];
    segment.plane = Some(Plane::Wall(WallId(1)));
    segment.heading = Heading::Down;
    (segment.from, segment.to) = (Point3::new(1500, 0, 2000), Point3::new(1500, 0, 1000));
    let astray = checked(&wired);
    assert_eq!(the(&astray, "outside-zone").severity, Severity::Fault, "in line with nothing");
    assert_eq!(the(&astray, "height").measured, "1600 mm", "a high switch");
    let segment = &mut wired.runs.circuits[&circuit].legs[0].route.segments[0];
    (segment.from, segment.to) = (Point3::new(3000, 0, 2400), Point3::new(3000, 0, 1600));
    assert!(of_code(&checked(&wired), "outside-zone").is_empty(), "in line with the switch");
    wired.change(circuit).device.as_mut().unwrap().residual = None;
    assert_eq!(the(&checked(&wired), "cable-shallow").measured, "45 mm", "half of 90 mm");
}

#[test]
fn a_bundle_wants_too_large_a_hole_in_a_joist() {
    let mut wired = Wired::new(Regime::BS);
    let void = Void {
        name: "roof".into(),
        kind: VoidKind::RoofSpace,
        z: Mm::new(2500),
        depth: Mm::new(500),
        direction: wirewend::units::Angle::ZERO,
        joists: Some(Joists { spacing: Mm::new(400), depth: Mm::new(150), thickness: Mm::new(45) }),
        insulation: Mm::ZERO,
        access: wirewend::plan::Access::Crawl,
        outline: None,
    };
    wired.plan.voids.insert(VoidId(1), void);
    let circuit = wired.circuit(CircuitUse::Fixed, 2.5, 16.0, Curve::B);
    let heater = wired.point(circuit, PointKind::Heater, Some(1000.0));
    wired.leg(circuit, LegRole::Feed, BOARD, heater, &[(Surrounding::RoofSpace, 3000, 0, 7)]);
    let segment = &mut wired.runs.circuits[&circuit].legs[0].route.segments[0];
    segment.plane = Some(Plane::Void(VoidId(1)));
    segment.heading = Heading::AcrossJoists;
    let checked = checked(&wired);
    let finding = the(&checked, "joist-hole");
    // √(10.5² + (8 × 5.5)²) = 45 mm against 0.25 × 150 = 37.5 mm.
    assert_eq!((finding.measured.as_str(), finding.limit.as_str()), ("45 mm", "38 mm"), "");
}

#[test]
fn a_cable_with_hardly_any_load_warms_no_one() {
    let capacity = |load| {
        let mut wired = Wired::new(Regime::IEC);
        wired.plan.habits.keep_apart = false;
        let oven = wired.circuit(CircuitUse::Fixed, 2.5, 16.0, Curve::B);
        let end = wired.point(oven, PointKind::Oven, Some(3000.0));
        wired.leg(oven, LegRole::Feed, BOARD, end, &[(Surrounding::RoofSpace, 8000, 0, 1)]);
        let other = wired.circuit(CircuitUse::Fixed, 2.5, 16.0, Curve::B);
        let end = wired.point(other, PointKind::DoorMotor, Some(load));
        wired.leg(other, LegRole::Feed, BOARD, end, &[(Surrounding::RoofSpace, 8000, 0, 1)]);
        checked(&wired).circuits[&oven].capacity.as_ref().unwrap().value.0
    };
    let (beside_little, beside_much) = (capacity(100.0), capacity(3000.0));
    assert!((beside_much / beside_little - 0.85).abs() < 1e-9, "two in a layer: 0.85");
}

#[test]
fn the_cheapest_cable_that_passes_is_suggested_with_the_next_one_up() {
    let mut wired = Wired::new(Regime::BS);
    let circuit = wired.circuit(CircuitUse::Fixed, 2.5, 20.0, Curve::B);
    let heater = wired.point(circuit, PointKind::Heater, Some(4400.0));
    wired.leg(circuit, LegRole::Feed, BOARD, heater, &[(Surrounding::Surface, 45_000, 0, 0)]);
    let rules = RuleBook::shipped();
    let suggestion = suggest(&wired.plan, &wired.runs, &wired.lengths, &rules, circuit).unwrap();
    let (best, up) = (suggestion.best.unwrap(), suggestion.next_up.unwrap());
    assert_eq!(best.cable, cable(4.0), "2.5 mm² drops too much");
    assert!((best.device.rating.0 - 20.0).abs() < 1e-9, "19.1 A");
    assert_eq!(up.cable, cable(6.0), "the next size");
    assert!(suggestion.buys.contains("drops 2.8 % instead of 4.1 %"), "{}", suggestion.buys);
    assert!(
        suggestion.rejected.iter().any(|no| no.cable == cable(2.5) && no.why == "drops 6.7 %"),
        "{:#?}",
        suggestion.rejected
    );
    // What is suggested passes when it is drawn.
    wired.change(circuit).cable = Some(best.cable);
    wired.runs.circuits[&circuit].legs[0].cable = Some(best.cable);
    let after = checked(&wired);
    assert!(
        after.findings.iter().all(|finding| finding.severity < Severity::Fault),
        "{:#?}",
        after.findings
    );
}

#[test]
fn a_low_price_can_beat_less_copper() {
    let (mut wired, circuit) = easy(Regime::BS);
    for (mm2, price) in [(2.5, 9000), (4.0, 6000), (6.0, 20_000), (10.0, 30_000), (16.0, 50_000)] {
        wired.plan.stock.drums.push(Drum {
            cable: cable(mm2),
            length: Mm::new(100_000),
            price: Some(Cents::new(price)),
        });
    }
    let rules = RuleBook::shipped();
    let suggestion = suggest(&wired.plan, &wired.runs, &wired.lengths, &rules, circuit).unwrap();
    assert_eq!(
        (suggestion.by, suggestion.best.unwrap().cable),
        ("price", cable(4.0)),
        "invented prices"
    );
}

#[test]
fn an_odd_reading_is_put_down_to_its_leg() {
    let (wired, circuit) = easy(Regime::BS);
    let tests = expected_tests(&wired.plan, &wired.runs, &wired.lengths, &RuleBook::shipped());
    let points = &tests.circuits[&circuit].points;
    // Leg 3 reads 9 m too long, and so everything beyond it does.
    let reading = |at, reads| plan::Reading {
        circuit,
        at,
        reads,
        by: "invented".to_owned(),
        on: "2026-11-25".to_owned(),
    };
    let mut wired = wired;
    wired.plan.readings = points
        .iter()
        .enumerate()
        .map(|(place, point)| {
            let ohms = point.r1_r2.0 + if place >= 2 { 9.0 * 0.01951 } else { 0.0 };
            reading(point.end, Reads::R1R2(Ohms(ohms)))
        })
        .collect();
    let (judged, findings) = judge_readings(&wired.plan, &tests);
    assert_eq!(findings.len(), 1, "told once: {findings:#?}");
    assert!(
        findings[0].message.contains("as if leg 3 were 9 m longer, or a joint were loose"),
        "{}",
        findings[0].message
    );
    let verdicts: Vec<Verdict> = judged.iter().map(|one| one.verdict).collect();
    use Verdict::{AsExpected, Odd};
    assert_eq!(verdicts, [AsExpected, AsExpected, Odd, Odd], "both are to be looked at");
    let terms = &judged[2].working.terms;
    assert!(terms.iter().any(|term| term.value == "9 m"), "the working tells: {terms:#?}");
    wired.plan.readings = vec![
        reading(BOARD, Reads::Insulation(Megohms(0.4))),
        reading(BOARD, Reads::Trip(Milliseconds(340.0))),
        reading(points[0].end, Reads::Polarity(false)),
    ];
    let (judged, findings) = judge_readings(&wired.plan, &tests);
    assert!(judged.iter().all(|one| one.verdict == Verdict::Beyond), "{judged:#?}");
    assert!(findings.iter().all(|one| one.severity == Severity::Fault), "{findings:#?}");
    assert_eq!(findings.len(), 3, "insulation, trip time and polarity");
}

#[test]
fn readings_are_held_to_limits_worked_by_hand() {
    let (mut wired, circuit) = easy(Regime::BS);
    let far = wired.runs.circuits[&circuit].legs[3].to;
    let reads = |ohms| plan::Reading {
        circuit,
        at: far,
        reads: Reads::Loop(Ohms(ohms)),
        by: String::new(),
        on: String::new(),
    };
    // B 16: 0.95 × 230 / 80 = 2.731 Ω hot (BS 7671 T41.3: 2.73), of which 0.8
    // may be read cold (IEC 60364-6, the rule of thumb): 2.185 Ω.
    let tests = expected_tests(&wired.plan, &wired.runs, &wired.lengths, &RuleBook::shipped());
    let against = tests.circuits[&circuit].against(far, Test::Loop);
    assert!((against.limit.unwrap().value() - 2.185).abs() < 1e-9, "{against:?}");
    // 0.35 + 18 m × 19.51 mΩ
    let cold = 0.35 + 18.0 * 0.01951;
    assert!((against.expected.unwrap() - cold).abs() < 1e-3, "{against:?}");
    let dead = tests.circuits[&circuit].against(far, Test::R1R2).limit.unwrap().value();
    assert!((dead - (2.185 - 0.35)).abs() < 1e-9, "less the supply: {dead} Ω");
    let earth = tests.circuits[&circuit].against(far, Test::R2).expected.unwrap();
    assert!((earth - 18.0 * 0.0121).abs() < 1e-3, "1.5 mm² of earth: {earth} Ω");
    for (ohms, verdict) in
        [(cold, Verdict::AsExpected), (1.4, Verdict::Odd), (2.19, Verdict::Beyond)]
    {
        wired.plan.readings = vec![reads(ohms)];
        let checked = checked(&wired);
        assert_eq!(checked.readings[0].verdict, verdict, "{ohms} Ω");
        assert_eq!(of_code(&checked, "odd-reading").len(), usize::from(ohms > 1.0), "{ohms} Ω");
    }
    // Behind 30 mA a high loop is no danger of its own, and so a warning.
    wired.plan.readings = vec![reads(2.5)];
    assert_eq!(the(&checked(&wired), "odd-reading").severity, Severity::Warning, "30 mA");
    wired.change(circuit).device.as_mut().unwrap().residual = None;
    assert_eq!(the(&checked(&wired), "odd-reading").severity, Severity::Fault, "breaker alone");
    wired.change(circuit).cable = None;
    let finding = the(&checked(&wired), "odd-reading").clone();
    assert_eq!(finding.severity, Severity::Missing, "said, not skipped: {finding:#?}");
}

#[test]
fn what_was_measured_elsewhere_or_otherwise_is_said() {
    let (mut wired, circuit) = easy(Regime::BS);
    let legs = &wired.runs.circuits[&circuit].legs;
    let (first, third) = (legs[0].to, legs[2].to);
    let length = Mm::new(9000);
    wired.plan.measured = vec![plan::Measured {
        circuit,
        from: first,
        to: third,
        length,
        by: String::new(),
        on: String::new(),
    }];
    assert!(the(&checked(&wired), "measured-elsewhere").message.contains("none of its legs"), "");
    let worked = |mm| Worked { value: Mm::new(mm), working: Working::default() };
    let leg = |measured| LegLength {
        route: worked(6000),
        cut: worked(7000),
        tail_from: Mm::ZERO,
        tail_to: Mm::ZERO,
        measured: Some(Mm::new(measured)),
    };
    wired.plan.measured.clear();
    let legs = vec![leg(7700), leg(6301), leg(7701), leg(6299)];
    wired.lengths.circuits.insert(circuit, legs.into());
    let checked = checked(&wired);
    let told: Vec<&str> =
        of_code(&checked, "measured-differs").iter().map(|it| it.measured.as_str()).collect();
    assert_eq!(told, ["7.7 m", "6.3 m"], "a tenth more or less is not told");
}

#[test]
fn every_finding_has_a_page_and_every_code_of_the_sources_is_listed() {
    for page in CODES {
        assert!(page.text.contains(&format!("`{}`", page.code)), "{} names itself", page.code);
        for part in ["What it looks at", "Why it matters", "How to mend it", "Where it comes from"]
        {
            assert!(page.text.contains(part), "{}: {part}", page.code);
        }
        assert_eq!(explain(page.code).map(|page| page.code), Some(page.code), "found");
    }
    assert!(explain("no-such-code").is_none(), "unknown");
    let src = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut codes = BTreeSet::new();
    for room in ["plan", "space", "runs", "lengths", "checks", "takeoff", "draft"] {
        codes_in(&src.join(room), &mut codes);
    }
    for file in
        [src.join("store").join("backdrop.rs"), src.join("session").join("work").join("job.rs")]
    {
        codes_of(&file, &mut codes);
    }
    for word in NO_CODES {
        assert!(codes.remove(word), "{word} is no longer in the sources");
    }
    let pages: BTreeSet<String> = CODES.iter().map(|page| page.code.to_owned()).collect();
    let without: Vec<_> = codes.difference(&pages).collect();
    assert!(without.is_empty(), "codes without a page: {without:?}");
    let idle: Vec<_> = pages.difference(&codes).collect();
    assert!(idle.is_empty(), "pages without a code: {idle:?}");
}

/// Words with hyphens that are words and no codes.
const NO_CODES: [&str; 3] = ["as-nzs", "off-cut", "socket-outlet"];

/// Every text in the sources that looks like a code: words joined by hyphens
/// anywhere, and one word alone where it is a constant called a code.
fn codes_in(folder: &std::path::Path, codes: &mut BTreeSet<String>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            codes_in(&path, codes);
            continue;
        }
        if !["pages.rs", "tests.rs"].iter().any(|name| path.ends_with(name)) {
            codes_of(&path, codes);
        }
    }
}

fn codes_of(path: &std::path::Path, codes: &mut BTreeSet<String>) {
    let text = std::fs::read_to_string(path).unwrap();
    let text = text.split("#[cfg(test)]").next().unwrap();
    for line in text.lines().filter(|line| !line.trim_start().starts_with("//")) {
        let named = line.contains("const CODE: &str");
        let is_word =
            |word: &str| !word.is_empty() && word.bytes().all(|letter| letter.is_ascii_lowercase());
        let texts = line.split('"').skip(1).step_by(2);
        let like =
            texts.filter(|text| text.split('-').all(is_word) && (named || text.contains('-')));
        codes.extend(like.map(str::to_owned));
    }
}

/// Whatever is found in a house has a page.
#[test]
fn what_is_found_in_the_houses_has_a_page() {
    let mut found = 0;
    for name in ["cottage", "flat", "half_drawn", "terrace", "townhouse"] {
        let plan = crate::fixtures::house(name);
        let runs = runs::route(&plan, &Space::of(&plan), &Effort::default());
        let lengths = lengths::measure(&plan, &runs);
        let checked = check(&plan, &runs, &lengths, &RuleBook::shipped());
        let taken = take_off(&plan, &runs, &lengths, shipped_rules());
        let all = [plan::review(&plan), runs.findings, checked.findings, taken.findings].concat();
        for finding in &all {
            assert!(explain(finding.code).is_some(), "{name}: {}", finding.code);
        }
        found += all.len();
    }
    assert!(found > 20, "{found} findings in all houses");
}

#[test]
fn three_balanced_phases_drop_half_as_much_as_one() {
    let drop = |phases, cores, watts| {
        let mut wired = Wired::new(Regime::IEC);
        wired.supply().phases = Some(phases);
        let circuit = wired.circuit(CircuitUse::Fixed, 4.0, 20.0, Curve::C);
        wired.change(circuit).cable = Some(cable(4.0).with_cores(cores));
        let point = wired.point(circuit, PointKind::AirConditioner, Some(watts));
        let way = [(Surrounding::Surface, 20_000, 0, 0)];
        wired.leg(circuit, LegRole::Feed, BOARD, point, &way);
        let checked = checked(&wired);
        let figures = &checked.circuits[&circuit];
        let ways = checked.boards[0].ways_used;
        (figures.design_current.as_ref().unwrap().value.0, figures.volt_drop_percent.unwrap(), ways)
    };
    let (one_current, one_drop, one_way) = drop(1, 2, 3450.0);
    let (each_current, each_drop, three_ways) = drop(3, 4, 3.0 * 3450.0);
    assert!((one_current - 15.0).abs() < 1e-9 && (each_current - 15.0).abs() < 1e-9, "15 A each");
    assert!((each_drop / one_drop - 0.5).abs() < 1e-5, "no current comes back: {each_drop} %");
    assert_eq!((one_way, three_ways), (1, 3), "ways of the board");
}

#[test]
fn a_cooler_conductor_drops_less_and_a_lagging_load_more_in_reactance() {
    use wirewend::checks::ConductorTemperature;
    let (wired, circuit) = easy(Regime::IEC);
    let drop = |options| {
        let checked =
            check_with(&wired.plan, &wired.runs, &wired.lengths, &RuleBook::shipped(), options);
        checked.circuits[&circuit].volt_drop.as_ref().unwrap().value.0
    };
    let rated = drop(Options::default());
    let running =
        drop(Options { temperature: ConductorTemperature::Running, ..Options::default() });
    // 16 A of 26.9 A on the surface: 30 + 40 × (16/26.9)² = 44.2 °C.
    let capacity = checked(&wired).circuits[&circuit].capacity.as_ref().unwrap().value.0;
    let hot = 30.0 + 40.0 * (16.0 / capacity) * (16.0 / capacity);
    assert!((running / rated - (234.5 + hot) / 304.5).abs() < 1e-5, "{running} V of {rated} V");
    let lagging = drop(Options { power_factor: 0.8, ..Options::default() });
    // R cos φ + X sin φ over R, r = 8.866 and x = 0.08 Ω/km: to a few parts in
    // a thousand, since the rule of thumb ignores how the voltage turns.
    let rule = (8.866 * 0.8 + 0.08 * 0.6) / 8.866;
    assert!((lagging / rated / rule - 1.0).abs() < 0.005, "{lagging} V of {rated} V");
}

#[test]
fn a_supply_of_ones_own_may_drop_more() {
    let (wired, circuit) = easy(Regime::IEC);
    let options = Options { private_supply: true, ..Options::default() };
    let checked =
        check_with(&wired.plan, &wired.runs, &wired.lengths, &RuleBook::shipped(), options);
    // IEC 60364-5-52 TG.52.1 B.
    assert_eq!(checked.circuits[&circuit].volt_drop_limit_percent, Some(8.0), "private");
}

#[test]
fn a_short_way_through_insulation_costs_less_than_a_long_one() {
    let capacity = |length| {
        let mut wired = Wired::new(Regime::BS);
        let circuit = wired.circuit(CircuitUse::Fixed, 2.5, 16.0, Curve::B);
        let point = wired.point(circuit, PointKind::Heater, Some(2000.0));
        let way = [(Surrounding::Surface, 3000, 0, 0), (Surrounding::Plate, length, 100, 0)];
        wired.leg(circuit, LegRole::Feed, BOARD, point, &way);
        checked(&wired).circuits[&circuit].capacity.as_ref().unwrap().value.0
    };
    // BS 7671 T52.2: 100 mm 0.78, 400 mm 0.51, 500 mm and more 0.5.
    let plain = capacity(500) / 0.5;
    assert!((capacity(100) / plain - 0.78).abs() < 1e-9, "100 mm");
    assert!((capacity(400) / plain - 0.51).abs() < 1e-9, "400 mm");
    assert!((capacity(3000) / plain - 0.5).abs() < 1e-9, "3 m");
}

#[test]
fn a_point_that_no_leg_reaches_is_said() {
    let mut wired = Wired::new(Regime::BS);
    bathroom(&mut wired);
    wired.plan.rooms[0].usage = RoomUse::Living;
    let circuit = wired.circuit(CircuitUse::Sockets, 2.5, 16.0, Curve::B);
    wired.chain(circuit, PointKind::Socket, &[5000]);
    let lost = wired.point(circuit, PointKind::Socket, None);
    let wirewend::plan::End::Point(id) = lost else { panic!("a point") };
    wired.plan.points[&id].place = on_wall(2000, 500);
    let checked = checked(&wired);
    let finding = the(&checked, "point-not-joined");
    assert_eq!(finding.severity, Severity::Missing, "not checked");
    assert!(finding.place.is_some(), "with its place");
}

#[test]
fn findings_come_worst_first_and_the_same_every_time() {
    let mut wired = Wired::new(Regime::AS_NZS);
    wired.supply().fault_current = None;
    let circuit = wired.circuit(CircuitUse::Fixed, 1.5, 20.0, Curve::C);
    let point = wired.point(circuit, PointKind::WaterHeater, Some(4600.0));
    wired.leg(circuit, LegRole::Feed, BOARD, point, &[(Surrounding::RoofSpace, 60_000, 90, 2)]);
    let first = checked(&wired);
    assert!(first.findings.len() >= 4, "enough to sort: {:#?}", first.findings);
    for pair in first.findings.windows(2) {
        assert!(pair[0].severity >= pair[1].severity, "worst first");
    }
    let text = |checked: &Checked| serde_json::to_string(checked).unwrap();
    assert_eq!(text(&first), text(&checked(&wired)), "the same bytes");
    for finding in &first.findings {
        assert!(!finding.remedy.is_empty(), "{}: a remedy", finding.code);
        assert!(explain(finding.code).is_some(), "{}: a page", finding.code);
        if finding.severity >= Severity::Warning {
            let said = [&finding.measured, &finding.limit, &finding.source];
            assert!(said.iter().all(|part| !part.is_empty()), "{}: {finding:#?}", finding.code);
        }
    }
}
