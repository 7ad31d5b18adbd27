//! Typed names for everything in a plan that can be pointed at.

use std::fmt;
use std::str::FromStr;

/// A text that is not an id of the kind asked for.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("\"{found}\" is not {expected}, such as \"{example}\"")]
pub struct IdError {
    /// What stood there.
    pub found: String,
    /// The kind of id that was expected.
    pub expected: &'static str,
    /// How one looks.
    pub example: String,
}

macro_rules! typed_id {
    ($(#[$doc:meta])* $name:ident, $prefix:literal, $noun:literal) => {
        $(#[$doc])*
        ///
        /// Handed out by the plan's own counter, saved with the plan and never
        /// reused, so that files, undo and findings agree.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(pub u32);

        impl $name {
            /// The letters before the number.
            pub const PREFIX: &'static str = $prefix;
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "{}{}", $prefix, self.0)
            }
        }

        impl FromStr for $name {
            type Err = IdError;
            fn from_str(text: &str) -> Result<Self, IdError> {
                text.strip_prefix($prefix)
                    .filter(|digits| {
                        digits.bytes().all(|byte| byte.is_ascii_digit())
                            && (*digits == "0" || !digits.starts_with('0'))
                    })
                    .and_then(|digits| digits.parse().ok())
                    .map(Self)
                    .ok_or_else(|| IdError {
                        found: text.to_owned(),
                        expected: $noun,
                        example: format!("{}1", $prefix),
                    })
            }
        }

        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.collect_str(self)
            }
        }

        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                struct Text;
                impl serde::de::Visitor<'_> for Text {
                    type Value = $name;
                    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                        write!(f, "{} such as \"{}1\"", $noun, $prefix)
                    }
                    fn visit_str<E: serde::de::Error>(self, text: &str) -> Result<$name, E> {
                        text.parse().map_err(E::custom)
                    }
                }
                deserializer.deserialize_str(Text)
            }
        }

        impl schemars::JsonSchema for $name {
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($name).into()
            }
            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                schemars::json_schema!({
                    "type": "string",
                    "pattern": concat!("^", $prefix, "(0|[1-9][0-9]*)$"),
                    "description": concat!("the id of ", $noun),
                })
            }
        }
    };
}

typed_id!(/// Names a level for the life of a plan.
    LevelId, "L", "a level");
typed_id!(/// Names a void for the life of a plan.
    VoidId, "V", "a void");
typed_id!(/// Names a wall for the life of a plan.
    WallId, "W", "a wall");
typed_id!(/// Names an opening for the life of a plan.
    OpeningId, "O", "an opening");
typed_id!(/// Names a room for the life of a plan.
    RoomId, "R", "a room");
typed_id!(/// Names an area for the life of a plan.
    AreaId, "A", "an area");
typed_id!(/// Names a riser for the life of a plan.
    RiserId, "D", "a riser");
typed_id!(/// Names a point for the life of a plan.
    PointId, "P", "a point");
typed_id!(/// Names a lighting control for the life of a plan.
    ControlId, "S", "a lighting control");
typed_id!(/// Names a board for the life of a plan.
    BoardId, "B", "a board");
typed_id!(/// Names a circuit for the life of a plan.
    CircuitId, "C", "a circuit");

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_read_back_what_they_write_and_refuse_the_rest() {
        assert_eq!("W12".parse(), Ok(WallId(12)));
        assert_eq!(WallId(12).to_string(), "W12");
        for bad in ["", "W", "w1", "P1", "W01", "W-1", "W1x", "W99999999999"] {
            assert!(bad.parse::<WallId>().is_err(), "{bad:?} must be refused");
        }
    }
}
