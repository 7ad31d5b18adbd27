//! All rule tables, at once: what they hold, and how they are refused.

use std::collections::BTreeMap;
use std::path::Path;

use wirewend::plan::Regime;
use wirewend::rules::{Listed, RuleBook, SPECS, Trend};

/// Tables in which every key has its row, so that no check can lack one.
const COMPLETE: [&str; 22] = [
    "balance",
    "circuit_standard",
    "clearance",
    "custom",
    "disconnection_time",
    "insulation_test",
    "installation_method",
    "joist",
    "joist_cover",
    "lights_spread",
    "placing",
    "set_height",
    "soil_resistivity",
    "surrounding_temperature",
    "temperature",
    "terminal",
    "trip_duration",
    "trip_multiple",
    "typical_load",
    "volt_drop_limit",
    "voltage_factor",
    "wall_zone",
];

/// Tables that only some regimes have.
const SOMEWHERE: [&str; 6] =
    ["circuit_area", "height", "residual_grouping", "ring", "socket_contribution", "volt_drop"];

/// A table as it lies in `assets/rules`, read by its headings alone.
struct File {
    regime: Regime,
    name: String,
    heading: Vec<String>,
    rows: Vec<Vec<String>>,
}

impl File {
    fn all() -> Vec<Self> {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/rules");
        let mut files = Vec::new();
        for regime in [Regime::AS_NZS, Regime::BS, Regime::IEC] {
            let folder = root.join(regime.key());
            let mut paths: Vec<_> =
                std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
            paths.sort();
            files.extend(paths.iter().filter_map(|path| {
                let name = path.file_name()?.to_str()?.strip_suffix(".csv")?.to_owned();
                let mut reader = csv::Reader::from_path(path).unwrap();
                let texts = |record: &csv::StringRecord| -> Vec<String> {
                    record.iter().map(str::to_owned).collect()
                };
                let heading = texts(reader.headers().unwrap());
                let rows = reader.records().map(|record| texts(&record.unwrap())).collect();
                Some(Self { regime, name, heading, rows })
            }));
        }
        files
    }

    fn path(&self) -> String {
        format!("{}/{}.csv", self.regime, self.name)
    }

    fn text(&self) -> String {
        let mut writer = csv::Writer::from_writer(Vec::new());
        writer.write_record(&self.heading).unwrap();
        for row in &self.rows {
            writer.write_record(row).unwrap();
        }
        String::from_utf8(writer.into_inner().unwrap()).unwrap()
    }

    fn column(&self, name: &str) -> usize {
        self.heading.iter().position(|column| column == name).unwrap()
    }

    /// The same with one thing changed.
    fn with(&self, change: impl FnOnce(&mut Vec<String>, &mut Vec<Vec<String>>)) -> Self {
        let (mut heading, mut rows) = (self.heading.clone(), self.rows.clone());
        change(&mut heading, &mut rows);
        Self { regime: self.regime, name: self.name.clone(), heading, rows }
    }

    fn without_column(&self, at: usize) -> Self {
        self.with(|heading, rows| {
            heading.remove(at);
            rows.iter_mut().for_each(|row| drop(row.remove(at)));
        })
    }

    /// What reading it over the shipped tables says.
    fn refused(&self) -> String {
        RuleBook::with_overrides([(self.regime, self.name.as_str(), self.text().as_str())])
            .err()
            .map_or_else(String::new, |error| error.to_string())
    }

    /// The columns that the table must have.
    fn must_have(&self) -> impl Iterator<Item = usize> + '_ {
        let needed = |column: &&String| !["grade", "note"].contains(&column.as_str());
        self.heading.iter().filter(needed).map(|column| self.column(column))
    }
}

fn whole(files: &[File]) -> Result<RuleBook, String> {
    let texts: Vec<String> = files.iter().map(File::text).collect();
    let tables = files.iter().zip(&texts);
    RuleBook::whole(tables.map(|(file, text)| (file.regime, file.name.as_str(), text.as_str())))
        .map_err(|error| error.to_string())
}

#[test]
fn every_table_has_sources_and_the_trends_of_physics() {
    let mut seen: BTreeMap<&str, usize> = BTreeMap::new();
    for (regime, table) in RuleBook::shipped().listed() {
        *seen.entry(table.spec.name).or_default() += table.rows.len();
        for row in &table.rows {
            let name = table.spec.name;
            assert!(row.cited.source.len() > 8, "{regime:?} {name} {:?}: a source", row.cells);
        }
        check_trend(&table);
    }
    for (spec, _) in SPECS {
        assert!(seen.get(spec.name).is_some_and(|rows| *rows > 0), "{} has no row", spec.name);
    }
}

