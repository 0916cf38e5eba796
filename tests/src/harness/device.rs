//! The devices on which the page is tried.

/// A screen and how it is touched. Sizes are in CSS pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Device {
    /// Width of the window.
    pub width: u32,
    /// Height of the window.
    pub height: u32,
    /// Device pixels per CSS pixel.
    pub pixel_ratio: f64,
    /// Whether it is touched with fingers instead of pointed at with a mouse.
    pub is_touched: bool,
}

/// A phone as they are carried to a launch site, held upright.
#[must_use]
pub const fn phone() -> Device {
    Device { width: 390, height: 844, pixel_ratio: 3.0, is_touched: true }
}

/// A small laptop in the workshop.
#[must_use]
pub const fn laptop() -> Device {
    Device { width: 1280, height: 800, pixel_ratio: 1.0, is_touched: false }
}
