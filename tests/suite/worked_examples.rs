//! Published worked examples, through the functions that the checks use. Each
//! test names its source; inputs, answers and tolerances are in
//! `fixtures/worked_examples.json`.

use serde_json::Value;
use wirewend::checks::{
    DemandRule, Feeder, Load, Phasor, Span, ambient_factor, cooker_demand, corrected_rating,
    least_section, longest_by_loop, longest_by_short_circuit, longest_conventional, loop_impedance,
    loop_resistance, resistance_at, resistance_by_area, volt_drop,
};
use wirewend::plan::Regime;
use wirewend::rules::RuleBook;
use wirewend::rules::words::{DemandGroup, Strand, TemperatureOf};
use wirewend::units::{Amps, Celsius, Csa, Ohms, OhmsPerMetre, Seconds, Volts, Watts};

struct Example {
    id: String,
    whole: Value,
}

impl Example {
    fn named(id: &str) -> Self {
        let all: Vec<Value> =
            serde_json::from_str(include_str!("../../fixtures/worked_examples.json"))
                .expect("a fixture");
        let whole =
            all.into_iter().find(|example| example["id"] == id).expect("an example of that name");
        Self { id: id.to_owned(), whole }
    }

    fn at(&self, path: &str) -> f64 {
        self.whole.pointer(path).and_then(Value::as_f64).unwrap_or_else(|| panic!("{path}"))
    }

    fn input(&self, name: &str) -> f64 {
        self.at(&format!("/inputs/{name}"))
    }

    /// Holds a figure against an answer, within the example's own tolerance.
    fn holds(&self, answer: &str, got: f64, tolerance: &str) {
        let expected = self.at(&format!("/expected/{answer}"));
        let tolerance = self.at(&format!("/tolerance/{tolerance}"));
        assert!(
            (got - expected).abs() <= tolerance,
            "{} {answer}: {got}, published {expected} ± {tolerance} ({})",
            self.id,
            self.whole["source"]
        );
    }
}

const NONE: OhmsPerMetre = OhmsPerMetre(0.0);

/// Electrical Installation Guide 2018, p. G22: feeder and branch.
#[test]
fn vd01_a_three_phase_feeder_and_a_branch() {
    let example = Example::named("VD01");
    let rho = example.input("feeder/rho_ohm_mm2_m");
    let feeder_r = resistance_by_area(rho, example.input("feeder/mm2"));
    let branch_r = resistance_by_area(rho, example.input("branch/mm2"));
    let (metres, amps) = (example.input("feeder/length_m"), example.input("feeder/I_A"));
    let line = volt_drop(3.0f64.sqrt(), feeder_r, NONE, 1.0, metres, amps);
    example.holds("feeder_V_line_line", line.0, "V");
    // The branch hangs off one phase of the feeder, whose own loads balance.
    let (branch_m, branch_a) = (example.input("branch/length_m"), example.input("branch/I_A"));
    let z = |r: OhmsPerMetre, times: f64, metres: f64| Phasor::new(r.0 * times * metres, 0.0);
    let network = Feeder {
        spans: vec![
            Span { from: 0, to: 1, impedance: z(feeder_r, 1.0, metres) },
            Span { from: 1, to: 2, impedance: z(branch_r, 2.0, branch_m) },
        ],
        closing: None,
    };
    let load = |current| Load { current, power_factor: 1.0 };
    let source = example.input("U0_V");
    let volts =
        network.voltages(Volts(source), &[load(0.0), load(amps - branch_a), load(branch_a)]);
    let (to_feeder, to_end) = (source - volts[1].magnitude(), source - volts[2].magnitude());
    example.holds("feeder_V_phase_neutral", to_feeder, "V");
    example.holds("branch_V", to_end - to_feeder, "V");
    example.holds("total_V", to_end, "V");
    example.holds("total_percent", to_end / source * 100.0, "percent");
}

/// College notes: cables, conduits and trunking.
#[test]
fn vd03_a_cooker_at_240_v() {
    let example = Example::named("VD03");
    let voltage = Volts(example.input("U_V"));
    let current = Watts(example.input("P_W")) / voltage;
    let one_way = OhmsPerMetre(example.input("mV_A_m") / 1000.0 / 2.0);
    let drop = volt_drop(2.0, one_way, NONE, 1.0, example.input("length_m"), current.0);
    example.holds("I_A", current.0, "V");
    example.holds("drop_V", drop.0, "V");
    example.holds("percent", drop / voltage * 100.0, "percent");
}

