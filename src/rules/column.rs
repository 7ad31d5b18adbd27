//! What the cells of a column hold.

use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;

use super::measure::{
    AmpsSquaredSeconds, Count, Kiloamps, Method, Millimetres, MillivoltsPerAmpMetre, OhmsPerKm,
    Percent, SquareMetres,
};
use crate::plan::{CircuitUse, PointKind, RoomUse, Wiring};
use crate::units::{
    Amps, Celsius, Csa, KelvinMetresPerWatt, Megohms, Milliseconds, Mm, Seconds, Volts, Watts,
};

/// A type of cell: how it is read from a table and written to one.
pub trait Column: Sized {
    /// The unit, as headings end with it; empty where there is none.
    const UNIT: &'static str = "";
    /// What a person should write there.
    const EXPECTED: &'static str = "a number";

    /// From the text of a cell; None where it holds something else.
    #[must_use]
    fn read(text: &str) -> Option<Self>;

    /// The text of a cell, in its shortest form.
    #[must_use]
    fn text(&self) -> String;
}

/// A finite number.
pub(super) fn number(text: &str) -> Option<f64> {
    text.parse().ok().filter(|number: &f64| number.is_finite())
}

macro_rules! quantities {
    ($($Type:ident $unit:literal)*) => {
        $(impl Column for $Type {
            const UNIT: &'static str = $unit;

            fn read(text: &str) -> Option<Self> {
                number(text).map(Self)
            }

            fn text(&self) -> String {
                self.0.to_string()
            }
        })*
    };
}

quantities! {
    Amps "_a"
    Volts "_v"
    Watts "_w"
    Seconds "_s"
    Milliseconds "_ms"
    Celsius "_c"
    Megohms "_mohm"
    KelvinMetresPerWatt "_km_per_w"
    OhmsPerKm "_ohm_per_km"
    Kiloamps "_ka"
    AmpsSquaredSeconds "_a2s"
    MillivoltsPerAmpMetre "_mv_per_a_m"
    Percent "_percent"
    SquareMetres "_m2"
}

/// A factor, a ratio, an exponent.
impl Column for f64 {
    fn read(text: &str) -> Option<Self> {
        number(text)
    }

    fn text(&self) -> String {
        self.to_string()
    }
}

impl Column for Csa {
    const UNIT: &'static str = "_mm2";
    const EXPECTED: &'static str = "square millimetres above 0";

    fn read(text: &str) -> Option<Self> {
        Self::try_from(number(text)?).ok()
    }

    fn text(&self) -> String {
        self.mm2().to_string()
    }
}

impl Column for Millimetres {
    const UNIT: &'static str = "_mm";
    const EXPECTED: &'static str = "millimetres";

    fn read(text: &str) -> Option<Self> {
        let exact = number(text)?;
        Some(Self { exact, whole: Mm::from_f64(exact).ok()? })
    }

    fn text(&self) -> String {
        self.exact.to_string()
    }
}

impl Column for Count {
    const EXPECTED: &'static str = "a whole number";

    fn read(text: &str) -> Option<Self> {
        // `2.0` is a whole number too.
        number(text)?.to_string().parse().ok().map(Self)
    }

    fn text(&self) -> String {
        self.0.to_string()
    }
}

impl Column for Method {
    const EXPECTED: &'static str = "the name of an installation method";

    fn read(text: &str) -> Option<Self> {
        (!text.is_empty()).then(|| Self(canonical(text)))
    }

    fn text(&self) -> String {
        self.0.clone()
    }
}

impl<T: Column> Column for Option<T> {
    const UNIT: &'static str = T::UNIT;
    const EXPECTED: &'static str = "a number or nothing";

    fn read(text: &str) -> Option<Self> {
        if text.is_empty() { Some(None) } else { T::read(text).map(Some) }
    }

    fn text(&self) -> String {
        self.as_ref().map_or_else(String::new, Column::text)
    }
}

/// Words that the plan has already, written as its file writes them.
macro_rules! of_the_plan {
    ($($Type:ident $expected:literal)*) => {
        $(impl Column for $Type {
            const EXPECTED: &'static str = $expected;

            fn read(text: &str) -> Option<Self> {
                plan_word(text)
            }

            fn text(&self) -> String {
                plan_text(self)
            }
        })*
    };
}

of_the_plan! {
    PointKind "a kind of point"
    RoomUse "the use of a room"
    CircuitUse "the use of a circuit"
    Wiring "a way of wiring"
}

fn plan_word<T: DeserializeOwned>(text: &str) -> Option<T> {
    serde_json::from_value(Value::String(text.to_owned())).ok()
}

fn plan_text<T: Serialize>(word: &T) -> String {
    match serde_json::to_value(word) {
        Ok(Value::String(text)) => text,
        _ => String::new(),
    }
}

/// Numbers in their shortest form, so that `2.50` finds `2.5`.
pub(super) fn canonical(text: &str) -> String {
    number(text).map_or_else(|| text.to_owned(), |number| number.to_string())
}
