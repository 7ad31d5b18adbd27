//! The looks: paper by day, slate by night, and the strongest contrast.

use iced::Color;
use wirewend::sheet::Ink;

/// The colours of everything around and on the sheet.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::app) struct Look {
    /// What the list of looks calls it.
    pub(in crate::app) name: &'static str,
    /// The table that the sheet lies on: heads, ledger, foot.
    pub(in crate::app) session: Color,
    /// The sheet.
    pub(in crate::app) paper: Color,
    /// Lettering.
    pub(in crate::app) text: Color,
    /// Lettering that steps back.
    pub(in crate::app) quiet: Color,
    /// Hair lines between parts.
    pub(in crate::app) rule: Color,
    /// The metre grid beneath the drawing.
    pub(in crate::app) grid: Color,
    /// The one accent: what is chosen, what can be done next.
    pub(in crate::app) accent: Color,
    /// Lettering on the accent.
    pub(in crate::app) on_accent: Color,
    /// A ground for what is under the pointer.
    pub(in crate::app) raised: Color,
    /// A limit that is passed.
    pub(in crate::app) fault: Color,
    /// Something to look at.
    pub(in crate::app) warning: Color,
    /// Whether inks of the paper are turned around.
    dark: bool,
}

impl Look {
    /// All of them, in the order in which a key goes through them.
    pub(in crate::app) const ALL: [Self; 3] = [Self::DAY, Self::NIGHT, Self::STARK];

    /// Warm paper on a pale table.
    pub(in crate::app) const DAY: Self = Self {
        name: "day",
        session: Color::from_rgb8(0xec, 0xe8, 0xdf),
        paper: Color::from_rgb8(0xfe, 0xfd, 0xf9),
        text: Color::from_rgb8(0x2a, 0x28, 0x24),
        quiet: Color::from_rgb8(0x5f, 0x5a, 0x50),
        rule: Color::from_rgb8(0xcd, 0xc6, 0xb6),
        grid: Color::from_rgba8(0xcd, 0xc6, 0xb6, 0.35),
        accent: Color::from_rgb8(0x9a, 0x3b, 0x12),
        on_accent: Color::from_rgb8(0xff, 0xfb, 0xf5),
        raised: Color::from_rgb8(0xf7, 0xf4, 0xed),
        fault: Color::from_rgb8(0xa6, 0x1b, 0x1b),
        warning: Color::from_rgb8(0x7a, 0x4b, 0x00),
        dark: false,
    };

    /// Slate.
    pub(in crate::app) const NIGHT: Self = Self {
        name: "night",
        session: Color::from_rgb8(0x22, 0x26, 0x28),
        paper: Color::from_rgb8(0x17, 0x1a, 0x1c),
        text: Color::from_rgb8(0xe9, 0xe6, 0xdf),
        quiet: Color::from_rgb8(0xad, 0xa9, 0xa0),
        rule: Color::from_rgb8(0x44, 0x49, 0x4c),
        grid: Color::from_rgba8(0x44, 0x49, 0x4c, 0.45),
        accent: Color::from_rgb8(0xf0, 0x9a, 0x5f),
        on_accent: Color::from_rgb8(0x1a, 0x12, 0x0c),
        raised: Color::from_rgb8(0x2d, 0x32, 0x35),
        fault: Color::from_rgb8(0xff, 0x8f, 0x85),
        warning: Color::from_rgb8(0xf2, 0xc2, 0x5b),
        dark: true,
    };

    /// Black on white, for bright sun and tired eyes.
    pub(in crate::app) const STARK: Self = Self {
        name: "stark",
        session: Color::WHITE,
        paper: Color::WHITE,
        text: Color::BLACK,
        quiet: Color::from_rgb8(0x26, 0x26, 0x26),
        rule: Color::BLACK,
        grid: Color::from_rgba8(0x00, 0x00, 0x00, 0.08),
        accent: Color::from_rgb8(0x00, 0x2f, 0x8a),
        on_accent: Color::WHITE,
        raised: Color::from_rgb8(0xe6, 0xee, 0xff),
        fault: Color::from_rgb8(0x8b, 0x00, 0x00),
        warning: Color::from_rgb8(0x5a, 0x34, 0x00),
        dark: false,
    };

