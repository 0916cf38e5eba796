"""An independent flight of a two-stage water rocket, written from crates/physics/MODEL.md alone.

Nothing here is shared with the Rust crate: the ordinary differential equations are integrated by SciPy, the gas
in a closed vessel is kept algebraically (p V^n and p / m^gamma are constants, not states), and every phase is its own
small function. `trajectories.json` is what the Rust tests are compared with.

    python trajectories.py                one line per design
    python trajectories.py --check        compute again, compare with trajectories.json, exit 1 on a difference
    python trajectories.py --write        write trajectories.json
    python trajectories.py --time         microseconds of one default flight that is good to 0.1 m of apogee
    python trajectories.py --one NAME     everything about one design
    python trajectories.py --fly JSON     everything about any design, e.g. '{"delay": 0.5, "s.nozzle": 12}'

SI units, absolute pressures, up positive.
"""

import argparse
import json
import math
import sys
import time
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
import scipy
from scipy.integrate import solve_ivp

HERE = Path(__file__).resolve().parent
TABLE = HERE / "trajectories.json"

G = 9.80665
R_AIR = 287.053
GAMMA = 1.4
CRITICAL = (2.0 / (GAMMA + 1.0)) ** (GAMMA / (GAMMA - 1.0))
END_OF_PULSE = 1.0 + 1e-4
ALUMINIUM = 2700.0
LIFT_SHARE = 0.95
MODE_ROOT = 1.841184

# Link keys, in the units of the link.
DEFAULTS = {
    "stages": 2, "site": 30.0, "air": 18.0, "water": 16.0, "tension": None, "expand": 1.3,
    "b.vol": 7.5, "b.bore": 105.0, "b.nozzle": 21.5, "b.count": 1, "b.cd": 0.97, "b.water": 2.4, "b.fill": 10.0,
    "b.dry": 0.42, "b.drag": 0.45, "b.dia": 110.0, "b.tube": 0.0, "b.tubeod": 20.5,
    "s.vol": 2.0, "s.bore": 88.0, "s.nozzle": 9.0, "s.cd": 0.97, "s.water": 0.5, "s.fill": 10.0,
    "s.dry": 0.22, "s.drag": 0.38, "s.dia": 92.0, "s.tube": 0.0, "s.tubeod": 8.5, "s.tubewall": 1.0,
    "delay": 1.0, "disturb": 1.0,
}


# ------------------------------------------------------------------------------------------ surroundings

def kell_density(celsius):
    """Kell (1975), J. Chem. Eng. Data 20, 97: water at one atmosphere, kg/m3."""
    t = celsius
    top = (999.83952 + 16.945176 * t - 7.9870401e-3 * t**2 - 46.170461e-6 * t**3
           + 105.56302e-9 * t**4 - 280.54253e-12 * t**5)
    return top / (1.0 + 16.879850e-3 * t)


def iapws_tension(kelvin):
    """IAPWS R1-76(2014), N/m."""
    tau = 1.0 - kelvin / 647.096
    return 0.2358 * tau**1.256 * (1.0 - 0.625 * tau)


def short_viscosity(kelvin):
    """Vogel-type short form, Pa s."""
    return 2.414e-5 * 10.0 ** (247.8 / (kelvin - 140.0))


@dataclass
class Surroundings:
    elevation: float
    air_kelvin: float
    water_celsius: float
    expansion: float
    tension: float | None

    def __post_init__(self):
        self.rho = kell_density(self.water_celsius)
        kelvin = self.water_celsius + 273.15
        self.mu = short_viscosity(kelvin)
        self.sigma = iapws_tension(kelvin) if self.tension is None else self.tension
        self.offset = self.air_kelvin - self.standard(self.elevation)[0]
        self.site_pressure = self.standard(self.elevation)[1]

    @staticmethod
    def standard(height):
        """Temperature and pressure of the standard atmosphere at a geopotential height above the sea."""
        if height <= 11000.0:
            t = 288.15 - 0.0065 * height
            return t, 101325.0 * (t / 288.15) ** 5.25588
        t = 288.15 - 0.0065 * 11000.0
        return t, 101325.0 * (t / 288.15) ** 5.25588 * math.exp(-G * (height - 11000.0) / (R_AIR * t))

    def air(self, h):
        """Pressure and density at height h over the site."""
        t, p = self.standard(self.elevation + h)
        return p, p / (R_AIR * (t + self.offset))


@dataclass
class Stage:
    volume: float
    bore: float
    nozzle: float
    sets: int
    cd: float
    water: float
    fill: float
    dry: float
    drag_area: float

    def __post_init__(self):
        self.area = 0.25 * math.pi * self.bore**2
        self.throat = 0.25 * math.pi * self.nozzle**2
        self.ratio = self.throat / self.area
        self.inertia_length = 0.5 * self.nozzle
        self.gas_area = self.sets * self.cd * self.throat
        self.height = self.water / (self.sets * self.area)
        self.length = self.volume / (self.sets * self.area)


def circle(diameter):
    return 0.25 * math.pi * diameter**2


def drag(air_density, v, area):
    return 0.5 * air_density * v * abs(v) * area


def gas_flow(p, t, pa, area):
    """Mass flow and thrust of gas leaving at stagnation state p, t."""
    if p <= pa:
        return 0.0, 0.0
    r = pa / p
    if r < CRITICAL:
        flow = area * p * math.sqrt(GAMMA / (R_AIR * t)) * (2.0 / (GAMMA + 1.0)) ** (
            (GAMMA + 1.0) / (2.0 * (GAMMA - 1.0)))
        speed = math.sqrt(2.0 * GAMMA * R_AIR * t / (GAMMA + 1.0))
        return flow, flow * speed + (CRITICAL * p - pa) * area
    e = r ** ((GAMMA - 1.0) / GAMMA)
    speed = math.sqrt(2.0 * GAMMA / (GAMMA - 1.0) * R_AIR * t * max(1.0 - e, 0.0))
    flow = area * pa / (R_AIR * t * e) * speed
    return flow, flow * speed