/// A United States licence-exam lesson: the K method, and one size up.
#[test]
fn vd05_the_k_method_in_feet() {
    let example = Example::named("VD05");
    let (amps, feet, volts) =
        (example.input("I_A"), example.input("length_ft"), example.input("U_V"));
    for (area, answer) in [("/inputs/CM", ""), ("/expected/upsized/CM", "upsized/")] {
        let per_foot = resistance_by_area(example.input("K"), example.at(area));
        let drop = volt_drop(2.0, per_foot, NONE, 1.0, feet, amps);
        example.holds(&format!("{answer}drop_V"), drop.0, "V");
        example.holds(&format!("{answer}percent"), drop.0 / volts * 100.0, "percent");
    }
}

/// An electrical contractor's article: a motor in conduit, by load, heat and drop.
#[test]
fn vd08_a_motor_in_conduit() {
    let example = Example::named("VD08");
    let voltage = Volts(example.input("U_V"));
    let taken = Watts(example.input("P_out_W") / example.input("efficiency"));
    let current = Amps((taken / voltage).0 / example.input("power_factor"));
    example.holds("IB_A", current.0, "A");
    let ambient = Celsius(example.input("ambient_C"));
    let factor = ambient_factor(Celsius(70.0), ambient, Celsius(30.0));
    let least = example.input("In_A") / corrected_rating(Amps(1.0), &[factor]).0;
    example.holds("It_least_A", least, "It");
    let one_way = OhmsPerMetre(example.input("mV_A_m") / 1000.0 / 2.0);
    let drop = volt_drop(2.0, one_way, NONE, 1.0, example.input("length_m"), current.0);
    let limit = example.at("/expected/drop_V_limit");
    assert!(drop.0 <= limit && drop.0 > 0.95 * limit, "{} V, just within {limit} V", drop.0);
}

/// UK trade forum: ring final volt drop.
#[test]
fn vd07_a_ring_with_its_load_in_the_middle() {
    let example = Example::named("VD07");
    let per_metre = example.input("mV_A_m") / 1000.0;
    let (metres, amps) = (example.input("loop_length_m"), example.input("I_A"));
    let radial = volt_drop(2.0, OhmsPerMetre(per_metre / 2.0), NONE, 1.0, metres, amps);
    example.holds("as_radial_V", radial.0, "V");
    let half = Phasor::new(per_metre * metres / 2.0, 0.0);
    let ring = Feeder {
        spans: vec![Span { from: 0, to: 1, impedance: half }],
        closing: Some(Span { from: 1, to: 0, impedance: half }),
    };
    let load = |current| Load { current, power_factor: 1.0 };
    let volts = ring.voltages(Volts(230.0), &[load(0.0), load(amps)]);
    example.holds("ring_V", 230.0 - volts[1].magnitude(), "V");
}

/// UK trade forum study thread, on-site guide table 11.
#[test]
fn r01_phase_and_earth_of_22_m() {
    let example = Example::named("R01");
    let metres = example.input("length_m");
    let of = |name: &str| table_resistance(Regime::BS, example.input(name));
    let (line, earth) = (of("line_mm2"), of("cpc_mm2"));
    example.holds("R1_ohm", loop_resistance(line, NONE, metres).0, "ohm");
    example.holds("R2_ohm", loop_resistance(NONE, earth, metres).0, "ohm");
    example.holds("R1R2_ohm", loop_resistance(line, earth, metres).0, "ohm");
}

/// UK trade forum: loop impedance of 10 m of 1.5/1.
#[test]
fn z01_a_loop_at_working_temperature() {
    let example = Example::named("Z01");
    let of = |name: &str| table_resistance(Regime::BS, example.input(name));
    let cold = of("line_mm2") + of("cpc_mm2");
    let metres = example.input("length_m");
    // The multiplier is the one from 20 to 70 °C, and is worked out here.
    let rules = RuleBook::shipped();
    let zero = rules.of(Regime::BS).temperature.row(TemperatureOf::ZeroResistance).temperature;
    let hot = resistance_at(cold, Celsius(70.0), zero);
    assert!((hot.0 / cold.0 - example.input("multiplier")).abs() < 1e-9, "20 to 70 °C");
    example.holds("R1R2_hot_ohm", hot.0 * metres, "ohm");
    let loop_ohms = loop_impedance(Ohms(example.input("Ze_ohm")), cold, metres, hot.0 / cold.0);
    example.holds("Zs_ohm", loop_ohms.0, "ohm");
}

/// UK trade forum: maximum length by loop impedance, 16th edition margin.
#[test]
fn l01_the_longest_cable_by_its_loop() {
    let example = Example::named("L01");
    let limit = Ohms(example.input("Zs_max_ohm") * example.input("margin_factor"));
    let per_metre = OhmsPerMetre(example.input("mOhm_per_m") / 1000.0);
    let metres = longest_by_loop(limit, Ohms(example.input("Ze_ohm")), per_metre, 1.0);
    example.holds("length_m", metres, "m");
}

