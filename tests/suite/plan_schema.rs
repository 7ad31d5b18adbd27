//! The schema of plan files: it accepts what is written, and refuses what the
//! reader refuses by shape alone.

#![expect(clippy::unwrap_used, reason = "a test fails by panicking, in its helpers too")]

use serde_json::{Value, json};
use wirewend::plan::Plan;
use wirewend::store::{read, schema, write};

use crate::sample;

/// Whether a value follows a schema, by as much of JSON Schema 2020-12 as the
/// plan's schema uses. A keyword that is not known here fails the test.
fn follows(value: &Value, schema: &Value, root: &Value) -> bool {
    let Value::Object(rules) = schema else { return schema != &Value::Bool(false) };
    rules.iter().all(|(keyword, rule)| match keyword.as_str() {
        "$schema" | "title" | "description" | "default" | "format" | "$defs" | "examples" => true,
        "$ref" => {
            let pointer = rule.as_str().unwrap().trim_start_matches('#');
            follows(value, root.pointer(pointer).unwrap(), root)
        }
        "type" => match rule {
            Value::Array(types) => types.iter().any(|one| has_type(value, one)),
            one => has_type(value, one),
        },
        "const" => value == rule,
        "enum" => rule.as_array().unwrap().contains(value),
        "anyOf" => rule.as_array().unwrap().iter().any(|one| follows(value, one, root)),
        "oneOf" => {
            let choices = rule.as_array().unwrap().iter();
            choices.filter(|one| follows(value, one, root)).count() == 1
        }
        "required" => value.as_object().is_none_or(|entries| {
            rule.as_array().unwrap().iter().all(|key| entries.contains_key(key.as_str().unwrap()))
        }),
        "properties" => value.as_object().is_none_or(|entries| {
            entries
                .iter()
                .all(|(key, value)| rule.get(key).is_none_or(|schema| follows(value, schema, root)))
        }),
        "patternProperties" => value.as_object().is_none_or(|entries| {
            entries.iter().all(|(key, value)| {
                let mut patterns = rule.as_object().unwrap().iter();
                patterns
                    .all(|(pattern, schema)| !matches(key, pattern) || follows(value, schema, root))
            })
        }),
        "additionalProperties" => value.as_object().is_none_or(|entries| {
            let declared = |key: &str| {
                let named = rules.get("properties").is_some_and(|it| it.get(key).is_some());
                named
                    || rules.get("patternProperties").is_some_and(|patterns| {
                        patterns.as_object().unwrap().keys().any(|it| matches(key, it))
                    })
            };
            let mut others = entries.iter().filter(|(key, _)| !declared(key));
            others.all(|(_, value)| follows(value, rule, root))
        }),
        "items" => {
            value.as_array().is_none_or(|items| items.iter().all(|item| follows(item, rule, root)))
        }
        "minItems" => value.as_array().is_none_or(|it| it.len() as u64 >= rule.as_u64().unwrap()),
        "maxItems" => value.as_array().is_none_or(|it| it.len() as u64 <= rule.as_u64().unwrap()),
        "minimum" => value.as_f64().is_none_or(|it| it >= rule.as_f64().unwrap()),
        "maximum" => value.as_f64().is_none_or(|it| it <= rule.as_f64().unwrap()),
        "maxLength" => {
            value.as_str().is_none_or(|it| it.chars().count() as u64 <= rule.as_u64().unwrap())
        }
        "pattern" => value.as_str().is_none_or(|it| matches(it, rule.as_str().unwrap())),
        other => panic!("the schema uses {other}, which this check does not know"),
    })
}

fn has_type(value: &Value, name: &Value) -> bool {
    match name.as_str().unwrap() {
        "object" => value.is_object(),
        "array" => value.is_array(),
        "string" => value.is_string(),
        "boolean" => value.is_boolean(),
        "null" => value.is_null(),
        "number" => value.is_number(),
        "integer" => value.is_i64() || value.is_u64(),
        other => panic!("no type {other}"),
    }
}