def taylor_froude(eo, rv):
    """Viana, Pardo, Yanez, Trallero & Joseph (2003), all Reynolds numbers."""
    if eo < 1e-6 or rv <= 0.0:
        return 0.0

    def shape(x, a, b, c, d):
        return a / (1.0 + (x / b) ** c) ** d

    big = shape(eo, 0.34, 14.793, -3.06, 0.58)
    b = shape(eo, 31.08, 29.868, -1.96, -0.49)
    c = shape(eo, -1.45, 24.867, -9.93, -0.094)
    return shape(rv, big, b, c, -1.0295 / c)


# ------------------------------------------------------------------------------------------ integration

@dataclass
class Solver:
    method: str = "DOP853"
    tol: float = 1e-11
    calls: int = 0
    max_step: float = 0.5

    def run(self, rhs, t0, y0, scales, events, t_end):
        """Integrate until the first event or t_end. Returns t, y, name of the event (None at t_end).

        `events` are triples (name, function of (t, y), direction).
        """
        if t_end <= t0:
            return t0, np.array(y0, dtype=float), None
        functions = []
        for _, function, direction in events:
            def wrapped(t, y, function=function):
                return function(t, y)
            wrapped.terminal = True
            wrapped.direction = direction
            functions.append(wrapped)
        answer = solve_ivp(
            rhs, (t0, t_end), y0, method=self.method, rtol=max(self.tol, 3e-14),
            atol=np.asarray(scales) * self.tol, events=functions, max_step=self.max_step)
        self.calls += answer.nfev
        if answer.status < 0:
            raise RuntimeError(answer.message)
        if answer.status == 1:
            hits = [(times[0], i) for i, times in enumerate(answer.t_events) if len(times)]
            when, which = min(hits)
            return when, answer.y_events[which][0], events[which][0]
        return answer.t[-1], answer.y[:, -1], None


LONG = 400.0


# ------------------------------------------------------------------------------------------ one flight

