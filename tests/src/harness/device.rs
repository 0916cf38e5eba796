//! The devices on which the page is tried.

use serde_json::{Map, Value, json};

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

impl Device {
    /// The options with which Chromium becomes this device.
    pub(super) fn chromium_options(&self, arguments: &[String], binary: &str) -> Map<String, Value> {
        let mut options = Map::new();
        options.insert("args".to_owned(), json!(arguments));
        options.insert("binary".to_owned(), json!(binary));
        if self.is_touched {
            let metrics = json!({
                "width": self.width,
                "height": self.height,
                "pixelRatio": self.pixel_ratio,
                "touch": true,
                "mobile": true,
            });
            options.insert("mobileEmulation".to_owned(), json!({ "deviceMetrics": metrics }));
        }
        options
    }

    /// The size of the window for Chromium's own protocol.
    ///
    /// A window of a given size has less room inside, so the inside is set as well.
    pub(super) fn metrics(&self) -> Value {
        json!({
            "width": self.width,
            "height": self.height,
            "deviceScaleFactor": self.pixel_ratio,
            "mobile": self.is_touched,
        })
    }
}
