//! Lists to reckon on with: as comma-separated text and as a workbook.

mod contents;
mod readings;
mod set_out;
mod workbook;

pub use contents::{cable_list, cut_list, point_list};
pub use readings::reading_list;
pub use set_out::set_out_list;
pub use workbook::workbook;

use crate::wording::Marks;

/// A list with a heading to every column.
#[derive(Clone, Debug, PartialEq)]
pub struct List {
    /// What it is called: a file, a page of a workbook.
    pub name: &'static str,
    /// What stands in each column, with its unit.
    pub headings: Vec<&'static str>,
    /// Its rows, a value a column.
    pub rows: Vec<Vec<Value>>,
}

/// What stands in a field.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// Words.
    Text(String),
    /// A count.
    Count(usize),
    /// A length, written in metres to the millimetre.
    Metres(crate::units::Mm),
    /// Money, written in whole units with cents.
    Money(crate::units::Cents),
    /// A figure in the unit of its row or column.
    Figure(f64),
    /// Not known.
    Empty,
}

impl Value {
    /// As text, with a full stop for the decimal mark.
    #[must_use]
    pub fn text(&self) -> String {
        match self {
            Self::Text(text) => text.clone(),
            Self::Count(count) => count.to_string(),
            Self::Metres(length) => Marks::FILES.metres_to_mm(*length),
            Self::Money(cents) => Marks::FILES.money(*cents),
            Self::Figure(value) => Marks::FILES.short(*value, 3),
            Self::Empty => String::new(),
        }
    }
}

/// The list as comma-separated text (RFC 4180), headings first.
#[must_use]
pub fn csv(list: &List) -> String {
    let mut writer =
        csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    // Writing into memory cannot fail.
    let _ = writer.write_record(&list.headings);
    for row in &list.rows {
        let _ = writer.write_record(row.iter().map(|value| guarded(&value.text())));
    }
    String::from_utf8(writer.into_inner().unwrap_or_default()).unwrap_or_default()
}

/// Text that a spreadsheet would take for a formula begins with an apostrophe.
fn guarded(text: &str) -> String {
    let number = text.parse::<f64>().is_ok();
    if !number && text.starts_with(['=', '+', '-', '@']) {
        format!("'{text}")
    } else {
        text.to_owned()
    }
}
