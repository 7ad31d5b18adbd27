//! What tables there are, and what their columns hold.

/// What a value column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A number in the unit of the heading.
    Number,
    /// A number, or nothing where the rule has no such part.
    NumberOrEmpty,
    /// A word.
    Text,
}

impl Kind {
    /// What a person should write there.
    #[must_use]
    pub const fn expected(self) -> &'static str {
        match self {
            Self::Number => "a number",
            Self::NumberOrEmpty => "a number or nothing",
            Self::Text => "a word",
        }
    }
}

/// How physics says a value must go as a key rises, the other keys alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trend {
    /// Never falls.
    Rising {
        /// The key column, a number.
        by: &'static str,
        /// The value column.
        value: &'static str,
    },
    /// Never rises.
    Falling {
        /// The key column, a number.
        by: &'static str,
        /// The value column.
        value: &'static str,
    },
}

/// What a table is: its name and columns. Every table also has `source`,
/// `grade` and `note`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Spec {
    /// The name of its file, without `.csv`.
    pub name: &'static str,
    /// The key columns.
    pub keys: &'static [&'static str],
    /// The value columns.
    pub values: &'static [(&'static str, Kind)],
    /// What physics says of it.
    pub trend: Option<Trend>,
}

impl Spec {
    /// The table of that name.
    #[must_use]
    pub fn named(name: &str) -> Option<&'static Self> {
        SPECS.iter().find(|spec| spec.name == name)
    }
}