fn check_trend(table: &Listed) {
    let (by, value, sign) = match table.spec.trend {
        None => return,
        Some(Trend::Rising { by, value }) => (by, value, 1.0),
        Some(Trend::Falling { by, value }) => (by, value, -1.0),
    };
    let place = |name| table.spec.headings().position(|heading| heading.name == name);
    let (by, value) = (place(by).expect("a column"), place(value).expect("a column"));
    let mut groups: BTreeMap<String, Vec<(f64, f64)>> = BTreeMap::new();
    for row in &table.rows {
        let keys = row.cells.iter().take(table.spec.keys.len()).enumerate();
        let others: Vec<&str> =
            keys.filter(|(at, _)| *at != by).map(|(_, text)| text.as_str()).collect();
        let number = |at: usize| row.cells[at].parse::<f64>().expect("a number");
        groups.entry(others.join(",")).or_default().push((number(by), number(value)));
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

#[test]
fn every_cell_is_read_as_the_file_has_it() {
    let files = File::all();
    let listed: Vec<(Regime, Listed)> = RuleBook::shipped().listed().collect();
    assert_eq!(files.len(), listed.len(), "every file is one table that ships");
    for (regime, table) in listed {
        let is_it = |file: &&File| file.regime == regime && file.name == table.spec.name;
        let file = files.iter().find(is_it).expect("its file");
        assert_eq!(file.rows.len(), table.rows.len(), "{}: rows", file.path());
        for (line, row) in file.rows.iter().zip(&table.rows) {
            for (heading, cell) in table.spec.headings().zip(&row.cells) {
                let written = &line[file.column(heading.name)];
                let same = match (written.parse::<f64>(), cell.parse::<f64>()) {
                    (Ok(written), Ok(cell)) => written.to_bits() == cell.to_bits(),
                    _ => written == cell,
                };
                let path = file.path();
                assert!(same, "{path}: {} \"{written}\" was read as \"{cell}\"", heading.name);
            }
            assert_eq!(line[file.column("source")], row.cited.source, "{}", file.path());
        }
    }
}

#[test]
fn columns_are_found_by_their_headings_and_not_by_their_places() {
    let turned: Vec<File> = File::all()
        .iter()
        .map(|file| {
            file.with(|heading, rows| {
                heading.reverse();
                rows.iter_mut().for_each(|row| row.reverse());
            })
        })
        .collect();
    assert!(whole(&turned) == Ok(RuleBook::shipped()), "the last column first");
}

#[test]
fn a_heading_with_a_letter_wrong_is_refused_with_its_file_and_line() {
    for file in File::all() {
        for at in file.must_have() {
            let column = &file.heading[at];
            let error = file.with(|heading, _| heading[at].push('x')).refused();
            assert_eq!(
                error,
                format!(
                    "{}: line 1: the column \"{column}x\" is not one of this table; \
                     did you mean \"{column}\"?",
                    file.path()
                )
            );
        }
    }
}

#[test]
fn a_heading_that_lacks_a_column_is_refused_with_its_file_and_line() {
    for file in File::all() {
        for at in file.must_have() {
            let column = &file.heading[at];
            let says =
                format!("{}: line 1: the heading lacks the column \"{column}\"", file.path());
            assert_eq!(file.without_column(at).refused(), says, "{column}");
        }
    }
}

#[test]
fn a_column_in_another_unit_is_refused() {
    let mut tried = 0;
    for file in File::all() {
        let (spec, _) = SPECS.iter().find(|(spec, _)| spec.name == file.name).expect("a table");
        for heading in spec.headings().filter(|heading| !heading.unit.is_empty()) {
            let at = file.column(heading.name);
            let other = heading.name.replace(heading.unit, "_furlong");
            let error = file.with(|heading, _| heading[at] = other.clone()).refused();
            let says = format!(
                "{}: line 1: the column \"{other}\" is not one of this table; did you mean \"{}\"?",
                file.path(),
                heading.name
            );
            assert_eq!(error, says, "another unit");
            tried += 1;
        }
    }
    assert!(tried > 80, "columns with a unit: {tried}");
}

#[test]
fn a_cell_that_holds_something_else_is_refused_with_its_file_and_line() {
    for file in File::all().iter().filter(|file| !file.rows.is_empty()) {
        let (spec, _) = SPECS.iter().find(|(spec, _)| spec.name == file.name).expect("a table");
        for heading in spec.headings() {
            let at = file.column(heading.name);
            // The name of a method is the regime's own: only none is wrong.
            let wrong = if heading.name == "method" && heading.expected.starts_with("the name") {
                ""
            } else {
                "unheard_of"
            };
            let error = file.with(|_, rows| rows[0][at] = wrong.to_owned()).refused();
            let says = format!(
                "{}: line 2: \"{}\" holds \"{wrong}\", expected {}",
                file.path(),
                heading.name,
                heading.expected
            );
            assert_eq!(error, says, "{}", heading.name);
        }
    }
}

#[test]
fn a_missing_table_is_named_when_the_tables_are_read() {
    let all = File::all();
    assert!(whole(&all).is_ok(), "all of them");
    for missing in &all {
        let others: Vec<File> = all
            .iter()
            .filter(|file| file.path() != missing.path())
            .map(|file| file.with(|_, _| ()))
            .collect();
        let needed = missing.regime == Regime::IEC;
        let says = whole(&others).err().unwrap_or_default();
        if needed {
            assert_eq!(says, format!("{}: this table is missing", missing.path()));
        } else {
            assert_eq!(says, "", "{}: the international one stands in", missing.path());
        }
    }
    for (spec, _) in SPECS {
        let base = all.iter().any(|file| file.regime == Regime::IEC && file.name == spec.name);
        assert_eq!(base, !SOMEWHERE.contains(&spec.name), "{}", spec.name);
    }
}

#[test]
fn a_complete_table_that_lacks_a_row_is_refused_and_names_it() {
    let all = File::all();
    for table in all.iter().filter(|file| file.regime == Regime::IEC) {
        let files: Vec<File> = all
            .iter()
            .map(|file| {
                file.with(|_, rows| {
                    if file.path() == table.path() {
                        rows.pop();
                    }
                })
            })
            .collect();
        let says = whole(&files).err().unwrap_or_default();
        if COMPLETE.contains(&table.name.as_str()) {
            let path = format!("/{}.csv: no row for \"", table.name);
            assert!(says.contains(&path) && says.ends_with("which this table must have"), "{says}");
        } else {
            assert_eq!(says, "", "{}: its rows are as they come", table.path());
        }
    }
}
