//! Curves for the charts.

/// Height against delay.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct DelayCurves {
    /// Delays, s, rising.
    pub delay_s: Vec<f64>,
    /// The settled ideal at each delay, m.
    pub settled_m: Vec<f64>,
    /// The bare vessel at each delay, m.
    pub bare_m: Vec<f64>,
    /// As it stands, with staging tube or restrictor, at each delay, m; empty when the vessel is bare.
    pub tube_m: Vec<f64>,
    /// Latest release of the bare vessel, if any.
    pub latest_release_s: Option<f64>,
    /// Delay at which the bare vessel's nozzle is uncovered.
    pub uncovers_s: Option<f64>,
    /// Further choices, each with its own line; empty as a rule.
    pub more: Vec<NamedLine>,
}

/// One more line of a chart.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct NamedLine {
    /// What is written at its end: a word or two.
    pub name: String,
    /// Height at each delay, m; NaN where there is none.
    pub heights: Vec<f64>,
}

/// Height, speed and acceleration against time, from lift-off to apogee.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FlightCurves {
    /// Times after lift-off, s, not falling (equal twice where a phase changes).
    pub t_s: Vec<f64>,
    /// Height over the site, m.
    pub h_m: Vec<f64>,
    /// Speed, m/s.
    pub v_mps: Vec<f64>,
    /// Acceleration (rate of change of speed), m/s2.
    pub a_mps2: Vec<f64>,
}

/// The sustainer at one moment of the coast, for the cut-away drawing.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct WaterPicture {
    /// Internal length of the vessel, m.
    pub length_m: f64,
    /// Internal diameter, m.
    pub bore_m: f64,
    /// Nozzle throat, m.
    pub nozzle_m: f64,
    /// Standing height of the water when seated, m.
    pub standing_m: f64,
    /// Depth of the gas finger below the standing height, m (0 when settled).
    pub finger_m: f64,
    /// Volume of lifted water, m3.
    pub lifted_m3: f64,
    /// Height of the lifted water's centroid above the nozzle end, m.
    pub lifted_height_m: f64,
    /// Whether the lifted water lies at the nose.
    pub at_nose: bool,
    /// Whether the nozzle is covered.
    pub covered: bool,
    /// Engaged length and outer diameter of a staging tube, m, if one is fitted.
    pub tube_m: Option<(f64, f64)>,
    /// Height and hole diameter of a restrictor, m, and its number of holes, if one is fitted.
    pub restrictor_m: Option<(f64, f64, u32)>,
    /// Volume of gas at the nozzle end of the water that a restrictor holds, m3: it vents first.
    pub gas_at_nozzle_m3: f64,
    /// Volume of water that has leaked through the restrictor and is above it, m3.
    pub leaked_m3: f64,
}

/// Height against the bore of the restrictor's holes, with the zones told apart.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BoreCurves {
    /// Bores of each hole, m, increasing.
    pub bore_m: Vec<f64>,
    /// Height at each bore, m; NaN where the flight has no answer.
    pub height_m: Vec<f64>,
    /// Number of equal holes.
    pub holes: u32,
    /// The same flight with a restrictor of the same mass that neither leaks nor takes pressure, m.
    pub ideal_m: f64,
    /// The bare vessel at the same delay, m.
    pub bare_m: f64,
    /// Widest bore that holds, m.
    pub holds_below_m: f64,
    /// Bore from which surface tension holds nothing back, m; between the two is marginal.
    pub leaks_above_m: f64,
    /// Below this bore the holes throttle the gas so much that it costs more than the share, m, if that is so anywhere.
    pub chokes_below_m: Option<f64>,
    /// The share of height that the window may cost.
    pub share: f64,
    /// Bores at which leak and throttling together cost less than the share, m.
    pub window_m: Option<(f64, f64)>,
    /// Best bore and its height, m.
    pub best_m: Option<(f64, f64)>,
    /// The bore fitted and its height, m.
    pub fitted_m: Option<(f64, f64)>,
}
