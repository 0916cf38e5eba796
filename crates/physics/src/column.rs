//! The water column of a stage: its thrust, its inertia, and what happens when water lands on it.

use crate::rocket::Stage;

/// What a stage's column is made of; one set's areas, all sets' thrust.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Column {
    /// Density of the water, kg/m3.
    pub density: f64,
    /// Number of sets in parallel.
    pub sets: f64,
    /// Cross-section of one vessel, m2.
    pub bore_area: f64,
    /// Throat area of one nozzle, m2.
    pub nozzle_area: f64,
    /// Nozzle throat diameter, m.
    pub nozzle_m: f64,
    /// Discharge coefficient.
    pub discharge: f64,
}

/// How vessel and jet accelerate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Motion {
    /// Proper acceleration of the vessel, m/s2: what an accelerometer reads.
    pub acceleration: f64,
    /// Rate of change of the exit speed, m/s2.
    pub jet_rate: f64,
    /// Thrust of all sets, N.
    pub thrust: f64,
}

impl Column {
    /// The column of a stage whose water has the density given.
    #[must_use]
    pub fn of(stage: &Stage, density: f64) -> Self {
        Self {
            density,
            sets: stage.sets_f64(),
            bore_area: stage.bore_area(),
            nozzle_area: stage.nozzle_area(),
            nozzle_m: stage.nozzle_m,
            discharge: stage.discharge,
        }
    }

    /// Nozzle area over bore area.
    #[must_use]
    pub fn contraction(&self) -> f64 {
        self.nozzle_area / self.bore_area
    }

    /// Standing height of a volume of water shared by all sets, m.
    #[must_use]
    pub fn height(&self, water_m3: f64) -> f64 {
        water_m3 / (self.sets * self.bore_area)
    }

    /// Effective length of the water in the throat, m: half a nozzle diameter.
    #[must_use]
    pub fn throat_length(&self) -> f64 {
        0.5 * self.nozzle_m
    }

    /// Loss coefficient of the exit: (1 - b^2)/(2 Cd^2).
    #[must_use]
    pub fn exit_loss(&self) -> f64 {
        let b = self.contraction();
        (1.0 - b * b) / (2.0 * self.discharge * self.discharge)
    }

    /// Acceleration of a free vessel and its jet.
    ///
    /// # Equation
    /// rho (h b + ln) du/dt = dp + rho h a - rho u^2 (1 - b^2)/(2 Cd^2);  m a = F - D;
    /// F = N rho An (u^2 (1 - b) + h du/dt). Linear in a and du/dt; solved together.
    ///
    /// # Symbols
    /// h standing height, m; b = An/A; ln half a nozzle diameter, m; u exit speed relative to the vessel, m/s; dp vessel pressure less
    /// ambient, Pa; a proper acceleration, m/s2; m mass that moves with the vessel, water included, kg; D drag, N.
    ///
    /// # Range
    /// One-dimensional column; no vortex, no gas mixed into the jet.
    ///
    /// # Source
    /// Unsteady Bernoulli equation and momentum of vessel and column together; the quasi-steady limit is the form of Prusa 2000
    /// (`prusa2000`).
    ///
    /// # Example
    /// ```
    /// use holdwater_physics::column::Column;
    /// let column = Column { density: 1000.0, sets: 1.0, bore_area: 6e-3, nozzle_area: 6e-5, nozzle_m: 0.0087, discharge: 1.0 };
    /// let u = column.steady_speed(5e5);
    /// let motion = column.free(0.1, u, 5e5, 1.0, 0.0);
    /// // Twice pressure times area, within the part that the column's inertia changes.
    /// assert!((motion.thrust / (2.0 * 5e5 * 6e-5) - 1.0).abs() < 0.15);
    /// ```
    #[must_use]
    pub fn free(&self, height_m: f64, jet: f64, overpressure: f64, mass_kg: f64, drag: f64) -> Motion {
        let push = self.sets * self.density * self.nozzle_area;
        let inertia = self.density * (height_m * self.contraction() + self.throat_length());
        let head = self.density * height_m;
        let pressure = overpressure - self.density * self.exit_loss() * jet * jet;
        let force = push * (1.0 - self.contraction()) * jet * jet - drag;
        let determinant = inertia * mass_kg - head * push * height_m;
        let jet_rate = (pressure * mass_kg + head * force) / determinant;
        let acceleration = (force + push * height_m * jet_rate) / mass_kg;
        Motion { acceleration, jet_rate, thrust: mass_kg * acceleration + drag }
    }