@dataclass
class Flight:
    env: Surroundings
    booster: Stage | None
    sustainer: Stage
    pad_length: float
    pad_area: float
    tube_length: float
    tube_outer: float
    tube_inner: float
    delay: float
    ripple: float
    free: bool
    solver: Solver
    conserve_column: bool = True
    joined_on_tube: float | None = None
    phases: list = field(default_factory=list)
    notes: list = field(default_factory=list)

    def log(self, name, start, end):
        self.phases.append({"phase": name, "from_s": start, "to_s": end})

    # -- the boost of whichever stage stands on the pad ------------------------------------------

    def pad_tube(self, stage, carried, gas):
        """Piston on the launch tube: height, speed, pressure and gas left at its end."""
        env = self.env
        push_area = stage.sets * self.pad_area
        v0 = stage.volume - stage.water
        p0 = env.site_pressure + stage.fill
        mass = carried + env.rho * stage.water + gas

        def pressure(h):
            return p0 * (v0 / (v0 + push_area * h)) ** env.expansion

        def rhs(_, y):
            pa, rho_a = env.air(y[0])
            a = ((pressure(y[0]) - pa) * push_area - drag(rho_a, y[1], stage.drag_area)) / mass
            return [y[1], a - G]

        if (p0 - env.site_pressure) * push_area <= mass * G:
            raise ValueError("the launch tube does not lift the rocket")
        t, y, event = self.solver.run(rhs, 0.0, [0.0, 0.0], [1.0, 1.0],
                                      [("exit", lambda t, y: y[0] - self.pad_length, 1.0)], LONG)
        if event is None:
            raise ValueError("stuck on the launch tube")
        self.log("pad tube", 0.0, t)
        gas_volume = v0 + push_area * self.pad_length
        left = 1.0 - push_area * self.pad_length / gas_volume
        return t, y[0], y[1], pressure(y[0]), gas * left

    # What a plate in the sustainer changes is in plates.py; without one these three say so.

    def plate_loss(self, stage, u, gas_density):
        """Pressure a plate takes while water leaves the nozzle at u."""
        return 0.0

    def plate_events(self, stage, water):
        """Where the law of that pressure changes: event triples named 'plate bare', function of the water in y[2]."""
        return []

    def landing_level(self, water):
        """Height at which a falling parcel meets the vessel's water."""
        return water / self.sustainer.area

    def jet(self, stage, mass, p, pa, d, u, water, loss=0.0):
        """Proper acceleration, du/dt of a stage whose water leaves."""
        rho = self.env.rho
        h = water / (stage.sets * stage.area)
        b = stage.ratio
        inertia = rho * (h * b + stage.inertia_length)
        coupling = stage.sets * rho * stage.throat * h
        head = p - pa - rho * u * u * (1.0 - b * b) / (2.0 * stage.cd**2) - loss
        force = stage.sets * rho * stage.throat * u * u * (1.0 - b) - d
        # inertia w - rho h a = head ;  -coupling w + mass a = force
        det = inertia * mass - coupling * rho * h
        w = (head * mass + rho * h * force) / det
        a = (force + coupling * w) / mass
        return a, w

    def pad_standing(self, stage, carried, gas, p0, v0):
        """Stand on the pad until the thrust exceeds the weight. Returns t, water, u."""
        env, rho = self.env, self.env.rho
        pa = env.site_pressure

        def standing(y):
            water, u = y
            h = water / (stage.sets * stage.area)
            p = p0 * (v0 / max(stage.volume - water, 1e-9)) ** env.expansion
            b = stage.ratio
            loss = self.plate_loss(stage, u, gas / max(stage.volume - water, 1e-9))
            w = (p - pa + rho * h * G - rho * u * u * (1.0 - b * b) / (2.0 * stage.cd**2) - loss) / (
                rho * (h * b + stage.inertia_length))
            thrust = stage.sets * rho * stage.throat * (u * u * (1.0 - b) + h * w)
            return w, thrust - (carried + gas + rho * water) * G

        if standing([stage.water, 0.0])[1] > 0.0:
            return 0.0, stage.water, 0.0
        t, y, event = self.solver.run(
            lambda t, y: [-stage.sets * stage.throat * y[1], standing(y)[0]],
            0.0, [stage.water, 0.0], [stage.volume, 10.0],
            [("lift", lambda t, y: standing(y)[1], 1.0),
             ("empty", lambda t, y: y[0], -1.0)], LONG)
        if event != "lift":
            raise ValueError("the rocket does not leave the pad while its water lasts")
        self.log("standing", 0.0, t)
        return t, y[0], y[1]

    def boost(self, stage, carried):
        """Pad tube and water of the first stage. Returns t, h, v, p, gas mass, water that stayed."""
        env = self.env
        rho = env.rho
        v0 = stage.volume - stage.water
        p = env.site_pressure + stage.fill
        gas = p * v0 / (R_AIR * env.air_kelvin)
        t, h, v, u, water = 0.0, 0.0, 0.0, 0.0, stage.water
        self.gas_filled_first = gas
        plate_events = self.plate_events(stage, water)
        if self.pad_length > 0.0:
            t, h, v, p, gas = self.pad_tube(stage, carried, gas)
        else:
            t, water, u = self.pad_standing(stage, carried, gas, p, v0)
            p = p * (v0 / max(stage.volume - water, 1e-9)) ** env.expansion
        p_start, v_start = p, stage.volume - water

        def pressure(water):
            return p_start * (v_start / max(stage.volume - water, 1e-9)) ** env.expansion

        def rhs(_, y):
            hh, vv, ww, uu = y
            pa, rho_a = env.air(hh)
            a, du = self.jet(stage, carried + gas + rho * ww, pressure(ww), pa,
                             drag(rho_a, vv, stage.drag_area), uu, ww,
                             self.plate_loss(stage, uu, gas / max(stage.volume - ww, 1e-9)))
            return [vv, a - G, -stage.sets * stage.throat * uu, du]

        start, y = t, [h, v, water, u]
        events = [("empty", lambda t, y: y[2], -1.0), ("stalled", lambda t, y: y[3], -1.0)]
        t, y, event = self.solver.run(rhs, t, y, [1.0, 1.0, stage.volume, 10.0], events + plate_events, LONG)
        if event == "plate bare":
            self.plate_events(stage, 0.0)
            t, y, event = self.solver.run(rhs, t, y, [1.0, 1.0, stage.volume, 10.0], events, LONG)
        if event is None:
            raise ValueError("water phase without an end")
        self.log("water", start, t)
        h, v, water, u = y
        if event == "empty":
            water = 0.0
        return t, h, v, pressure(water), gas, water, event

    # -- gas pulse of one body --------------------------------------------------------------------

    def pulse(self, stage, t, h, v, p, gas, fixed, name="gas"):
        """Blow-down with everything seated. Returns t, h, v, gas."""
        env = self.env
        gas0, p0, volume = gas, p, stage.volume

        def pressure(m):
            return p0 * max(m / gas0, 1e-9) ** GAMMA

        def rhs(_, y):
            hh, vv, m = y
            pa, rho_a = env.air(hh)
            pp = pressure(m)
            flow, thrust = gas_flow(pp, pp * volume / (m * R_AIR), pa, stage.gas_area)
            return [vv, (thrust - drag(rho_a, vv, stage.drag_area)) / (fixed + m) - G, -flow]

        start, y = t, [h, v, gas]
        if p <= env.air(h)[0] * END_OF_PULSE:
            return t, h, v, gas
        over = ("over", lambda t, y: pressure(y[2]) - END_OF_PULSE * env.air(y[0])[0], -1.0)
        choke = ("unchoked", lambda t, y: pressure(y[2]) * CRITICAL - env.air(y[0])[0], -1.0)
        events = [over, choke] if choke[1](t, y) > 0.0 else [over]
        while True:
            t, y, event = self.solver.run(rhs, t, y, [1.0, 1.0, 1e-3], events, t + LONG)
            if event == "unchoked":
                self.log(name + " choked", start, t)
                start, events = t, [over]
                continue
            self.log(name + " unchoked", start, t)
            return t, y[0], y[1], y[2]

    # -- the stack with the sustainer's water followed ---------------------------------------------

    def growth(self, ge, depth):
        """Rate n of the small ripple and speed U of the finger in water of this depth."""
        if ge <= 0.0:
            return 0.0, 0.0
        env, bore = self.env, self.sustainer.bore
        k = MODE_ROOT / (0.5 * bore)
        n2 = (k * ge - env.sigma * k**3 / env.rho) * math.tanh(k * depth)
        eo = env.rho * ge * bore**2 / env.sigma
        rv = math.sqrt(bore**3 * ge) * env.rho / env.mu
        return math.sqrt(max(n2, 0.0)), taylor_froude(eo, rv) * math.sqrt(ge * bore)

    def dip_depth(self, h, v, lifted):
        """Depth at which gas would break through to the nozzle after a release now."""
        env, s = self.env, self.sustainer
        pa, rho_a = env.air(h)
        excess = self.fill_pressure - pa
        if excess <= 0.0:
            return 0.5 * s.height
        uq = s.cd * math.sqrt(2.0 * excess / (env.rho * (1.0 - s.ratio**2)))
        flow = s.throat * uq
        thrust = env.rho * s.throat * uq**2 * (1.0 - s.ratio)
        mv = s.dry + self.sustainer_gas + env.rho * (s.water - lifted)
        a = (thrust - drag(rho_a, v, s.drag_area)) / mv
        if a <= 0.0:
            return 0.5 * s.height
        return min(0.69 * (flow**2 / a) ** 0.2, 0.5 * s.height)

    def gas_and_coast(self, t, h, v, p, gas, left, carried, with_pulse):
        """Booster's gas pulse and coast up to the release (or the top of the stack's flight).

        `carried` is everything but the booster's gas, the booster's left water and the sustainer's water.
        """
        env, b, s = self.env, self.booster, self.sustainer
        rho, area = env.rho, s.area
        h0, length = s.height, s.length
        gas0, p0 = gas, p
        fixed = carried + rho * left
        state = {"pulse": with_pulse, "follow": False, "landed": False, "gone": False, "capped": False}

        def pressure(m):
            return p0 * max(m / gas0, 1e-9) ** GAMMA

        def mass(y):
            aloft = 0.0 if state["landed"] else y[4]
            return fixed + y[2] + rho * (s.water - aloft)

        def force(y):
            pa, rho_a = env.air(y[0])
            flow = thrust = 0.0
            if state["pulse"]:
                pp = pressure(y[2])
                flow, thrust = gas_flow(pp, pp * b.volume / (y[2] * R_AIR), pa, b.gas_area)
            return flow, thrust, drag(rho_a, y[1], b.drag_area)

        def deceleration(y):
            _, thrust, d = force(y)
            return (d - thrust) / mass(y)

        def rhs(_, y):
            flow, thrust, d = force(y)
            ge = (d - thrust) / mass(y)
            ds = dvp = dp1 = dp2 = 0.0
            if state["follow"]:
                if not state["gone"]:
                    n, u = self.growth(ge, h0)
                    ds = min(n * y[3], u)
                    dvp = LIFT_SHARE * area * ds
                if not state["landed"]:
                    dp1, dp2 = y[6], y[4] * ge
            return [y[1], -ge - G, -flow, ds, dvp, dp1, dp2]

        def top_of_parcel(y):
            centre = h0 + (y[5] / y[4] if y[4] > 0.0 else 0.0)
            return centre + y[4] / (2.0 * area)

        def dip(y):
            return self.dip_depth(y[0], y[1], y[4])

        y = np.array([h, v, gas, self.ripple, 0.0, 0.0, 0.0])
        if self.free and deceleration(y) > 0.0:
            state["follow"] = True
        scales = [1.0, 1.0, 1e-3, 1e-2, 1e-4, 1e-5, 1e-4]
        release = None
        burnout = None
        uncovers = 0.0 if (self.free and h0 - y[3] <= dip(y)) else None
        uncover_known = uncovers is not None
        phase_start, phase_name = t, "gas choked" if with_pulse else "coast"
        landed_at = None
        if with_pulse and p <= env.air(h)[0] * END_OF_PULSE:
            state["pulse"] = False
        probing = False
        saved = None
        while True:
            if not state["pulse"] and burnout is None:
                burnout = {"t": t, "h": y[0], "v": y[1], "decel": deceleration(y), "gas": y[2]}
                if uncover_known:
                    uncovers = 0.0
                release = t + self.delay
                phase_start, phase_name = t, "coast"
            if release is not None and t >= release and not probing:
                saved = self.released(t, y, state, top_of_parcel, dip, landed_at)
                self.log("coast", phase_start, t)
                if uncover_known or not self.free:
                    break
                probing = True
            events = []
            if state["pulse"]:
                events.append(("over", lambda t, y: pressure(y[2]) - END_OF_PULSE * env.air(y[0])[0], -1.0))
                if phase_name == "gas choked":
                    if pressure(y[2]) * CRITICAL <= env.air(y[0])[0]:
                        phase_name = "gas unchoked"
                    else:
                        events.append(("unchoked", lambda t, y: pressure(y[2]) * CRITICAL - env.air(y[0])[0], -1.0))
            else:
                events.append(("top", lambda t, y: y[1], -1.0))
            if self.free and not state["follow"]:
                events.append(("follow", lambda t, y: deceleration(y), 1.0))
            if state["follow"] and not state["gone"]:
                events.append(("finger through", lambda t, y: y[3] - h0, 1.0))

                def switch(_, y):
                    n, u = self.growth(deceleration(y), h0)
                    return n * y[3] - u if u > 0.0 else -1.0
                events.append(("switch", switch, -1.0 if state["capped"] else 1.0))
                if not uncover_known:
                    events.append(("uncovers", lambda t, y: h0 - y[3] - dip(y), -1.0))
            if state["follow"] and not state["landed"]:
                events.append(("lands", lambda t, y: top_of_parcel(y) - length, 1.0))
            end = t + LONG if release is None or probing else release
            t, y, event = self.solver.run(rhs, t, y, scales, events, end)
            if event == "unchoked":
                self.log(phase_name, phase_start, t)
                phase_start, phase_name = t, "gas unchoked"
            elif event == "over":
                self.log(phase_name, phase_start, t)
                state["pulse"] = False
            elif event == "switch":
                state["capped"] = not state["capped"]
            elif event == "follow":
                state["follow"] = True
            elif event == "finger through":
                state["gone"] = True
                if not uncover_known:
                    uncover_known = True
            elif event == "uncovers":
                uncovers, uncover_known = (0.0 if burnout is None else t - burnout["t"]), True
            elif event == "lands":
                m = mass(y)
                parcel = rho * y[4]
                y = y.copy()
                y[1] = (m * y[1] + parcel * (y[1] + y[6] / y[4])) / (m + parcel)
                state["landed"] = True
                if not probing:
                    landed_at = t
            elif event == "top":
                if not probing:
                    self.log("coast", phase_start, t)
                    saved = {"top": True, "t": t, "h": y[0]}
                break
        return burnout, saved, uncovers

    def released(self, t, y, state, top_of_parcel, dip, landed_at):
        s = self.sustainer
        vp = y[4] if self.free else 0.0
        if state["landed"]:
            centre, w = s.length - vp / (2.0 * s.area), 0.0
        elif vp > 0.0:
            centre, w = s.height + y[5] / vp, y[6] / vp
        else:
            centre, w = s.height, 0.0
        depth = dip(y)
        finger = y[3] if self.free else 0.0
        return {"top": False, "t": t, "h": y[0], "v": y[1], "finger": finger, "lifted": vp, "yp": centre, "w": w,
                "dip": depth, "covered": (not self.free) or s.height - finger > depth, "landed": state["landed"],
                "landed_at": landed_at, "booster_gas": y[2]}

    # -- sustainer ---------------------------------------------------------------------------------

    def ascend(self, r, booster_mass):
        """From the release to the top. Fills and returns a dictionary of results."""
        env, s = self.env, self.sustainer
        rho = env.rho
        t, h, v = r["t"], r["h"], r["v"]
        vp, yp, w = r["lifted"], r["yp"], r["w"]
        vs = s.water - vp
        gas, p, volume = self.sustainer_gas, self.fill_pressure, s.volume - s.water
        filled = gas
        parcel = vp > 0.0
        covered = r["covered"]
        c = 0.0
        mark = min((r["finger"] - (s.height - r["dip"])) / (0.5 * s.bore), 1.0)
        can_close = vs / s.area > r["dip"]
        lost = 0.0
        vented = 0.0
        dud = False
        if self.tube_length > 0.0:
            t, h, v, p, gas, yp, w, c, joined = self.staging_tube(
                t, h, v, vs, vp if parcel else 0.0, yp, w, booster_mass)
            lost += filled - gas
            if joined:
                parcel, vs = False, s.water
                covered = True
            elif not covered and can_close and c >= mark:
                covered = True
        closing = not covered
        phase = "water" if covered else "vent"
        u = 0.0
        joins = [] if self.joined_on_tube is None else [self.joined_on_tube]
        empty_at = None
        while True:
            if phase == "water":
                t, h, v, vs, u, yp, w, p, volume, event = self.water_and_parcel(
                    t, h, v, vs, u, parcel, vp, yp, w, p, volume, gas, r["dip"])
                if event == "joins":
                    v, u = self.join_moving(s.dry + gas + rho * vs, v, u, vs, vp, w)
                    joins.append(t)
                    vs, parcel = vs + vp, False
                elif event == "dips":
                    if self.conserve_column:
                        v -= rho * s.throat * (vs / s.area) * u / (s.dry + gas + rho * vs)
                    phase, closing, u = "vent", False, 0.0
                elif event == "empty":
                    empty_at = t
                    break
                else:
                    self.notes.append("the sustainer's water stalled")
                    break
            else:
                before, begun = gas, t
                t, h, v, gas, yp, w, c, p, event = self.vent(
                    t, h, v, gas, yp, w, c, p, volume, vs, vp, closing and can_close, mark)
                lost += before - gas
                vented += t - begun
                if event == "joins":
                    mv, mp = s.dry + gas + rho * vs, rho * vp
                    v = (mv * v + mp * (v + w)) / (mv + mp)
                    joins.append(t)
                    vs, parcel, u, phase = vs + vp, False, 0.0, "water"
                elif event == "closes":
                    u, phase = 0.0, "water"
                else:
                    dud = True
                    mv, mp = s.dry + gas + rho * vs, rho * vp
                    if parcel:
                        v = (mv * v + mp * (v + w)) / (mv + mp)
                        vs += vp
                    break
        burnt = None
        if empty_at is not None:
            begun = t
            t, h, v, gas = self.pulse(s, t, h, v, p, gas, s.dry, "sustainer gas")
            burnt = t - begun
            vs = 0.0
        v_burnout = v
        t, h = self.to_the_top(t, h, v, s.dry + gas + rho * vs)
        return {"apogee_m": h, "apogee_t": t, "gas_lost": lost / filled, "dud": dud, "vented_s": vented,
                "joined_s": joins[0] - r["t"] if joins else None,
                "sustainer": {"water_s": None if empty_at is None else empty_at - r["t"], "gas_s": burnt,
                              "v_burnout": v_burnout}}

    def water_and_parcel(self, t, h, v, vs, u, parcel, vp, yp, w, p, volume, gas, dip):
        env, s = self.env, self.sustainer
        rho = env.rho
        base = vs

        def pressure(water):
            return p * (volume / max(volume + base - water, 1e-9)) ** env.expansion

        def rhs(_, y):
            pa, rho_a = env.air(y[0])
            a, du = self.jet(s, s.dry + gas + rho * y[2], pressure(y[2]), pa,
                             drag(rho_a, y[1], s.drag_area), y[3], y[2],
                             self.plate_loss(s, y[3], gas / (volume + base - y[2])))
            return [y[1], a - G, -s.throat * y[3], du, y[5], -a]

        events = [("empty", lambda t, y: y[2], -1.0), ("stalled", lambda t, y: y[3], -1.0)]
        if parcel:
            events.append(("joins", lambda t, y: y[4] - vp / (2.0 * s.area) - self.landing_level(y[2]), -1.0))
            events.append(("dips", lambda t, y: y[2] / s.area - dip, -1.0))
        start, y, scales = t, [h, v, vs, u, yp, w], [1.0, 1.0, s.volume, 10.0, 0.1, 1.0]
        t, y, event = self.solver.run(rhs, t, y, scales, events + self.plate_events(s, vs), t + LONG)
        if event == "plate bare":
            self.plate_events(s, 0.0)
            t, y, event = self.solver.run(rhs, t, y, scales, events, t + LONG)
        self.log("sustainer water" + (" under a parcel" if parcel else ""), start, t)
        left = 0.0 if event == "empty" else y[2]
        return t, y[0], y[1], left, y[3], y[4], y[5], pressure(left), volume + base - left, event

    def join_moving(self, mv, v, u, vs, vp, w):
        """Impact of the parcel on the moving column: two linear equations."""
        rho, s = self.env.rho, self.sustainer
        mp, hp, hs, b = rho * vp, vp / s.area, vs / s.area, s.ratio
        matrix = [[mv + mp, -rho * s.throat * (hs + hp)],
                  [-(hp + hs), hs * b + s.inertia_length + hp * b]]
        right = [mv * v - rho * s.throat * hs * u + mp * (v + w),
                 (hs * b + s.inertia_length) * u - hp * (v + w) - hs * v]
        return np.linalg.solve(matrix, right)

    def vent(self, t, h, v, gas, yp, w, c, p, volume, vs, vp, can_close, mark):
        env, s = self.env, self.sustainer
        rho = env.rho
        gas0, p0 = gas, p

        def pressure(m):
            return p0 * max(m / gas0, 1e-9) ** GAMMA

        def rhs(_, y):
            pa, rho_a = env.air(y[0])
            pp = pressure(y[2])
            flow, thrust = gas_flow(pp, pp * volume / (y[2] * R_AIR), pa, s.gas_area)
            a = (thrust - drag(rho_a, y[1], s.drag_area)) / (s.dry + y[2] + rho * vs)
            return [y[1], a - G, -flow, y[4], -a, math.sqrt(max(a, 0.0) / s.bore)]

        y = [h, v, gas, yp, w, c]
        if can_close and c >= mark:
            return t, h, v, gas, yp, w, c, p, "closes"
        start = t
        while True:
            events = [("over", lambda t, y: pressure(y[2]) - END_OF_PULSE * env.air(y[0])[0], -1.0),
                      ("joins", lambda t, y: y[3] - (vp / 2.0 + vs) / s.area, -1.0)]
            if can_close:
                events.append(("closes", lambda t, y: y[5] - mark, 1.0))
            if pressure(y[2]) * CRITICAL > env.air(y[0])[0] * (1.0 + 1e-9):
                events.append(("unchoked", lambda t, y: pressure(y[2]) * CRITICAL - env.air(y[0])[0], -1.0))
            t, y, event = self.solver.run(rhs, t, y, [1.0, 1.0, 1e-3, 0.1, 1.0, 0.1], events, t + LONG)
            if y[3] + vp / (2.0 * s.area) > s.length * (1.0 + 1e-9):
                self.notes.append("the parcel is past the nose while the gas vents")
            if event != "unchoked":
                break
        self.log("vent", start, t)
        return t, y[0], y[1], y[2], y[3], y[4], y[5], pressure(y[2]), event

    def staging_tube(self, t, h, v, vs, vp, yp, w, booster_mass):
        """Sustainer pushed off the spent booster along the tube."""
        env, s, b = self.env, self.sustainer, self.booster
        rho = env.rho
        n = env.expansion
        v0 = s.volume - s.water - self.tube_outer * self.tube_length + self.tube_inner * self.tube_length
        p0 = self.fill_pressure
        left_area = max(b.drag_area - s.drag_area, 0.0)
        state = {"parcel": vp > 0.0}

        def pressure(x):
            return p0 * (v0 / (v0 + self.tube_outer * x)) ** n

        def mass():
            return s.dry + self.sustainer_gas + rho * (vs if state["parcel"] else vs + vp)

        def rhs(_, y):
            hh, vv, x, vb, yp, w, _ = y
            pa, rho_a = env.air(hh)
            push = (pressure(x) - pa) * self.tube_outer
            a = (push - drag(rho_a, vv, s.drag_area)) / mass()
            ab = (-push - drag(rho_a, vb, left_area)) / booster_mass
            return [vv, a - G, vv - vb, ab - G, w, -a, math.sqrt(max(a, 0.0) / s.bore)]

        y = [h, v, 0.0, v, yp, w, 0.0]
        start = t
        while True:
            events = [("exit", lambda t, y: y[2] - self.tube_length, 1.0)]
            if state["parcel"]:
                events.append(("joins", lambda t, y: y[4] - (vp / 2.0 + vs) / s.area, -1.0))
            t, y, event = self.solver.run(rhs, t, y, [1.0, 1.0, 0.1, 1.0, 0.1, 1.0, 0.1], events, t + LONG)
            if event == "joins":
                m, mp = mass(), rho * vp
                y = y.copy()
                y[1] = (m * y[1] + mp * (y[1] + y[5])) / (m + mp)
                state["parcel"] = False
                self.joined_on_tube = t
                continue
            if event is None:
                raise ValueError("stuck on the staging tube")
            break
        self.log("staging tube", start, t)
        gas = self.sustainer_gas * (1.0 - self.tube_inner * self.tube_length / (v0 + self.tube_outer * self.tube_length))
        return t, y[0], y[1], pressure(self.tube_length), gas, y[4], y[5], y[6], vp > 0.0 and not state["parcel"]

    def to_the_top(self, t, h, v, mass):
        env, s = self.env, self.sustainer
        if v <= 0.0:
            self.notes.append("falling already when the thrust ends")
            return t, h

        def rhs(_, y):
            return [y[1], -drag(env.air(y[0])[1], y[1], s.drag_area) / mass - G]

        start = t
        t, y, _ = self.solver.run(rhs, t, [h, v], [1.0, 1.0], [("top", lambda t, y: y[1], -1.0)], t + LONG)
        self.log("ascent", start, t)
        return t, y[0]

    # -- everything ----------------------------------------------------------------------------------

    def fly(self):
        env, b, s = self.env, self.booster, self.sustainer
        rho = env.rho
        self.fill_pressure = env.site_pressure + s.fill
        if b is None:
            t, h, v, p, gas, left, event = self.boost(s, s.dry)
            water_s, gas_s = t, None
            if event == "empty":
                begun = t
                t, h, v, gas = self.pulse(s, t, h, v, p, gas, s.dry + rho * left)
                gas_s = t - begun
            burnout = {"t": t, "h": h, "v": v}
            top_t, top_h = self.to_the_top(t, h, v, s.dry + gas + rho * left)
            filled = self.gas_filled_first
            lost = 0.0
            if self.pad_length > 0.0:
                inside = s.sets * self.pad_area * self.pad_length
                lost = inside / (s.volume - s.water + inside)
            return {"apogee_m": top_h, "apogee_t": top_t, "burnout": burnout, "coast_decel": None, "release": None,
                    "uncovers_s": None, "gas_lost": lost, "dud": False, "gas_kg": filled,
                    "sustainer": {"water_s": water_s, "gas_s": gas_s, "v_burnout": v}, "stack_top": False}
        in_tube = (self.tube_outer - self.tube_inner) * self.tube_length
        ullage = s.volume - s.water - in_tube
        self.sustainer_gas = self.fill_pressure * ullage / (R_AIR * env.air_kelvin)
        tube_mass = ALUMINIUM * in_tube
        carried_dry = b.dry + tube_mass + s.dry + self.sustainer_gas
        t, h, v, p, gas, left, event = self.boost(b, carried_dry + rho * s.water)
        burnout, r, uncovers = self.gas_and_coast(t, h, v, p, gas, left, carried_dry, event == "empty")
        answer = {"burnout": {k: burnout[k] for k in ("t", "h", "v")}, "coast_decel": burnout["decel"],
                  "uncovers_s": uncovers, "stack_top": r["top"]}
        if r["top"]:
            self.notes.append("the delay is longer than the stack's own flight upward")
            answer |= {"apogee_m": r["h"], "apogee_t": r["t"], "release": None, "gas_lost": None, "dud": False,
                       "sustainer": None}
            return answer
        answer["release"] = {"t": r["t"], "h": r["h"], "v": r["v"], "finger_m": r["finger"], "lifted_m3": r["lifted"],
                             "covered": r["covered"], "dip_m": r["dip"], "parcel_m": r["yp"], "parcel_mps": r["w"],
                             "landed": r["landed"]}
        booster_mass = b.dry + tube_mass + r["booster_gas"] + rho * left
        return answer | self.ascend(r, booster_mass)


