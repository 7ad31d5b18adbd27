//! The text of a plan file: one noun a line.

use serde_json::Value;
use wirewend::plan::Plan;

/// A plan as the text of a `.wend` file.
pub(crate) fn text(plan: &Plan) -> String {
    let value = serde_json::to_value(plan).expect("a plan of plain data has a JSON form");
    let mut text = "{\n  \"wirewend\": 1".to_owned();
    for (key, section) in value.as_object().expect("a plan is an object") {
        let depth = if ["stock", "prices", "kept"].contains(&key.as_str()) { 2 } else { 1 };
        text.push_str(&format!(",\n  \"{key}\": "));
        push(&mut text, section, 2, depth);
    }
    text.push_str("\n}\n");
    text
}

/// Writes a value, with its parts on lines of their own down to a depth.
fn push(text: &mut String, value: &Value, indent: usize, depth: usize) {
    let (open, close, parts) = match value {
        Value::Object(map) => ('{', '}', map.iter().map(|(key, part)| (Some(key), part)).collect()),
        Value::Array(list) => ('[', ']', list.iter().map(|part| (None, part)).collect::<Vec<_>>()),
        Value::Number(number) => {
            let number = number.to_string();
            return text.push_str(number.strip_suffix(".0").unwrap_or(&number));
        }
        other => return text.push_str(&other.to_string()),
    };
    let broken = depth > 0 && !parts.is_empty();
    text.push(open);
    for (index, (key, part)) in parts.iter().enumerate() {
        text.push_str(match (index, broken) {
            (0, _) => "",
            (_, true) => ",",
            (_, false) => ", ",
        });
        if broken {
            text.push_str(&format!("\n{}", " ".repeat(indent + 2)));
        }
        if let Some(key) = key {
            text.push_str(&format!("{}: ", Value::from(key.as_str())));
        }
        push(text, part, indent + 2, depth.saturating_sub(1));
    }
    if broken {
        text.push_str(&format!("\n{}", " ".repeat(indent)));
    }
    text.push(close);
}
