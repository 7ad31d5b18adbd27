//! What a warmer or cooler surrounding does to a rating.

use crate::units::Celsius;

/// The factor by which a rating changes with the temperature around it.
///
/// f = √((Tc − Ta) / (Tc − Tref))
///
/// - Tc: temperature that the conductor may reach, °C
/// - Ta: temperature around it, °C
/// - Tref: temperature around it for which the rating is given, °C
///
/// Zero where the surrounding is as hot as the conductor may get.
///
/// Source: heat balance; agrees with IEC 60364-5-52 TB.52.14 to 2 decimals
/// from 35 °C up.
///
/// ```
/// use wirewend::checks::ambient_factor;
/// use wirewend::units::Celsius;
/// // PVC at 70 °C, 40 instead of 30 °C: √(30/40) = 0.866; the table prints 0.87
/// let factor = ambient_factor(Celsius(70.0), Celsius(40.0), Celsius(30.0));
/// assert!((factor - 0.866).abs() < 0.001);
/// ```
#[must_use]
pub fn ambient_factor(conductor: Celsius, around: Celsius, reference: Celsius) -> f64 {
    ((conductor.0 - around.0).max(0.0) / (conductor.0 - reference.0)).sqrt()
}

/// The factor by which a rating changes when the conductor may also get to
/// another temperature than the one it was given for.
///
/// f = √((T − Ta) / (Tc − Tref) · (β + Tc) / (β + T))
///
/// - T, Ta: what the conductor may reach and what is around it, °C
/// - Tc, Tref: the same, for which the rating is given, °C
/// - β: 234.5, the heat at the same current rising with resistance
///
/// An estimate: the way heat leaves a cable is taken to stay the same.
///
/// Source: heat balance. From 70/30 to 75/40 °C: 0.9278.
#[must_use]
pub fn temperature_factor(
    conductor: Celsius,
    around: Celsius,
    given_conductor: Celsius,
    given_around: Celsius,
) -> f64 {
    let resistance = (234.5 + given_conductor.0) / (234.5 + conductor.0);
    ((conductor.0 - around.0).max(0.0) / (given_conductor.0 - given_around.0) * resistance).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_factors_of_iec_table_b_52_14_come_out_to_two_decimals() {
        // IEC 60364-5-52 TB.52.14, PVC: A from 35 to 60 °C.
        for (around, printed) in
            [(35.0, 0.94), (40.0, 0.87), (45.0, 0.79), (50.0, 0.71), (55.0, 0.61), (60.0, 0.50)]
        {
            let factor = ambient_factor(Celsius(70.0), Celsius(around), Celsius(30.0));
            assert!((factor - printed).abs() < 0.006, "{around} °C: {factor}");
        }
    }
}
