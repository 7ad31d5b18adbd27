//! Reading a table from its text.

use indexmap::IndexMap;

use super::{Cells, Heading, Key, Owner, Row, RuleError, Spec};

/// The rows of a table by their keys, in the order of the file.
pub(super) type Rows<R> = IndexMap<String, R>;

/// Reads the rows of a table.
///
/// # Errors
/// [`RuleError`] where the heading or a cell is not what the table asks for.
pub(super) fn read<R: Row>(file: &str, text: &str, owner: Owner) -> Result<Rows<R>, RuleError> {
    let mut reader = csv::ReaderBuilder::new()
        .trim(csv::Trim::All)
        .comment(Some(b'#'))
        .from_reader(text.as_bytes());
    let heading = reader.headers().map_err(|problem| syntax(file, &problem))?.clone();
    let columns = Columns::find(file, &R::SPEC, &heading)?;
    let mut rows = Rows::new();
    for record in reader.records() {
        let record = record.map_err(|problem| syntax(file, &problem))?;
        let line = record.position().map_or(0, csv::Position::line);
        let mut cells = Cells { file, line, owner, record: &record, columns: &columns, next: 0 };
        let row = R::read(&mut cells)?;
        let key = row.key().text();
        if rows.insert(key.clone(), row).is_some() {
            return Err(RuleError::Twice { file: file.to_owned(), line, key });
        }
    }
    Ok(rows)
}

/// Where the columns stand in a file.
#[derive(Debug)]
pub(super) struct Columns {
    /// Keys and values as the description lists them.
    pub(super) named: Vec<(&'static str, usize)>,
    pub(super) source: usize,
    pub(super) grade: Option<usize>,
    pub(super) note: Option<usize>,
}

impl Columns {
    fn find(file: &str, spec: &Spec, heading: &csv::StringRecord) -> Result<Self, RuleError> {
        let line = heading.position().map_or(1, csv::Position::line);
        let place = |name: &str| heading.iter().position(|column| column == name);
        for (index, column) in heading.iter().enumerate() {
            check_heading(file, line, spec, heading, column)?;
            if place(column) != Some(index) {
                let column = column.to_owned();
                return Err(RuleError::ColumnTwice { file: file.to_owned(), line, column });
            }
        }
        let must = |name: &'static str| {
            place(name).ok_or_else(|| RuleError::MissingColumn {
                file: file.to_owned(),
                line,
                column: name,
            })
        };
        let named = spec.headings().map(|heading| Ok((heading.name, must(heading.name)?)));
        Ok(Self {
            named: named.collect::<Result<_, _>>()?,
            source: must("source")?,
            grade: place("grade"),
            note: place("note"),
        })
    }
}

/// A column that the table does not know is likely one that it lacks, with a
/// letter or the unit wrong.
fn check_heading(
    file: &str,
    line: u64,
    spec: &Spec,
    heading: &csv::StringRecord,
    column: &str,
) -> Result<(), RuleError> {
    let known = || spec.headings().map(|Heading { name, .. }| *name).chain(CITED);
    if known().any(|name| name == column) {
        return Ok(());
    }
    let lacking = known().filter(|name| !heading.iter().any(|column| column == *name));
    let nearest = lacking.min_by_key(|name| strsim::levenshtein(name, column));
    let hint = nearest.map_or_else(String::new, |name| format!("; did you mean \"{name}\"?"));
    Err(RuleError::UnknownColumn { file: file.to_owned(), line, column: column.to_owned(), hint })
}

/// The columns of every table.
const CITED: [&str; 3] = ["source", "grade", "note"];

fn syntax(file: &str, problem: &csv::Error) -> RuleError {
    let line = problem.position().map_or(0, csv::Position::line);
    RuleError::Syntax { file: file.to_owned(), line, problem: problem.to_string() }
}
