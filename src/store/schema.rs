//! The JSON Schema of plan files.

use schemars::generate::SchemaSettings;
use serde_json::{Value, json};

use super::{VERSION, VERSION_KEY};
use crate::plan::Plan;

/// The JSON Schema (draft 2020-12) of plan files, for editors and for other
/// tools that write plans. Descriptions and units come from the types
/// themselves.
///
/// A schema cannot say that what is named must exist; [`super::read()`] checks
/// that too.
///
/// # Panics
/// Never: a schema has a form in JSON.
#[must_use]
pub fn schema() -> String {
    let schema = SchemaSettings::draft2020_12().into_generator().into_root_schema_for::<Plan>();
    let mut schema = schema.to_value();
    if let Some(root) = schema.as_object_mut() {
        root.insert("title".to_owned(), json!("Wirewend plan"));
        root.insert("required".to_owned(), json!([VERSION_KEY]));
        if let Some(Value::Object(properties)) = root.get_mut("properties") {
            let version = json!({
                "description": "The version of the file layout.",
                "const": VERSION,
            });
            properties.shift_insert(0, VERSION_KEY.to_owned(), version);
        }
    }
    let mut text = serde_json::to_string_pretty(&schema).expect("a schema is JSON already");
    text.push('\n');
    text
}
