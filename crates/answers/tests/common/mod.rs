//! Designs drawn at random, the same ones every time, and the smallest part of one that still shows a fault.

#![allow(dead_code, clippy::unwrap_used, reason = "every test file uses its own part; a panic is how a test fails")]
#![allow(clippy::disallowed_methods, reason = "what is drawn need not agree bit for bit between machines")]

use holdwater_design::{Design, Input, Row, Tolerance, link};

/// How many designs to draw: `HOLDWATER_CASES`, or the number given.
pub fn cases(usual: u32) -> u32 {
    std::env::var("HOLDWATER_CASES").ok().and_then(|text| text.parse().ok()).unwrap_or(usual)
}

/// A small generator of random numbers (SplitMix64): tests need no more.
pub struct Draw(pub u64);

impl Draw {
    /// From 0 to 1.
    pub fn share(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.share()
    }

    /// Anywhere in the range of a row: sometimes its default or an end, on a logarithmic scale where the range spans decades.
    fn within(&mut self, row: &Row) -> Option<f64> {
        let kind = self.share();
        if kind < 0.2 {
            return row.default();
        }
        let value = match kind {
            k if k < 0.23 => row.min,
            k if k < 0.26 => row.max,
            _ if row.min > 0.0 && row.max > 20.0 * row.min => self.between(row.min.ln(), row.max.ln()).exp(),
            _ => self.between(row.min, row.max),
        };
        Some(row.nearest(value))
    }

    /// Any design that the table of inputs allows.
    pub fn any(&mut self) -> Design {
        let mut design = Design::default();
        for input in Input::ALL {
            let value = self.within(input.row());
            design.set(input, value).unwrap();
        }
        design
    }

    /// A design of which no input is further than a share from the default. Where that is nought, one time in three a part of what is
    /// usual is fitted; optional inputs are given one time in three.
    pub fn near(&mut self, share: f64) -> Design {
        let mut design = Design::default();
        for input in Input::ALL {
            let row = input.row();
            let rare = self.share() < 1.0 / 3.0;
            let value = match (row.default(), input) {
                (_, Input::Stages) => Some(2.0),
                (Some(_), Input::PadTubeLength | Input::StagingTubeLength) => {
                    Some(if rare { self.between(20.0, 250.0) } else { 0.0 })
                }
                (Some(_), Input::RestrictorBore) => Some(if rare { self.between(5.0, 40.0) } else { 0.0 }),
                (None, _) => rare.then(|| self.between(row.min, row.max)),
                (Some(value), _) if row.tolerance == Tolerance::Exact && row.is_whole() => Some(value),
                (Some(value), _) => Some(value * self.between(1.0 - share, 1.0 + share)),
            };
            design.set(input, value.map(|value| row.nearest(value))).unwrap();
        }
        design
    }
}

/// The design with as many inputs as possible set back to their defaults while it still shows the fault.
pub fn smallest(design: &Design, shows_fault: impl Fn(&Design) -> bool) -> Design {
    let mut small = design.clone();
    let mut shrinking = true;
    while shrinking {
        shrinking = false;
        for input in Input::ALL {
            if small.is_default(input) {
                continue;
            }
            let mut simpler = small.clone();
            simpler.reset(input);
            if shows_fault(&simpler) {
                small = simpler;
                shrinking = true;
            }
        }
    }
    small
}

/// Fails with the smallest design that shows the fault, as a link to open.
#[track_caller]
pub fn report(design: &Design, fault: &str, shows_fault: impl Fn(&Design) -> bool) -> ! {
    let small = smallest(design, shows_fault);
    panic!("{fault}\n  drawn:    #{}\n  smallest: #{}", link::write(design), link::write(&small))
}