/// The patterns are in the form that ECMA-262 and this reader share.
fn matches(text: &str, pattern: &str) -> bool {
    regex_lite::Regex::new(pattern).unwrap().is_match(text)
}

fn follows_the_schema(file: &Value) -> bool {
    let schema: Value = serde_json::from_str(&schema()).unwrap();
    follows(file, &schema, &schema)
}

#[test]
fn what_is_written_follows_the_schema() {
    for plan in [Plan::default(), sample::plan()] {
        let file: Value = serde_json::from_str(&write(&plan)).unwrap();
        assert!(follows_the_schema(&file), "{file:#}");
    }
}

#[test]
fn the_schema_and_the_reader_refuse_alike() {
    let good: Value = serde_json::from_str(&write(&sample::plan())).unwrap();
    for (place, bad) in [
        ("/wirewend", json!(2)),
        ("/walls/W4/thickness", json!("110")),
        ("/walls/W4/thickness", json!(110.5)),
        ("/walls/W4/level", json!("W4")),
        ("/walls/W4/build", json!("stood")),
        ("/walls/W4/a", json!([0])),
        ("/walls/W4", json!({})),
        ("/circuits/C21/number", json!(65_536)),
        ("/circuits/C21/number", json!(-1)),
        ("/points/P30/place", json!({"roof": {}})),
        ("/points/P30/gangs", json!(256)),
        ("/areas/A10/effect", json!({"percent": "x"})),
        // A way that pays for being gone would be gone round for ever.
        ("/habits/bend", json!(-1)),
        ("/habits/plate", json!(-1)),
        ("/habits/corner", json!(-7100)),
        ("/areas/A10/effect", json!({"barrier": -50_000})),
        ("/project/status", json!(null)),
        ("/project/regime", json!("BS")),
        ("/project/regime", json!("four-and-twenty-letters-x")),
        ("/project/regime", json!(7)),
        ("/measured", json!({})),
    ] {
        let mut file = good.clone();
        *file.pointer_mut(place).unwrap() = bad.clone();
        assert!(!follows_the_schema(&file), "the schema accepts {bad} at {place}");
        assert!(read(file.to_string().as_bytes(), "bad").is_err(), "{bad} at {place} is read");
    }
    let bad = good.to_string().replacen("\"bend\":300", "\"bend\":-1", 1);
    let why = read(bad.as_bytes(), "bad").unwrap_err().to_string();
    assert!(why.contains("habits.bend: found -1 mm, expected from 0 to"), "{why}");
    for place in ["", "/walls", "/walls/W4", "/allowances", "/points/P30/place/wall"] {
        let mut file = good.clone();
        let object = file.pointer_mut(place).unwrap().as_object_mut().unwrap();
        object.insert("colour".to_owned(), json!(1));
        assert!(!follows_the_schema(&file), "the schema accepts an unknown key in {place}");
        assert!(read(file.to_string().as_bytes(), "bad").is_err(), "it is read in {place}");
    }
    let mut file = good.clone();
    file.as_object_mut().unwrap().shift_remove("wirewend");
    assert!(!follows_the_schema(&file), "the schema accepts a file without version");
}

#[test]
fn the_schema_describes_every_field_with_its_unit() {
    let text = schema();
    assert_eq!(schema(), text, "the same every time");
    let schema: Value = serde_json::from_str(&text).unwrap();
    let thickness = &schema["$defs"]["Wall"]["properties"]["thickness"]["description"];
    assert_eq!(
        thickness, "Full thickness, mm, half on either side of the centre line.",
        "from the doc comment"
    );
    for (name, definition) in schema["$defs"].as_object().unwrap() {
        for (key, field) in definition["properties"].as_object().into_iter().flatten() {
            assert!(field.get("description").is_some(), "{name}.{key} has no description");
        }
    }
    assert_eq!(schema["properties"]["wirewend"]["const"], 1, "the version");
}