/// Electrical Installation Guide 2008, figure F44.
#[test]
fn l02_the_longest_cable_by_the_conventional_method() {
    let example = Example::named("L02");
    let trips = Amps(example.input("In_A") * example.input("Ia_multiple"));
    let metres = longest_conventional(
        Volts(example.input("U0_V")),
        example.input("mm2"),
        example.input("m_Sph_over_Spe"),
        example.input("rho"),
        trips,
    );
    example.holds("length_m", metres, "m");
}

/// Electrical Installation Guide 2008, figure G47.
#[test]
fn l06_the_longest_cable_by_short_circuit() {
    let example = Example::named("L06");
    let trips = Amps(example.input("Im_A") * (1.0 + example.input("Im_tolerance")));
    let metres = longest_by_short_circuit(
        Volts(example.input("U_V")),
        example.input("mm2"),
        example.input("rho"),
        trips,
    );
    example.holds("length_m", metres, "m");
}

/// Basic Electrical Installation Work, p. 251.
#[test]
fn a01_an_earth_that_stands_its_fault() {
    let example = Example::named("A01");
    let current = Volts(example.input("U0_V")) / Ohms(example.input("Zs_ohm"));
    example.holds("I_A", current.0, "mm2");
    let least = least_section(current, Seconds(example.input("t_s")), example.input("k"));
    example.holds("S_mm2", least, "mm2");
    assert!(least <= 1.5, "an earth of 1.5 mm² stands it");
}

/// Compressor maker's instruction book: method B2 of IEC 60364-5-52 by ambient.
#[test]
fn d02_ratings_in_the_heat() {
    let example = Example::named("D02");
    for place in 0..4 {
        let ambient = example.input(&format!("ambients_C/{place}"));
        let factor = ambient_factor(Celsius(70.0), Celsius(ambient), Celsius(30.0));
        // The source takes its factors from a table of two decimals.
        let printed = (factor * 100.0).round() / 100.0;
        let rating = corrected_rating(Amps(example.input("It_A")), &[printed]);
        example.holds(&format!("Iz_A/{place}"), rating.0, "A");
    }
}

/// Australian teaching page: maximum demand by table C1.
#[test]
fn m01_the_demand_of_an_australian_house() {
    let example = Example::named("M01");
    let rules = RuleBook::shipped();
    let rule = |group| DemandRule::of(group, &rules, Regime::AS_NZS).unwrap();
    let kilowatts = |name| Watts(example.input(name) * 1000.0) / Volts(example.input("U_V"));
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "small counts")]
    let points = |name| example.input(name) as u32;
    let group = |answer: &str, demand: Amps| {
        example.holds(answer, demand.0, "A");
        demand.0
    };
    let total =
        group("lighting_A", rule(DemandGroup::Lighting).demand(points("lighting_points"), &[]))
            + group("sockets_A", rule(DemandGroup::Sockets).demand(points("sockets_10A"), &[]))
            + group(
                "sockets15_A",
                rule(DemandGroup::Sockets15A).demand(points("sockets_15A"), &[]),
            )
            + group("oven_A", rule(DemandGroup::Cooking).demand(1, &[kilowatts("oven_kW")]))
            + group("cooktop_A", rule(DemandGroup::Cooking).demand(1, &[kilowatts("cooktop_kW")]))
            + group(
                "aircon_A",
                rule(DemandGroup::Heating).demand(1, &[Amps(example.input("aircon_A"))]),
            )
            + group(
                "water_A",
                rule(DemandGroup::WaterStorage).demand(1, &[kilowatts("storage_water_kW")]),
            );
    example.holds("total_A", total, "A");
}

/// UK trade forum: cooker diversity.
#[test]
fn m03_a_large_cooker() {
    let example = Example::named("M03");
    let load = Watts(example.input("P_kW") * 1000.0) / Volts(example.input("U_V"));
    let demand = cooker_demand(load, false, &RuleBook::shipped(), Regime::BS).unwrap();
    example.holds("demand_A", demand.0, "A");
    // The source truncates the full current to whole amperes.
    example.holds("full_A", load.0.floor(), "A");
}

#[test]
fn every_example_in_the_fixture_has_its_test() {
    let all: Vec<Value> =
        serde_json::from_str(include_str!("../../fixtures/worked_examples.json")).unwrap();
    let source = include_str!("worked_examples.rs");
    for example in &all {
        let call = format!("Example::named({})", example["id"]);
        assert!(source.contains(&call), "{} is not tested", example["id"]);
    }
}

fn table_resistance(regime: Regime, mm2: f64) -> OhmsPerMetre {
    let rules = RuleBook::shipped();
    let key = (Strand::Fixed, Csa::try_from(mm2).unwrap());
    let row = rules.of(regime).conductor_resistance.row(key).expect("a size of IEC 60228");
    row.resistance.per_metre()
}
