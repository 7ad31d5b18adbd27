//! Reading a table from its text.

use indexmap::IndexMap;

use super::{Cell, Grade, Kind, Owner, Row, RuleError, Spec};

/// The rows of a table, found by their key.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// What the table is.
    pub spec: &'static Spec,
    /// The rows by their key, in the order of the file.
    pub rows: IndexMap<String, Row>,
}

impl Table {
    /// Reads a table.
    ///
    /// # Errors
    /// [`RuleError`] where the heading or a cell is not what the table asks for.
    pub fn read(spec: &'static Spec, text: &str, owner: Owner) -> Result<Self, RuleError> {
        let mut reader = csv::ReaderBuilder::new()
            .trim(csv::Trim::All)
            .comment(Some(b'#'))
            .from_reader(text.as_bytes());
        let heading = reader.headers().map_err(|problem| syntax(spec, &problem))?.clone();
        let columns = Columns::find(spec, &heading)?;
        let mut rows = IndexMap::new();
        for record in reader.records() {
            let record = record.map_err(|problem| syntax(spec, &problem))?;
            let line = record.position().map_or(0, csv::Position::line);
            let row = columns.row(spec, &record, line, owner)?;
            let key = join(row.keys.iter().map(String::as_str));
            if rows.insert(key.clone(), row).is_some() {
                return Err(RuleError::Twice { table: spec.name, line, key });
            }
        }
        Ok(Self { spec, rows })
    }

    /// The row of a key.
    #[must_use]
    pub fn row(&self, keys: &[&str]) -> Option<&Row> {
        self.rows.get(&join(keys.iter().copied()))
    }

    /// Takes over the rows of another reading of the same table.
    pub fn override_with(&mut self, other: Self) {
        self.rows.extend(other.rows);
    }
}

/// Where the columns stand in a file.
struct Columns {
    keys: Vec<usize>,
    values: Vec<usize>,
    source: usize,
    grade: Option<usize>,
    note: Option<usize>,
}

impl Columns {
    fn find(spec: &'static Spec, heading: &csv::StringRecord) -> Result<Self, RuleError> {
        let place = |name: &'static str| {
            heading
                .iter()
                .position(|column| column == name)
                .ok_or(RuleError::MissingColumn { table: spec.name, column: name })
        };
        let known = |column: &str| {
            spec.keys.contains(&column)
                || spec.values.iter().any(|(name, _)| *name == column)
                || ["source", "grade", "note"].contains(&column)
        };
        if let Some(column) = heading.iter().find(|column| !known(column)) {
            return Err(RuleError::UnknownColumn { table: spec.name, column: column.to_owned() });
        }
        Ok(Self {
            keys: spec.keys.iter().map(|name| place(name)).collect::<Result<_, _>>()?,
            values: spec.values.iter().map(|(name, _)| place(name)).collect::<Result<_, _>>()?,
            source: place("source")?,
            grade: place("grade").ok(),
            note: place("note").ok(),
        })
    }

    fn row(
        &self,
        spec: &'static Spec,
        record: &csv::StringRecord,
        line: u64,
        owner: Owner,
    ) -> Result<Row, RuleError> {
        let wrong = |column: &str, found: &str, expected| RuleError::Cell {
            table: spec.name,
            line,
            column: column.to_owned(),
            found: found.to_owned(),
            expected,
        };
        let at = |index: usize| record.get(index).unwrap_or("");
        let cells = spec
            .values
            .iter()
            .zip(&self.values)
            .map(|((name, kind), index)| {
                cell(*kind, at(*index)).ok_or_else(|| wrong(name, at(*index), kind.expected()))
            })
            .collect::<Result<_, _>>()?;
        let source = at(self.source);
        if source.is_empty() {
            return Err(wrong("source", "", "where the value comes from"));
        }
        let letter = self.grade.map_or("", at);
        let grade = match (Grade::from_letter(letter), owner) {
            (Some(grade), _) => grade,
            (None, Owner::User) if letter.is_empty() => Grade::B,
            _ => return Err(wrong("grade", letter, "A, B, C or D")),
        };
        Ok(Row {
            keys: self.keys.iter().map(|index| canonical(at(*index))).collect(),
            cells,
            source: source.to_owned(),
            grade,
            note: self.note.map_or("", at).to_owned(),
            owner,
        })
    }
}

fn cell(kind: Kind, text: &str) -> Option<Cell> {
    let number = || text.parse().ok().filter(|number: &f64| number.is_finite()).map(Cell::Number);
    match kind {
        Kind::Number => number(),
        Kind::NumberOrEmpty if text.is_empty() => Some(Cell::Empty),
        Kind::NumberOrEmpty => number(),
        Kind::Text => (!text.is_empty()).then(|| Cell::Text(text.to_owned())),
    }
}

/// Numbers in their shortest form, so that `2.50` finds `2.5`.
fn canonical(key: &str) -> String {
    key.parse()
        .ok()
        .filter(|number: &f64| number.is_finite())
        .map_or_else(|| key.to_owned(), |number| number.to_string())
}

fn join<'a>(keys: impl Iterator<Item = &'a str>) -> String {
    keys.collect::<Vec<_>>().join(", ")
}

fn syntax(spec: &'static Spec, problem: &csv::Error) -> RuleError {
    let line = problem.position().map_or(0, csv::Position::line);
    RuleError::Syntax { table: spec.name, line, problem: problem.to_string() }
}
