//! All rule tables, at once.

use std::collections::BTreeMap;

use wirewend::rules::{RuleBook, SPECS, Table, Trend};

#[test]
fn every_table_has_known_columns_sources_and_the_trends_of_physics() {
    let book = RuleBook::shipped();
    let mut seen: BTreeMap<&str, usize> = BTreeMap::new();
    for (regime, table) in book.tables() {
        *seen.entry(table.spec.name).or_default() += table.rows.len();
        for (key, row) in &table.rows {
            assert!(row.source.len() > 8, "{regime:?} {} {key}: a source", table.spec.name);
        }
        check_trend(table);
    }
    for spec in SPECS {
        assert!(seen.get(spec.name).is_some_and(|rows| *rows > 0), "{} has no row", spec.name);
        for (column, _) in spec.values {
            assert!(has_unit(column), "{}: the heading \"{column}\" says no unit", spec.name);
        }
    }
}

fn check_trend(table: &Table) {
    let (by, value, sign) = match table.spec.trend {
        None => return,
        Some(Trend::Rising { by, value }) => (by, value, 1.0),
        Some(Trend::Falling { by, value }) => (by, value, -1.0),
    };
    let by = table.spec.keys.iter().position(|key| *key == by).expect("a key of the table");
    let value =
        table.spec.values.iter().position(|(name, _)| *name == value).expect("a value of it");
    let mut groups: BTreeMap<String, Vec<(f64, f64)>> = BTreeMap::new();
    for row in table.rows.values() {
        let mut others = row.keys.clone();
        others.remove(by);
        let pair = (row.key_number(by).expect("a number"), row.number(value).expect("a number"));
        groups.entry(others.join(",")).or_default().push(pair);
    }
    for (group, mut pairs) in groups {
        pairs.sort_by(|a, b| a.0.total_cmp(&b.0));
        for step in pairs.windows(2) {
            assert!(
                (step[1].1 - step[0].1) * sign >= 0.0,
                "{} {group}: {step:?} goes the wrong way",
                table.spec.name
            );
        }
    }
}

/// Columns whose values are words, numbers of things, ratios or multiples have
/// no unit to say.
fn has_unit(column: &str) -> bool {
    let units = [
        "_a",
        "_mm",
        "_mm2",
        "_c",
        "_s",
        "_ms",
        "_v",
        "_w",
        "_ka",
        "_a2s",
        "_mohm",
        "_percent",
        "_ohm_per_km",
        "_mv_per_a_m",
        "_km_per_w",
    ];
    let plain = [
        "method",
        "curve",
        "wiring",
        "loop",
        "grouping",
        "factor",
        "ratio",
        "count",
        "points",
        "exponent",
        "coefficient_a",
        "at_least",
        "at_most",
        "disconnection",
        "count_first",
        "count_step",
        "ends_max",
        "size_mm2_max",
        "total_mm2_max",
        "height_min_mm",
        "height_max_mm",
    ];
    plain.contains(&column) || units.iter().any(|unit| column.ends_with(unit))
}