    /// The look of a name; by day where there is none.
    pub(in crate::app) fn named(name: &str) -> Self {
        Self::ALL.into_iter().find(|look| look.name == name).unwrap_or(Self::DAY)
    }

    /// An ink of the sheet on this paper. By night, greys are turned around and
    /// colours lightened, so that lines keep their weight.
    pub(in crate::app) fn ink(&self, ink: Ink) -> Color {
        if ink == Ink::WHITE {
            return self.paper;
        }
        let grey = ink.red == ink.green && ink.green == ink.blue;
        match (self.dark, grey) {
            (true, true) => {
                let turned = 235 - (u16::from(ink.red) * 200).div_euclid(255).min(200);
                let turned = u8::try_from(turned).unwrap_or(u8::MAX);
                Color::from_rgb8(turned, turned, turned)
            }
            (true, false) => {
                let light = |part: u8| part.saturating_add((255 - part).div_euclid(3));
                Color::from_rgb8(light(ink.red), light(ink.green), light(ink.blue))
            }
            (false, _) => Color::from_rgb8(ink.red, ink.green, ink.blue),
        }
    }

    /// The toolkit's own palette, for what it draws by itself.
    pub(in crate::app) fn theme(&self) -> iced::Theme {
        iced::Theme::custom(
            self.name,
            iced::theme::Palette {
                background: self.session,
                text: self.text,
                primary: self.accent,
                success: self.accent,
                warning: self.warning,
                danger: self.fault,
            },
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance and contrast ratio, WCAG 2.2.
    fn contrast(one: Color, other: Color) -> f64 {
        let channel = |part: f32| {
            let part = f64::from(part);
            if part <= 0.04045 { part / 12.92 } else { libm::pow((part + 0.055) / 1.055, 2.4) }
        };
        let light =
            |c: Color| 0.2126 * channel(c.r) + 0.7152 * channel(c.g) + 0.0722 * channel(c.b);
        let (a, b) = (light(one), light(other));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    #[test]
    fn black_on_white_is_21_to_1() {
        assert!((contrast(Color::BLACK, Color::WHITE) - 21.0).abs() < 1e-6, "WCAG 2.2");
    }

    /// WCAG 2.2, 1.4.3: text has a contrast of at least 4.5:1.
    #[test]
    fn lettering_stands_out_from_its_ground() {
        for look in Look::ALL {
            for (what, ink, ground) in [
                ("text on the session", look.text, look.session),
                ("text on paper", look.text, look.paper),
                ("text on what is raised", look.text, look.raised),
                ("quiet on the session", look.quiet, look.session),
                ("quiet on what is raised", look.quiet, look.raised),
                ("accent on the session", look.accent, look.session),
                ("accent on paper", look.accent, look.paper),
                ("accent on what is raised", look.accent, look.raised),
                ("text on the accent", look.on_accent, look.accent),
                ("fault on the session", look.fault, look.session),
                ("fault on what is raised", look.fault, look.raised),
                ("warning on the session", look.warning, look.session),
                ("warning on what is raised", look.warning, look.raised),
                ("what cannot be done now, on the session", look.quiet, look.session),
                ("a field's hint", look.quiet, look.paper),
                ("a sign's mark on a fault", look.paper, look.fault),
                ("a sign's mark on a warning", look.paper, look.warning),
                ("area names: kept out", look.fault, look.paper),
                ("area names: dear", look.warning, look.paper),
                ("black ink on paper", look.ink(Ink::BLACK), look.paper),
                ("dark grey ink on paper", look.ink(Ink::DARK_GREY), look.paper),
            ] {
                let ratio = contrast(ink, ground);
                assert!(ratio >= 4.5, "{}: {what} has {ratio:.2}:1", look.name);
            }
        }
    }
}