def build(design, mode, solver, make=Flight, **more):
    unknown = set(design) - set(DEFAULTS)
    if unknown:
        raise KeyError(f"unknown keys {sorted(unknown)}")
    d = DEFAULTS | design
    mm, litre, bar = 1e-3, 1e-3, 1e5

    def stage(row, sets):
        return Stage(d[row + ".vol"] * litre, d[row + ".bore"] * mm, d[row + ".nozzle"] * mm, sets, d[row + ".cd"],
                     d[row + ".water"] * litre, d[row + ".fill"] * bar, d[row + ".dry"],
                     d[row + ".drag"] * circle(d[row + ".dia"] * mm))

    env = Surroundings(d["site"], d["air"] + 273.15, d["water"], d["expand"],
                       None if d["tension"] is None else d["tension"] * 1e-3)
    two = d["stages"] == 2
    return make(
        env, stage("b", d["b.count"]) if two else None, stage("s", 1),
        d["b.tube"] * mm, circle(d["b.tubeod"] * mm) if d["b.tube"] > 0.0 else 0.0,
        d["s.tube"] * mm if two else 0.0, circle(d["s.tubeod"] * mm),
        circle(max(d["s.tubeod"] - 2.0 * d["s.tubewall"], 0.0) * mm),
        d["delay"], d["disturb"] * mm, mode == "free", solver, **more)