/// Every table.
pub const SPECS: &[Spec] = &[
    Spec { name: "balance", keys: &["what"], values: &[("factor", Kind::Number)], trend: None },
    Spec {
        name: "lights_spread",
        keys: &["what"],
        values: &[("count", Kind::Number)],
        trend: None,
    },
    Spec { name: "breaker_rating", keys: &["rating_a"], values: &[], trend: None },
    Spec {
        name: "cable_outline",
        keys: &["make", "size_mm2"],
        values: &[("width_mm", Kind::Number), ("thickness_mm", Kind::Number)],
        trend: Some(Trend::Rising { by: "size_mm2", value: "width_mm" }),
    },
    Spec {
        name: "capacity_law",
        keys: &["method"],
        values: &[
            ("coefficient_a", Kind::Number),
            ("exponent", Kind::Number),
            ("conductor_c", Kind::Number),
            ("ambient_c", Kind::Number),
        ],
        trend: None,
    },
    Spec {
        name: "circuit_standard",
        keys: &["purpose"],
        values: &[
            ("size_mm2", Kind::Number),
            ("rating_a", Kind::Number),
            ("curve", Kind::Text),
            ("wiring", Kind::Text),
            ("loop", Kind::Text),
            ("fixed_mm", Kind::Number),
        ],
        trend: None,
    },
    Spec {
        name: "clearance",
        keys: &["what"],
        values: &[("distance_mm", Kind::Number)],
        trend: None,
    },
    Spec {
        name: "conductor_resistance",
        keys: &["conductor", "size_mm2"],
        values: &[("resistance_20c_ohm_per_km", Kind::Number)],
        trend: Some(Trend::Falling { by: "size_mm2", value: "resistance_20c_ohm_per_km" }),
    },
    Spec {
        name: "current_capacity",
        keys: &["method", "size_mm2"],
        values: &[("capacity_a", Kind::Number)],
        trend: Some(Trend::Rising { by: "size_mm2", value: "capacity_a" }),
    },
    Spec {
        name: "demand",
        keys: &["group"],
        values: &[
            ("count_first", Kind::NumberOrEmpty),
            ("current_first_a", Kind::NumberOrEmpty),
            ("count_step", Kind::NumberOrEmpty),
            ("current_step_a", Kind::NumberOrEmpty),
            ("full_a", Kind::NumberOrEmpty),
            ("rest_percent", Kind::NumberOrEmpty),
            ("largest_percent", Kind::NumberOrEmpty),
        ],
        trend: None,
    },
    Spec {
        name: "disconnection_time",
        keys: &["earthing", "use"],
        values: &[("time_s", Kind::Number)],
        trend: None,
    },
    Spec {
        name: "earth_conductor",
        keys: &["size_mm2"],
        values: &[("earth_mm2", Kind::Number)],
        trend: Some(Trend::Rising { by: "size_mm2", value: "earth_mm2" }),
    },
    Spec {
        name: "grouping",
        keys: &["arrangement", "circuits"],
        values: &[("factor", Kind::Number)],
        trend: Some(Trend::Falling { by: "circuits", value: "factor" }),
    },
    Spec {
        name: "height",
        keys: &["kind"],
        values: &[("height_min_mm", Kind::NumberOrEmpty), ("height_max_mm", Kind::NumberOrEmpty)],
        trend: None,
    },
    Spec {
        name: "installation_method",
        keys: &["surrounding", "make", "insulation"],
        values: &[("method", Kind::Text), ("grouping", Kind::Text)],
        trend: None,
    },
    Spec {
        name: "insulation_length",
        keys: &["length_mm"],
        values: &[("factor", Kind::Number)],
        trend: Some(Trend::Falling { by: "length_mm", value: "factor" }),
    },
    Spec {
        name: "insulation_test",
        keys: &[],
        values: &[("voltage_v", Kind::Number), ("resistance_mohm", Kind::Number)],
        trend: None,
    },
    Spec { name: "joist", keys: &["what"], values: &[("ratio", Kind::Number)], trend: None },
    Spec {
        name: "joist_cover",
        keys: &["what"],
        values: &[("distance_mm", Kind::Number)],
        trend: None,
    },
    Spec {
        name: "let_through",
        keys: &["curve", "rating_a", "fault_ka"],
        values: &[("energy_a2s", Kind::Number)],
        trend: Some(Trend::Rising { by: "rating_a", value: "energy_a2s" }),
    },
    Spec {
        name: "placing",
        keys: &["what"],
        values: &[("distance_mm", Kind::Number)],
        trend: None,
    },
    Spec {
        name: "points_per_room",
        keys: &["use", "standard", "item", "area_from_m2"],
        values: &[("count", Kind::Number)],
        trend: Some(Trend::Rising { by: "area_from_m2", value: "count" }),
    },
    Spec {
        name: "set_height",
        keys: &["kind"],
        values: &[("height_mm", Kind::Number)],
        trend: None,
    },
    Spec {
        name: "typical_load",
        keys: &["kind"],
        values: &[("load_w", Kind::Number)],
        trend: None,
    },
    Spec { name: "point_load", keys: &["kind"], values: &[("load_w", Kind::Number)], trend: None },
    Spec {
        name: "points_per_circuit",
        keys: &["use", "rating_a"],
        values: &[("points", Kind::Number)],
        trend: Some(Trend::Rising { by: "rating_a", value: "points" }),
    },
    Spec {
        name: "reactance",
        keys: &["size_mm2"],
        values: &[("reactance_ohm_per_km", Kind::Number)],
        trend: Some(Trend::Falling { by: "size_mm2", value: "reactance_ohm_per_km" }),
    },
    Spec {
        name: "residual_grouping",
        keys: &["what"],
        values: &[("count", Kind::Number)],
        trend: None,
    },
    Spec {
        name: "residual_rating",
        keys: &["use"],
        values: &[("residual_a", Kind::Number)],
        trend: None,
    },
    Spec {
        name: "residual_trip_time",
        keys: &["type", "multiple"],
        values: &[("time_ms", Kind::Number)],
        trend: None,
    },
    Spec {
        name: "ring",
        keys: &["rating_a"],
        values: &[("capacity_a", Kind::Number)],
        trend: None,
    },
    Spec {
        name: "socket_contribution",
        keys: &["gangs"],
        values: &[("current_a", Kind::Number)],
        trend: None,
    },
    Spec {
        name: "soil",
        keys: &["method", "resistivity_km_per_w"],
        values: &[("factor", Kind::Number)],
        trend: Some(Trend::Falling { by: "resistivity_km_per_w", value: "factor" }),
    },
    Spec {
        name: "soil_resistivity",
        keys: &["where"],
        values: &[("resistivity_km_per_w", Kind::Number)],
        trend: None,
    },
    Spec {
        name: "surrounding_temperature",
        keys: &["surrounding"],
        values: &[("temperature_c", Kind::Number)],
        trend: None,
    },
    Spec {
        name: "temperature",
        keys: &["what"],
        values: &[("temperature_c", Kind::Number)],
        trend: None,
    },
    Spec {
        name: "terminal",
        keys: &["kind"],
        values: &[
            ("size_mm2_max", Kind::Number),
            ("total_mm2_max", Kind::Number),
            ("ends_max", Kind::Number),
        ],
        trend: None,
    },
    Spec {
        name: "touch_voltage",
        keys: &["earthing"],
        values: &[("voltage_v", Kind::Number)],
        trend: None,
    },
    Spec {
        name: "trip_duration",
        keys: &["what"],
        values: &[("time_s", Kind::Number)],
        trend: None,
    },
    Spec {
        name: "trip_multiple",
        keys: &["curve"],
        values: &[
            ("at_least", Kind::Number),
            ("at_most", Kind::Number),
            ("disconnection", Kind::Number),
        ],
        trend: None,
    },
    Spec {
        name: "volt_drop",
        keys: &["phases", "size_mm2"],
        values: &[("drop_mv_per_a_m", Kind::Number)],
        trend: Some(Trend::Falling { by: "size_mm2", value: "drop_mv_per_a_m" }),
    },
    Spec {
        name: "volt_drop_limit",
        keys: &["supply", "use"],
        values: &[("limit_percent", Kind::Number)],
        trend: None,
    },
    Spec {
        name: "voltage_factor",
        keys: &["what"],
        values: &[("factor", Kind::Number)],
        trend: None,
    },
    Spec {
        name: "wall_zone",
        keys: &["what"],
        values: &[("distance_mm", Kind::Number)],
        trend: None,
    },
];
