//! Lists as the pages of a workbook (ISO/IEC 29500).

use rust_xlsxwriter::{DocProperties, ExcelDateTime, Format, Workbook, XlsxError};

use super::{List, Value};

/// A workbook with a page for every list.
///
/// # Errors
/// A message where a list is larger than a page of a workbook can be.
pub fn workbook(lists: &[List]) -> Result<Vec<u8>, String> {
    written(lists).map_err(|error| error.to_string())
}

fn written(lists: &[List]) -> Result<Vec<u8>, XlsxError> {
    let mut book = Workbook::new();
    // A fixed day, so that the same lists give the same bytes.
    let day = ExcelDateTime::from_ymd(2000, 1, 1)?;
    book.set_properties(&DocProperties::new().set_creation_datetime(&day));
    let bold = Format::new().set_bold();
    let metres = Format::new().set_num_format("0.000");
    let money = Format::new().set_num_format("0.00");
    for list in lists {
        let page = book.add_worksheet();
        page.set_name(list.name)?;
        page.set_freeze_panes(1, 0)?;
        for (column, heading) in (0u16..).zip(&list.headings) {
            page.write_string_with_format(0, column, *heading, &bold)?;
        }
        for (row, values) in (1u32..).zip(&list.rows) {
            for (column, value) in (0u16..).zip(values) {
                match value {
                    Value::Text(text) if text.is_empty() => {}
                    Value::Text(text) => {
                        page.write_string(row, column, text)?;
                    }
                    Value::Count(count) => {
                        let count = u32::try_from(*count).unwrap_or(u32::MAX);
                        page.write_number(row, column, f64::from(count))?;
                    }
                    Value::Metres(length) => {
                        page.write_number_with_format(row, column, length.metres(), &metres)?;
                    }
                    Value::Money(cents) => {
                        #[expect(clippy::cast_precision_loss, reason = "far below 2^53")]
                        let amount = cents.get() as f64 / 100.0;
                        page.write_number_with_format(row, column, amount, &money)?;
                    }
                    Value::Figure(value) => {
                        page.write_number(row, column, *value)?;
                    }
                    Value::Empty => {}
                }
            }
        }
        page.autofit();
    }
    book.save_to_buffer()
}