def fly(design, mode="free", method="DOP853", tol=1e-11, **more):
    """One flight. `design`: link keys in link units that differ from the default; mode: 'free' or 'settled'."""
    flight = build(design, mode, Solver(method, tol), **more)
    answer = flight.fly()
    answer["phases"] = flight.phases
    answer["notes"] = flight.notes
    return answer


# ------------------------------------------------------------------------------------------ designs

NARROW = {"b.bore": 50, "b.vol": 3.5, "b.water": 1.1, "b.nozzle": 14, "b.fill": 20, "b.dry": 0.5, "b.drag": 0.6,
          "b.dia": 70, "s.bore": 50, "s.vol": 1.2, "s.water": 0.35, "s.nozzle": 8, "s.fill": 20, "s.dry": 0.25,
          "s.dia": 54}

DESIGNS = [
    ("default", {}),
    ("no delay", {"delay": 0}),
    ("covered, vents once the seated water is low", {"delay": 0.35}),
    ("uncovered, closes, vents again", {"delay": 0.375}),
    ("uncovered, parcel on its way up arrives first", {"delay": 0.42}),
    ("parcel has landed at the nose", {"delay": 0.7}),
    ("long delay", {"delay": 2}),
    ("delay beyond the stack's flight", {"delay": 9}),
    ("one stage", {"stages": 1}),
    ("one stage on a pad tube", {"stages": 1, "b.tube": 150, "b.tubeod": 8.5}),
    ("three sets", {"b.count": 3, "b.vol": 9, "b.water": 3, "b.bore": 88, "b.nozzle": 13, "b.dry": 0.75, "b.dia": 200}),
    ("pad tube", {"b.tube": 250}),
    ("wide nozzles", {"b.nozzle": 35, "s.nozzle": 20, "delay": 0.5}),
    ("narrow, 20 bar", NARROW),
    ("narrow, 20 bar, soapy", NARROW | {"tension": 28}),
    ("isothermal", {"expand": 1}),
    ("dry adiabatic", {"expand": 1.4, "delay": 0.3}),
    ("soapy", {"tension": 28, "delay": 0.3}),
    ("covered with water lifted", {"s.water": 0.8, "delay": 0.5}),
    ("covered with the parcel landed", {"b.drag": 0.8, "b.dia": 160, "s.water": 0.9, "s.vol": 1.4, "delay": 0.35}),
    ("staging tube", {"s.tube": 200}),
    ("staging tube, parcel joins on it", {"s.tube": 300, "s.water": 0.45, "delay": 0.4}),
    ("staging tube, closes on it", {"s.tube": 100, "delay": 0.37}),
    ("high and hot", {"site": 2500, "air": 35, "water": 30, "delay": 0.3}),
    ("nearly a dud", {"s.nozzle": 25}),
    ("sustainer stalls with water left", {"s.nozzle": 40, "delay": 0.5}),
    ("dud", {"s.nozzle": 60, "s.dry": 0.8}),
    ("ripples of 14 mm", {"disturb": 14, "delay": 0.5}),
    ("ripples of 20 mm, short delay", {"disturb": 20, "delay": 0.2}),
    ("ripples of 20 mm, narrow", NARROW | {"disturb": 20, "delay": 0.6}),
]
MODES = ("free", "settled")