    /// The same for a vessel that the pad holds at a given proper acceleration.
    #[must_use]
    pub fn held(&self, height_m: f64, jet: f64, overpressure: f64, acceleration: f64) -> Motion {
        let inertia = self.density * (height_m * self.contraction() + self.throat_length());
        let pressure = overpressure + self.density * (height_m * acceleration - self.exit_loss() * jet * jet);
        let jet_rate = pressure / inertia;
        let push = self.sets * self.density * self.nozzle_area;
        let thrust = push * ((1.0 - self.contraction()) * jet * jet + height_m * jet_rate);
        Motion { acceleration, jet_rate, thrust }
    }

    /// Exit speed in the quasi-steady limit without head, m/s: Cd sqrt(2 dp/(rho (1 - b^2))); nought without pressure.
    #[must_use]
    pub fn steady_speed(&self, overpressure: f64) -> f64 {
        (overpressure.max(0.0) / (self.density * self.exit_loss())).sqrt()
    }

    /// Time in which the jet speed settles, s: (h b + ln)/u. The scale that makes the water phase stiff.
    #[must_use]
    pub fn settling_time(&self, height_m: f64, overpressure: f64) -> f64 {
        (height_m * self.contraction() + self.throat_length()) / self.steady_speed(overpressure).max(1e-3)
    }

    /// Speeds of vessel and jet after a parcel of water has landed on the moving column without rebound.
    ///
    /// # Equation
    /// m v - rho An hs u + mp vp = (m + mp) v' - rho An (hs + hp) u'  (momentum of everything);
    /// (hs b + ln)(u' - u) = hp ((v' - u' b) - vp) + hs (v' - v)  (column equation integrated over the impact).
    ///
    /// # Symbols
    /// m vessel with its seated water, kg; hs its standing height, m; mp, hp, vp mass, height in the vessel and speed of the parcel; v, u speed of vessel
    /// and jet before, v', u' after.
    ///
    /// # Range
    /// One set. The impact is short against everything else; no splash.
    ///
    /// # Source
    /// Derived here from the two balances of [`Column::free`].
    ///
    /// # Example
    /// ```
    /// use holdwater_physics::column::{Column, Landing};
    /// let column = Column { density: 1000.0, sets: 1.0, bore_area: 6e-3, nozzle_area: 6e-5, nozzle_m: 0.0087, discharge: 1.0 };
    /// let landing = Landing { mass_kg: 1.0, height_m: 0.05, speed: 20.0, jet: 30.0, parcel_m3: 0.0, parcel_speed: 10.0 };
    /// let (speed, jet) = column.join(&landing);
    /// assert!((speed - 20.0).abs() < 1e-12 && (jet - 30.0).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn join(&self, landing: &Landing) -> (f64, f64) {
        let Landing { mass_kg: m, height_m: hs, speed: v, jet: u, parcel_m3, parcel_speed: vp } = *landing;
        let (mp, hp) = (self.density * parcel_m3, parcel_m3 / self.bore_area);
        let b = self.contraction();
        let push = self.density * self.nozzle_area;
        // Unknown v' and u': two linear equations.
        let momentum = m * v - push * hs * u + mp * vp;
        let impact = (hs * b + self.throat_length()) * u - hp * vp - hs * v;
        let (a11, a12) = (m + mp, -push * (hs + hp));
        let (a21, a22) = (-(hp + hs), (hs + hp) * b + self.throat_length());
        let determinant = a11 * a22 - a12 * a21;
        ((momentum * a22 - a12 * impact) / determinant, (a11 * impact - a21 * momentum) / determinant)
    }
}

/// A parcel about to land on the column of a vessel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Landing {
    /// Vessel with its seated water, kg.
    pub mass_kg: f64,
    /// Standing height of the seated water, m.
    pub height_m: f64,
    /// Speed of the vessel, m/s.
    pub speed: f64,
    /// Exit speed of the jet relative to the vessel, m/s.
    pub jet: f64,
    /// Volume of the parcel, m3.
    pub parcel_m3: f64,
    /// Speed of the parcel (not relative), m/s.
    pub parcel_speed: f64,
}
