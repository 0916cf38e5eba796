//! A link as a QR code, for handing it from one phone to another.

use core::fmt::{self, Write as _};

use qrcodegen::{QrCode, QrCodeEcc};

/// The light border that readers need around the code, in modules.
const QUIET: usize = 4;

/// Most bytes that a code holds: version 40 with the least error correction.
pub const MOST: usize = 2_953;

/// Modules along a side (version 20) up to which a code is worth the better error correction. Larger ones are hard to photograph from a
/// screen, so there every module counts.
const COMFORTABLE: i32 = 97;

/// A QR code as one path.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Code {
    /// Length of a side in modules, with the quiet zone: the view box is `0 0 side side`.
    pub side: usize,
    /// The dark modules as SVG path data, to be filled. They must be dark on light in every theme, or many readers fail, and drawn
    /// with `shape-rendering="crispEdges"`, or hair lines show between them.
    pub path: String,
}

/// A link that no code holds. Displays as a sentence.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooLong {
    /// Bytes of the link.
    pub length: usize,
    /// Most bytes that a code holds.
    pub most: usize,
}

impl fmt::Display for TooLong {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "This link has {} characters; a QR code holds {} at most.", self.length, self.most)
    }
}

impl core::error::Error for TooLong {}

impl Code {
    /// The QR code of a link.
    ///
    /// The smallest code with error correction of level M or better; for long links with level L or better.
    ///
    /// # Errors
    ///
    /// When the link is longer than a code holds.
    pub fn new(link: &str) -> Result<Self, TooLong> {
        // The encoder raises the level where that makes the code no larger.
        let at = |level| QrCode::encode_binary(link.as_bytes(), level).ok();
        let code = at(QrCodeEcc::Medium)
            .filter(|code| code.size() <= COMFORTABLE)
            .or_else(|| at(QrCodeEcc::Low))
            .ok_or(TooLong { length: link.len(), most: MOST })?;
        let modules = usize::try_from(code.size()).unwrap_or(0);
        let dark: Vec<bool> = (0..code.size())
            .flat_map(|y| (0..code.size()).map(move |x| (x, y)))
            .map(|(x, y)| code.get_module(x, y))
            .collect();
        Ok(Self { side: modules + 2 * QUIET, path: path(dark, modules) })
    }

    /// The code as an SVG file, for printing and for sending.
    #[must_use]
    pub fn svg(&self) -> String {
        let Self { side, path } = self;
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {side} {side}\" shape-rendering=\"crispEdges\">\
             <path fill=\"#fff\" d=\"M0 0h{side}v{side}H0z\"/><path d=\"{path}\"/></svg>"
        )
    }
}

/// Dark modules, row by row, as upright rectangles that each are as wide and then as high as they can be.
fn path(mut dark: Vec<bool>, modules: usize) -> String {
    let mut d = String::new();
    let mut start = 0;
    while let Some(first) = dark.iter().skip(start).position(|dark| *dark).map(|offset| start + offset) {
        let (x, y) = (first % modules, first / modules);
        let width = dark.iter().skip(first).take(modules - x).take_while(|dark| **dark).count();
        let mut height = 0;
        // The rows below that are dark over the whole width belong to the same rectangle.
        while let Some(run) = dark.get_mut(first + height * modules..).and_then(|rest| rest.get_mut(..width)) {
            if run.contains(&false) {
                break;
            }
            run.fill(false);
            height += 1;
        }
        // A String takes every write.
        let _ = write!(d, "M{} {}h{width}v{height}H{}z", x + QUIET, y + QUIET, x + QUIET);
        start = first;
    }
    d
}