def plain(value):
    """Twelve significant digits, ordinary Python types."""
    if isinstance(value, dict):
        return {k: plain(v) for k, v in value.items()}
    if isinstance(value, (list, tuple)):
        return [plain(v) for v in value]
    if isinstance(value, (bool, np.bool_)):
        return bool(value)
    if isinstance(value, (int, float, np.floating)):
        return 0.0 if value == 0 else float(f"{float(value):.12g}")
    return value


def accuracy(fly, design, mode, answer):
    """Largest change of the apogee under a hundred times looser tolerance and under another method."""
    looser = fly(design, mode, tol=1e-9)["apogee_m"]
    other = fly(design, mode, method="Radau", tol=1e-8)["apogee_m"]
    return max(abs(answer["apogee_m"] - looser), abs(answer["apogee_m"] - other))


def table(with_accuracy, designs=DESIGNS, fly=fly):
    rows = []
    for name, overrides in designs:
        for mode in MODES:
            answer = fly(overrides, mode)
            row = {"name": name, "overrides": overrides, "mode": mode, "results": plain(answer)}
            if with_accuracy:
                row["accuracy_m"] = float(f"{accuracy(fly, overrides, mode, answer):.1e}")
                print(f"{name:46s} {mode:8s} {answer['apogee_m']:12.6f} m  +- {row['accuracy_m']:.0e}", flush=True)
            rows.append(row)
    return rows


