//! Colours by their numbers.

use crate::sheet::Ink;

/// The nearest of the format's 255 numbered colours, by hue; greys apart.
pub(super) fn colour(ink: Ink) -> u16 {
    let [r, g, b] = [ink.red, ink.green, ink.blue].map(f64::from);
    let (most, least) = (r.max(g).max(b), r.min(g).min(b));
    if most - least < 8.0 {
        return [(50.0, 7), (160.0, 8)].into_iter().find(|it| most < it.0).map_or(9, |it| it.1);
    }
    let span = most - least;
    let hue = if r >= most {
        ((g - b) / span).rem_euclid(6.0)
    } else if g >= most {
        (b - r) / span + 2.0
    } else {
        (r - g) / span + 4.0
    };
    // Hues stand 15 degrees apart, from 10 for red, in tens.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to 24")]
    let step = libm::round(hue * 4.0) as u16 % 24;
    10 + step * 10
}
