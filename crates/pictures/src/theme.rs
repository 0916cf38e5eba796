//! The three sets of colours. One colour is used for water only, one for what needs action only.

use holdwater_physics::real;

/// A colour, red, green and blue.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rgb(pub u8, pub u8, pub u8);

impl Rgb {
    /// The colour as a stylesheet writes it.
    #[must_use]
    pub fn css(self) -> String {
        format!("#{:02x}{:02x}{:02x}", self.0, self.1, self.2)
    }

    /// This colour with the given share (0 to 1) of another in it.
    #[must_use]
    pub fn mixed(self, other: Self, share: f64) -> Self {
        let share = if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.0 };
        let mix = |a: u8, b: u8| {
            let value = f64::from(a) + (f64::from(b) - f64::from(a)) * share;
            value.round() as u8
        };
        Self(mix(self.0, other.0), mix(self.1, other.1), mix(self.2, other.2))
    }

    /// Contrast of two colours as the web accessibility guidelines (WCAG 2) define it, 1 to 21.
    #[must_use]
    pub fn contrast(self, other: Self) -> f64 {
        let (a, b) = (self.luminance(), other.luminance());
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    fn luminance(self) -> f64 {
        let channel = |byte: u8| {
            let value = f64::from(byte) / 255.0;
            if value <= 0.04045 { value / 12.92 } else { real::pow((value + 0.055) / 1.055, 2.4) }
        };
        0.2126 * channel(self.0) + 0.7152 * channel(self.1) + 0.0722 * channel(self.2)
    }
}

/// The colours of a page, and how heavy its lines are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Theme {
    /// The ground.
    pub paper: Rgb,
    /// Text and outlines.
    pub ink: Rgb,
    /// Text and lines of less weight.
    pub quiet_ink: Rgb,
    /// Thin rules; never carries meaning alone.
    pub rule: Rgb,
    /// Water, and nothing else.
    pub water: Rgb,
    /// A tint of water for areas under text.
    pub shallow: Rgb,
    /// What needs action, and nothing else.
    pub buoy: Rgb,
    /// What is fine.
    pub kelp: Rgb,
    /// Factor on every line width.
    pub line_width_factor: f64,
}

impl Theme {
    /// Dark ink on pale paper.
    #[must_use]
    pub const fn day() -> Self {
        Self {
            paper: Rgb(0xfb, 0xfa, 0xf6),
            ink: Rgb(0x13, 0x24, 0x2b),
            quiet_ink: Rgb(0x4d, 0x60, 0x68),
            rule: Rgb(0xd5, 0xd3, 0xca),
            water: Rgb(0x0b, 0x6e, 0x7f),
            shallow: Rgb(0xd6, 0xeb, 0xed),
            buoy: Rgb(0xb2, 0x3c, 0x0e),
            kelp: Rgb(0x37, 0x65, 0x2b),
            line_width_factor: 1.0,
        }
    }

    /// Pale ink on dark paper.
    #[must_use]
    pub const fn dusk() -> Self {
        Self {
            paper: Rgb(0x0e, 0x1a, 0x1f),
            ink: Rgb(0xe7, 0xec, 0xe8),
            quiet_ink: Rgb(0xa3, 0xb5, 0xbb),
            rule: Rgb(0x2f, 0x41, 0x48),
            water: Rgb(0x52, 0xb5, 0xc6),
            shallow: Rgb(0x16, 0x35, 0x3d),
            buoy: Rgb(0xf2, 0x8b, 0x54),
            kelp: Rgb(0x93, 0xc4, 0x81),
            line_width_factor: 1.0,
        }
    }

    /// Black on white with heavy lines, for glass with the sun on it. Dashes and words, not shades, tell things apart.
    #[must_use]
    pub const fn sun() -> Self {
        let black = Rgb(0, 0, 0);
        let white = Rgb(255, 255, 255);
        Self {
            paper: white,
            ink: black,
            quiet_ink: black,
            rule: black,
            water: black,
            shallow: white,
            buoy: black,
            kelp: black,
            line_width_factor: 2.0,
        }
    }

    /// Whether the theme has shades at all; without them a grid would be as loud as the lines on it.
    #[must_use]
    pub fn has_tints(&self) -> bool {
        self.rule != self.ink
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn published_contrast_of_black_on_white_is_21() {
        assert!((Rgb(0, 0, 0).contrast(Rgb(255, 255, 255)) - 21.0).abs() < 1e-9);
        // The grey that accessibility texts name as the lightest that passes on white.
        assert!((Rgb(0x76, 0x76, 0x76).contrast(Rgb(255, 255, 255)) - 4.54).abs() < 0.01);
    }

    #[test]
    fn every_text_colour_is_legible_on_its_grounds() {
        for theme in [Theme::day(), Theme::dusk(), Theme::sun()] {
            for colour in [theme.ink, theme.quiet_ink, theme.water, theme.buoy, theme.kelp] {
                let contrast = colour.contrast(theme.paper);
                assert!(contrast >= 4.5, "{} on {}: {contrast}", colour.css(), theme.paper.css());
            }
            for colour in [theme.ink, theme.quiet_ink] {
                let contrast = colour.contrast(theme.shallow);
                assert!(contrast >= 4.5, "{} on {}: {contrast}", colour.css(), theme.shallow.css());
            }
        }
    }

    #[test]
    fn mixing_ends_at_its_ends() {
        let theme = Theme::day();
        assert_eq!(theme.ink.mixed(theme.paper, 0.0), theme.ink);
        assert_eq!(theme.ink.mixed(theme.paper, 1.0), theme.paper);
        assert_eq!(theme.ink.mixed(theme.paper, f64::NAN), theme.ink);
    }
}