RELATIVE = 1e-7
ABSOLUTE = 1e-9


def differences(path, old, new):
    """Lines for everything that differs by more than the tolerance."""
    if isinstance(old, dict) and isinstance(new, dict):
        for key in sorted(set(old) | set(new)):
            yield from differences(f"{path}.{key}", old.get(key), new.get(key))
    elif isinstance(old, list) and isinstance(new, list) and len(old) == len(new):
        for i, (a, b) in enumerate(zip(old, new)):
            yield from differences(f"{path}[{i}]", a, b)
    elif isinstance(old, float) and isinstance(new, float):
        if abs(old - new) > RELATIVE * max(abs(old), abs(new)) + ABSOLUTE:
            yield f"{path:90s} {old:18.12g} {new:18.12g} {new - old:10.2e}"
    elif old != new:
        yield f"{path:90s} {old!s:>18s} {new!s:>18s}"


def check(path=TABLE, designs=DESIGNS, fly=fly):
    stored = json.loads(path.read_text())
    old = {(r["name"], r["mode"]): {"overrides": plain(r["overrides"]), "results": plain(r["results"])} for r in stored["rows"]}
    new = {(r["name"], r["mode"]): {"overrides": plain(r["overrides"]), "results": r["results"]} for r in table(False, designs, fly)}
    lines = []
    for key in old.keys() | new.keys():
        lines += differences("/".join(key), old.get(key), new.get(key))
    if lines:
        print(f"{'':90s} {'committed':>18s} {'now':>18s} {'difference':>10s}")
        print("\n".join(sorted(lines)))
        return 1
    print(f"{len(new)} flights agree with {path.name} to {RELATIVE:g} relative")
    return 0


def write(path=TABLE, designs=DESIGNS, fly=fly, defaults=DEFAULTS):
    rows = table(True, designs, fly)
    path.write_text(json.dumps({
        "what": f"Reference flights computed from crates/physics/MODEL.md by tests/reference/{path.stem}.py; SI units",
        "made_with": {"python": sys.version.split()[0], "numpy": np.__version__, "scipy": scipy.__version__},
        "method": "DOP853, relative tolerance 1e-11",
        "accuracy_m": "largest change of the apogee at tolerance 1e-9 and with Radau at 1e-8",
        "defaults": defaults, "rows": rows}, indent=1) + "\n")


def timing():
    """The cheapest method and tolerance that stay within 0.1 m of the default apogee, nearby tolerances too."""
    best = None
    truth = fly({}, "free")["apogee_m"]
    for method in ("DOP853", "RK45", "RK23", "LSODA", "Radau", "BDF"):
        for tol in (1e-7, 1e-6, 1e-5, 1e-4, 1e-3, 1e-2):
            if abs(fly({}, "free", method=method, tol=tol)["apogee_m"] - truth) > 0.1:
                break
            runs = []
            for _ in range(5):
                begun = time.perf_counter()
                fly({}, "free", method=method, tol=tol)
                runs.append(time.perf_counter() - begun)
            if best is None or min(runs) < best[0]:
                best = min(runs), method, tol
    runs = []
    for _ in range(20):
        begun = time.perf_counter()
        answer = fly({}, "free", method=best[1], tol=best[2])
        runs.append(time.perf_counter() - begun)
    print(json.dumps({"microseconds": round(sorted(runs)[len(runs) // 2] * 1e6), "best_microseconds": round(min(runs) * 1e6),
                      "method": best[1], "tolerance": best[2], "error_m": round(answer["apogee_m"] - truth, 4)}))


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--check", action="store_true")
    parser.add_argument("--write", action="store_true")
    parser.add_argument("--time", action="store_true")
    parser.add_argument("--one", metavar="NAME")
    parser.add_argument("--fly", metavar="JSON")
    options = parser.parse_args()
    if options.check:
        return check()
    if options.write:
        write()
    elif options.time:
        timing()
    elif options.one or options.fly:
        design = json.loads(options.fly) if options.fly else dict(DESIGNS)[options.one]
        print(json.dumps({mode: plain(fly(design, mode)) for mode in MODES}, indent=1))
    else:
        for row in table(False):
            r = row["results"]
            print(f"{row['name']:46s} {row['mode']:8s} {r['apogee_m']:10.4f} m")
    return 0


if __name__ == "__main__":
    np.seterr(all="ignore")
    sys.exit(main())
