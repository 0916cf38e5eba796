"""The flight of `trajectories.py` with a restrictor (a plate with holes) in the sustainer, from crates/physics/MODEL.md alone.

The boost, the staging and the column of water are those of `trajectories.py`; what a plate changes is here. Link keys
besides: r.bore (mm), r.holes, r.height (mm), r.cd (null: by the formula), r.knock, r.mass (g); r.bore = 0 is no plate.

    python plates.py                one line per design
    python plates.py --check        compute again, compare with plates.json, exit 1 on a difference
    python plates.py --write        write plates.json
    python plates.py --one NAME     everything about one design
    python plates.py --fly JSON     everything about any design, e.g. '{"r.bore": 16, "delay": 0.5}'

SI units, absolute pressures, up positive.
"""

import argparse
import json
import math
import sys
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from scipy.optimize import brentq

import trajectories as bare
from trajectories import (CRITICAL, END_OF_PULSE, G, GAMMA, LIFT_SHARE, LONG, MODES, R_AIR, Flight, Solver, circle, drag,
                          gas_flow, plain)

HERE = Path(__file__).resolve().parent
TABLE = HERE / "plates.json"
PLATE_DEFAULTS = {"r.bore": 0.0, "r.holes": 1, "r.height": 85.0, "r.cd": None, "r.knock": 0.5, "r.mass": 12.0}
DEFAULTS = bare.DEFAULTS | PLATE_DEFAULTS
ONE_HOLE, MANY_HOLES = 14.682, 5.783
SAME_HEIGHT = 1e-9


# ------------------------------------------------------------------------------------------ what a plate is

def sutherland(kelvin):
    """Viscosity of air, Pa s."""
    return 1.458e-6 * kelvin**1.5 / (kelvin + 110.4)


def reader_harris_gallagher(beta, reynolds, bore_mm):
    """ISO 5167-2 with corner taps."""
    a = (19000.0 * beta / reynolds) ** 0.8
    c = (0.5961 + 0.0261 * beta**2 - 0.216 * beta**8 + 0.000521 * (1e6 * beta / reynolds) ** 0.7
         + (0.0188 + 0.0063 * a) * beta**3.5 * (1e6 / reynolds) ** 0.3)
    if bore_mm < 71.12:
        c += 0.011 * (0.75 - beta) * (2.8 - bore_mm / 25.4)
    return c


@dataclass
class Plate:
    hole: float
    holes: int
    height: float
    cd: float | None
    knock: float

    def fit(self, env, s):
        """Everything about the plate that does not change during a flight of sustainer s."""
        self.open_area = self.holes * circle(self.hole)
        self.beta = min(max(math.sqrt(self.open_area / s.area), 0.1), 0.75)
        self.limit = ONE_HOLE if self.holes == 1 else MANY_HOLES
        self.gas_density = (env.site_pressure + s.fill) / (R_AIR * env.air_kelvin)
        jet = s.cd * math.sqrt(2.0 * s.fill / (env.rho * (1.0 - s.ratio**2)))

        def discharge(density, viscosity):
            if self.cd is not None:
                return self.cd
            reynolds = 4.0 * density * s.throat * jet / (math.pi * viscosity * s.bore)
            return reader_harris_gallagher(self.beta, max(reynolds, 5000.0), s.bore * 1e3)

        self.c_gas = discharge(self.gas_density, sutherland(env.air_kelvin))
        self.c_water = discharge(env.rho, env.mu)
        self.below = min(s.water, s.area * self.height)
        self.above = s.water - self.below
        self.gap = max(self.height - s.height, 0.0)
        if abs(self.height - s.height) < SAME_HEIGHT:
            self.below, self.above, self.gap = s.water, 0.0, 0.0
        self.most_leak = max(min(self.below, s.area * (s.length - self.height) - self.above), 0.0)
        ambient = 101325.0 / (R_AIR * env.air_kelvin)
        self.gas_factor = ((1.0 + (ambient / env.rho) ** 0.25) / (1.0 + (self.gas_density / env.rho) ** 0.25)) ** 2

    def loss(self, flow, density, c):
        """Permanent pressure loss of a volume flow."""
        b4 = self.beta**4
        root = math.sqrt(1.0 - b4 * (1.0 - c * c))
        omega = (root - c * self.beta**2) / (root + c * self.beta**2)
        return 0.5 * density * (flow / (c * self.open_area)) ** 2 * (1.0 - b4) * omega

    def leak(self, ge, env, regime):
        """Volume flow of water through the holes; regime 0 held, 1 on the way, 2 open."""
        if regime == 0 or ge <= 0.0:
            return 0.0
        share = 1.0
        if regime == 1:
            q = min(max((self.fraction(ge, env) - self.knock) / (1.0 - self.knock), 0.0), 1.0)
            share = q * q * (3.0 - 2.0 * q)
        eo = env.rho * ge * self.hole**2 / env.sigma
        slow = (1.0 + 3805.0 / eo**3.06) ** -0.58
        return self.holes * 0.262 * math.sqrt(ge * self.hole**5) * share * slow * self.gas_factor

    def bond(self, ge, env):
        return env.rho * ge * (0.5 * self.hole) ** 2 / env.sigma

    def fraction(self, ge, env):
        """Bond number over its limit, x."""
        return self.bond(ge, env) / self.limit

    def regime(self, ge, env):
        x = self.fraction(ge, env)
        return 2 if x >= 1.0 else 1 if x > self.knock else 0


def orifice(log_r):
    """Isentropic orifice at back-pressure ratio r: mass flow per area p / sqrt(R T), exit speed over sqrt(R T)."""
    if log_r <= math.log(CRITICAL):
        flow = math.sqrt(GAMMA) * (2.0 / (GAMMA + 1.0)) ** ((GAMMA + 1.0) / (2.0 * (GAMMA - 1.0)))
        return flow, math.sqrt(2.0 * GAMMA / (GAMMA + 1.0))
    speed = math.sqrt(2.0 * GAMMA / (GAMMA - 1.0) * max(-math.expm1((GAMMA - 1.0) / GAMMA * log_r), 0.0))
    return math.exp(log_r / GAMMA) * speed, speed


# ------------------------------------------------------------------------------------------ one flight

@dataclass
class PlateFlight(Flight):
    plate: Plate | None = None
    low: float = 0.0          # water below the plate while water flows
    wet: bool = False         # water stands on the plate
    pool: bool = False        # a parcel falls into the pool below the plate, as in a bare vessel
    report: dict | None = None

    def __post_init__(self):
        if self.tube_length > 0.0:
            raise ValueError("a staging tube and a restrictor together are refused")
        self.plate.fit(self.env, self.sustainer)
        self.low = self.plate.below

    def plate_loss(self, stage, u, gas_density):
        if stage is not self.sustainer:
            return 0.0
        density, c = (self.env.rho, self.plate.c_water) if self.wet else (gas_density, self.plate.c_gas)
        return self.plate.loss(stage.throat * u, density, c)

    def plate_events(self, stage, water):
        if stage is not self.sustainer:
            return []
        self.wet = water - self.low > 1e-12 * stage.volume
        return [("plate bare", lambda t, y: y[2] - self.low, -1.0)] if self.wet else []

    def landing_level(self, water):
        area = self.sustainer.area
        return water / area if self.pool else self.plate.height + max(water - self.low, 0.0) / area

    # -- gas pulse: holes and nozzle in series ----------------------------------------------------

    def series(self, p, temperature, pa):
        """Pressure between holes and nozzle, mass flow, thrust.

        The unknown is an angle, pi = pa + (p - pa) sin^2: near either end flows go like the root of a pressure difference.
        """
        s, holes = self.sustainer, self.plate.c_gas * self.plate.open_area
        if p <= pa:
            return pa, 0.0, 0.0
        excess = (p - pa) / pa

        def logs(angle):
            return (math.log1p(-math.cos(angle) ** 2 * excess / (1.0 + excess)),
                    -math.log1p(excess * math.sin(angle) ** 2))

        def surplus(angle):
            hole, nozzle = logs(angle)
            return holes * orifice(hole)[0] - s.gas_area * math.exp(hole) * orifice(nozzle)[0]
        angle = brentq(surplus, 0.0, 0.5 * math.pi, xtol=1e-15, rtol=1e-15)
        pi = pa + (p - pa) * math.sin(angle) ** 2
        share, speed = orifice(logs(angle)[1])
        root = math.sqrt(R_AIR * temperature)
        flow = s.gas_area * pi * share / root
        return pi, flow, flow * speed * root + max(CRITICAL * pi - pa, 0.0) * s.gas_area

    def pulse(self, stage, t, h, v, p, gas, fixed, name="gas"):
        env = self.env
        gas0, p0, volume = gas, p, stage.volume

        def pressure(m):
            return p0 * max(m / gas0, 1e-9) ** GAMMA

        def rhs(_, y):
            pa, rho_a = env.air(y[0])
            pp = pressure(y[2])
            _, flow, thrust = self.series(pp, pp * volume / (y[2] * R_AIR), pa)
            return [y[1], (thrust - drag(rho_a, y[1], stage.drag_area)) / (fixed + y[2]) - G, -flow]

        def nozzle(_, y):
            pa = env.air(y[0])[0]
            return self.series(pressure(y[2]), 1.0, pa)[0] * CRITICAL - pa

        def holes(_, y):
            pp = pressure(y[2])
            return pp * CRITICAL - self.series(pp, 1.0, env.air(y[0])[0])[0]

        if p <= env.air(h)[0] * END_OF_PULSE:
            return t, h, v, gas
        start, y = t, [h, v, gas]
        events = [("over", lambda t, y: pressure(y[2]) - END_OF_PULSE * env.air(y[0])[0], -1.0)]
        if nozzle(t, y) > 0.0:
            events.append(("unchoked", nozzle, -1.0))
        if holes(t, y) > 0.0:
            events.append(("holes unchoked", holes, -1.0))
        while True:
            t, y, event = self.solver.run(rhs, t, y, [1.0, 1.0, 1e-3], events, t + LONG)
            if event == "unchoked":
                self.log(name + " choked", start, t)
                start = t
            if event != "over":
                events = [e for e in events if e[0] != event]
                continue
            self.log(name + " unchoked", start, t)
            return t, y[0], y[1], y[2]

    # -- the stack, with water below and above the plate followed ----------------------------------

    def gas_and_coast(self, t, h, v, p, gas, left, carried, with_pulse):
        """State: h, v, booster's gas, finger s, parcel Vp, P1, P2 (from the height `origin`), leaked Vl."""
        env, b, s, plate = self.env, self.booster, self.sustainer, self.plate
        rho, area = env.rho, s.area
        gas0, p0, fixed = gas, p, carried + rho * left
        with_gap, with_top = plate.gap > 0.0, plate.above > 0.0
        depth = plate.above / area if with_top else s.height if with_gap else 0.0
        first_finger = min(self.ripple, depth)
        st = {"pulse": with_pulse, "follow": False, "pool": with_gap, "landed": False, "full": False, "capped": False,
              "through": first_finger >= depth, "emptied": plate.most_leak <= 0.0, "regime": 0, "leaked": False,
              "origin": s.height if with_top else plate.height}
        if with_gap:
            st["origin"] = s.height

        def pressure(m):
            return p0 * max(m / gas0, 1e-9) ** GAMMA

        def mass(y):
            return fixed + y[2] + rho * (s.water - (0.0 if st["landed"] else y[4]))

        def force(y):
            pa, rho_a = env.air(y[0])
            flow = thrust = 0.0
            if st["pulse"]:
                pp = pressure(y[2])
                flow, thrust = gas_flow(pp, pp * b.volume / (y[2] * R_AIR), pa, b.gas_area)
            return flow, thrust, drag(rho_a, y[1], b.drag_area)

        def deceleration(y):
            _, thrust, d = force(y)
            return (d - thrust) / mass(y)

        def may_leak():
            return st["follow"] and not st["pool"] and not st["emptied"] and (st["through"] or not with_top)

        def rhs(_, y):
            flow, thrust, d = force(y)
            ge = (d - thrust) / mass(y)
            ds = lifted = leak = dp1 = dp2 = 0.0
            if st["follow"]:
                if not st["through"]:
                    n, u = self.growth(ge, depth)
                    ds = min(n * y[3], u)
                if with_top or (st["pool"] and not st["full"]):
                    lifted = LIFT_SHARE * area * ds
                if may_leak():
                    leak = plate.leak(ge, env, st["regime"])
                if not st["landed"]:
                    dp1, dp2 = y[6] + leak * (plate.height - st["origin"]), y[4] * ge
            return [y[1], -ge - G, -flow, ds, lifted + leak, dp1, dp2, leak]

        def top_of_parcel(y):
            return st["origin"] + (y[5] / y[4] if y[4] > 0.0 else 0.0) + y[4] / (2.0 * area)

        def dip(y):
            return self.dip_depth(y[0], y[1], y[4])

        def finger_opens(y):
            return s.height - y[3] - dip(y)

        def uncovered(y):
            return self.free and (st["leaked"] or (with_gap and finger_opens(y) <= 0.0))

        def settle():
            """After anything hard: are the holes held?"""
            if may_leak():
                st["regime"] = plate.regime(deceleration(y), env)
                st["leaked"] = st["leaked"] or st["regime"] > 0

        def fraction(_, y):
            return plate.fraction(deceleration(y), env)

        y = np.array([h, v, gas, first_finger, 0.0, 0.0, 0.0, 0.0])
        scales = [1.0, 1.0, 1e-3, 1e-2, 1e-7, 1e-8, 1e-7, 1e-7]
        release = burnout = uncovers = saved = landed_at = None
        known = not self.free
        start, name = t, "gas choked" if with_pulse else "coast"
        st["follow"] = self.free and deceleration(y) > 0.0
        st["pulse"] = with_pulse and p > env.air(h)[0] * END_OF_PULSE
        settle()
        while True:
            if not st["pulse"] and burnout is None:
                ge = deceleration(y)
                burnout = {"t": t, "h": y[0], "v": y[1], "decel": ge, "gas": y[2], "bond": plate.bond(ge, env)}
                release = t + self.delay
                start, name = t, "coast"
            if not known and uncovered(y):
                uncovers, known = (0.0 if st["pulse"] else t - burnout["t"]), True
            if release is not None and t >= release and saved is None:
                saved = self.released_with_plate(t, y, st, dip(y), landed_at, burnout)
                self.log("coast", start, t)
            if saved is not None and known:
                break
            events = []
            if st["pulse"]:
                events.append(("over", lambda t, y: pressure(y[2]) - END_OF_PULSE * env.air(y[0])[0], -1.0))
                if name == "gas choked":
                    if pressure(y[2]) * CRITICAL <= env.air(y[0])[0]:
                        name = "gas unchoked"
                    else:
                        events.append(("unchoked", lambda t, y: pressure(y[2]) * CRITICAL - env.air(y[0])[0], -1.0))
            else:
                events.append(("top", lambda t, y: y[1], -1.0))
            if self.free and not st["follow"]:
                events.append(("follow", lambda t, y: deceleration(y), 1.0))
            if st["follow"] and not st["through"]:
                events.append(("finger through", lambda t, y: y[3] - depth, 1.0))

                def switch(_, y):
                    n, u = self.growth(deceleration(y), depth)
                    return n * y[3] - u if u > 0.0 else -1.0
                events.append(("switch", switch, -1.0 if st["capped"] else 1.0))
                if with_gap and not known:
                    events.append(("uncovers", lambda t, y: finger_opens(y), -1.0))
            if st["follow"] and st["pool"]:
                events.append(("wetted", lambda t, y: top_of_parcel(y) - plate.height, 1.0))
                if not st["full"]:
                    events.append(("full", lambda t, y: y[4] - area * plate.gap, 1.0))
            elif st["follow"] and not st["landed"]:
                events.append(("lands", lambda t, y: top_of_parcel(y) - s.length, 1.0))
            if may_leak():
                events.append(("emptied", lambda t, y: y[7] - plate.most_leak, 1.0))
                if st["regime"] > 0:
                    low = plate.knock if st["regime"] == 1 else 1.0
                    events.append(("less", lambda t, y: fraction(t, y) - low, -1.0))
                if st["regime"] < 2:
                    high = plate.knock if st["regime"] == 0 else 1.0
                    events.append(("more", lambda t, y: fraction(t, y) - high, 1.0))
            end = release if release is not None and saved is None else t + LONG
            t, y, event = self.solver.run(rhs, t, y, scales, events, end)
            if event == "unchoked":
                self.log(name, start, t)
                start, name = t, "gas unchoked"
            elif event == "over":
                self.log(name, start, t)
                st["pulse"] = False
                settle()
            elif event == "switch":
                st["capped"] = not st["capped"]
            elif event == "uncovers":
                uncovers, known = (0.0 if burnout is None else t - burnout["t"]), True
            elif event in ("follow", "full", "emptied"):
                st[event] = True
                settle()
            elif event == "finger through":
                st["through"] = True
                settle()
            elif event in ("less", "more"):
                one_step = 2 if plate.knock >= 1.0 else 1
                st["regime"] += one_step if event == "more" else -one_step
                st["leaked"] = st["leaked"] or st["regime"] > 0
            elif event in ("wetted", "lands"):
                m, parcel = mass(y), rho * y[4]
                y = y.copy()
                y[1] = (m * y[1] + parcel * (y[1] + y[6] / y[4])) / (m + parcel)
                if event == "lands":
                    st["landed"] = True
                    landed_at = t if saved is None else landed_at
                else:
                    y[4:7] = 0.0
                    st["pool"], st["origin"] = False, plate.height
                settle()
            elif event == "top":
                if saved is None:
                    self.log("coast", start, t)
                    saved = {"top": True, "t": t, "h": y[0]}
                break
        return burnout, saved, uncovers

    def released_with_plate(self, t, y, st, dip, landed_at, burnout):
        s, plate = self.sustainer, self.plate
        vp, finger, leaked = (y[4], y[3], y[7]) if self.free else (0.0, 0.0, 0.0)
        if not self.free:
            centre, w = s.height, 0.0
        elif st["landed"]:
            centre, w = s.length - vp / (2.0 * s.area), 0.0
        else:
            centre, w = (st["origin"] + y[5] / vp, y[6] / vp) if vp > 0.0 else (st["origin"], 0.0)
        at_nozzle = None
        if not self.free:
            covered = True
        elif st["pool"]:
            covered = s.height - finger > dip
        else:
            passed = finger - (s.height - dip)
            ramp = min(max(passed / dip, 0.0), 1.0) if dip > 0.0 else float(passed >= 0.0)
            at_nozzle = leaked + s.area * plate.gap * ramp
            covered = at_nozzle <= 0.0
        if self.free:
            self.report = {"leaked_m3": leaked, "gas_at_nozzle_m3": at_nozzle, "bond_burnout": burnout["bond"],
                           "wetted": not st["pool"]}
        return {"top": False, "t": t, "h": y[0], "v": y[1], "finger": finger, "lifted": vp, "yp": centre, "w": w,
                "dip": dip, "covered": covered, "landed": st["landed"], "landed_at": landed_at, "booster_gas": y[2],
                "pool": st["pool"], "leaked": leaked, "at_nozzle": at_nozzle}

    # -- sustainer ---------------------------------------------------------------------------------

    def ascend(self, r, booster_mass):
        s, plate, rho = self.sustainer, self.plate, self.env.rho
        if not self.free:
            return super().ascend(r, booster_mass)
        if r["pool"]:
            self.pool, self.low = True, s.water
            return super().ascend(r, booster_mass)
        t, h, v, vp, yp, w = (r[key] for key in ("t", "h", "v", "lifted", "yp", "w"))
        vs, self.low = s.water - vp, plate.below - r["leaked"]
        gas, p, volume = self.sustainer_gas, self.fill_pressure, s.volume - s.water
        filled, parcel, joined = gas, vp > 0.0, None
        lost = vented = u = 0.0
        dud, empty_at = False, None

        def together():
            m, mp = s.dry + gas + rho * vs, rho * vp
            return (m * v + mp * (v + w)) / (m + mp)

        def land():
            """Water lands on the plate; what was seated is the most that stands below it."""
            self.low = min(self.low, vs)
            return vs + vp, False, t - r["t"]

        if parcel and yp - vp / (2.0 * s.area) <= self.landing_level(vs) + 1e-9:
            v = together()
            vs, parcel, joined = land()
        stop = (gas * (1.0 - r["at_nozzle"] / volume), min(2.0 * r["at_nozzle"] / (s.area * s.bore), 1.0))
        phase = "water" if r["covered"] else "vent"
        c = 0.0
        while True:
            if phase == "water" and parcel and vs / s.area <= r["dip"]:
                phase, stop = "vent", None
            if phase == "water":
                t, h, v, vs, u, yp, w, p, volume, event = self.water_and_parcel(
                    t, h, v, vs, u, parcel, vp, yp, w, p, volume, gas, r["dip"])
                if event == "joins":
                    v, u = self.join_moving(s.dry + gas + rho * vs, v, u, vs, vp, w)
                    if u <= 0.0:
                        raise ValueError("the jet was thrown back")
                    vs, parcel, joined = land()
                elif event == "dips":
                    v -= rho * s.throat * (vs / s.area) * u / (s.dry + gas + rho * vs)
                    phase, stop, u = "vent", None, 0.0
                elif event == "empty":
                    empty_at = t
                    break
                else:
                    self.notes.append("the sustainer's water stalled")
                    break
            else:
                before, begun = gas, t
                t, h, v, gas, yp, w, c, p, event = self.vent_with_plate(
                    t, h, v, gas, yp, w, c, p, volume, vs, vp if parcel else None, stop)
                lost += before - gas
                vented += t - begun
                if event == "joins":
                    v = together()
                    vs, parcel, joined = land()
                    phase = "vent" if stop else "water"
                elif event == "closes":
                    phase = "water"
                else:
                    dud = True
                    if parcel:
                        v = together()
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
                "joined_s": joined,
                "sustainer": {"water_s": None if empty_at is None else empty_at - r["t"], "gas_s": burnt,
                              "v_burnout": v_burnout}}

    def vent_with_plate(self, t, h, v, gas, yp, w, c, p, volume, vs, aloft, stop):
        """Gas leaves a closed volume until the marks in `stop` (gas left, closing progress) or the parcel's landing."""
        env, s, rho = self.env, self.sustainer, self.env.rho
        gas0, p0 = gas, p

        def pressure(m):
            return p0 * max(m / gas0, 1e-9) ** GAMMA

        def rhs(_, y):
            pa, rho_a = env.air(y[0])
            pp = pressure(y[2])
            flow, thrust = gas_flow(pp, pp * volume / (y[2] * R_AIR), pa, s.gas_area)
            a = (thrust - drag(rho_a, y[1], s.drag_area)) / (s.dry + y[2] + rho * vs)
            return [y[1], a - G, -flow, y[4], -a, math.sqrt(max(a, 0.0) / s.bore)]

        start, y = t, [h, v, gas, yp, w, c]
        while True:
            events = [("over", lambda t, y: pressure(y[2]) - END_OF_PULSE * env.air(y[0])[0], -1.0)]
            if aloft is not None:
                events.append(("joins", lambda t, y: y[3] - aloft / (2.0 * s.area) - self.landing_level(vs), -1.0))
            if stop:
                events.append(("closes", lambda t, y: y[2] - stop[0], -1.0))
                events.append(("closes", lambda t, y: y[5] - stop[1], 1.0))
            if pressure(y[2]) * CRITICAL > env.air(y[0])[0] * (1.0 + 1e-9):
                events.append(("unchoked", lambda t, y: pressure(y[2]) * CRITICAL - env.air(y[0])[0], -1.0))
            t, y, event = self.solver.run(rhs, t, y, [1.0, 1.0, 1e-3, 0.1, 1.0, 0.1], events, t + LONG)
            if event != "unchoked":
                break
        self.log("vent", start, t)
        return t, y[0], y[1], y[2], y[3], y[4], y[5], pressure(y[2]), event

    def fly(self):
        answer = super().fly()
        if self.free and answer["release"] is not None:
            answer["plate"] = self.report
        return answer


def fly(design, mode="free", method="DOP853", tol=1e-11, **more):
    """One flight. `design`: link keys in link units that differ from the default; mode: 'free' or 'settled'."""
    own = {k: v for k, v in design.items() if k in PLATE_DEFAULTS}
    rest = {k: v for k, v in design.items() if k not in own}
    r = PLATE_DEFAULTS | own
    if r["r.bore"] <= 0.0:
        return bare.fly(rest, mode, method, tol, **more)
    rest["s.dry"] = rest.get("s.dry", DEFAULTS["s.dry"]) + r["r.mass"] * 1e-3
    plate = Plate(r["r.bore"] * 1e-3, r["r.holes"], r["r.height"] * 1e-3, r["r.cd"], r["r.knock"])
    flight = bare.build(rest, mode, Solver(method, tol), make=PlateFlight, plate=plate, **more)
    answer = flight.fly()
    answer["phases"] = flight.phases
    answer["notes"] = flight.notes
    return answer


# ------------------------------------------------------------------------------------------ designs

def level_with(height_mm):
    """Water, in litres, that stands exactly as high as the plate in the default sustainer."""
    return 0.25 * math.pi * DEFAULTS["s.bore"] ** 2 * height_mm * 1e-6


def plate(hole, holes=1, **more):
    return {"r.bore": hole, "r.holes": holes} | {"r." + k: v for k, v in more.items()}


METAL = {"b.vol": 6, "b.bore": 90, "b.water": 2, "b.nozzle": 14, "b.fill": 60, "b.dry": 2.2, "b.dia": 96, "s.vol": 1.6,
         "s.bore": 76, "s.water": 0.5, "s.nozzle": 8, "s.fill": 60, "s.dry": 0.9, "s.dia": 82}
FLUSH = {"s.water": level_with(85)}

DESIGNS = [
    ("flush, held", FLUSH | plate(7)),
    ("flush, leaks, no delay", FLUSH | plate(40) | {"delay": 0}),
    ("flush, leaks, 0.5 s", FLUSH | plate(40) | {"delay": 0.5}),
    ("small gap, held, no delay", plate(7) | {"delay": 0}),
    ("small gap, held, 0.3 s", plate(7) | {"delay": 0.3}),
    ("small gap, held", plate(7)),
    ("small gap, held, 2.5 s", plate(7) | {"delay": 2.5}),
    ("small gap, marginal, 0.2 s", plate(24) | {"delay": 0.2}),
    ("small gap, marginal", plate(26)),
    ("small gap, leaks then held", plate(32) | {"delay": 1.5}),
    ("small gap, leaks, 0.25 s", plate(40) | {"delay": 0.25}),
    ("small gap, leaks", plate(40)),
    ("small gap, leaks, empty", plate(60, knock=0.1) | {"delay": 2}),
    ("gap 10 mm, 0.36 s", plate(7, height=92) | {"delay": 0.36}),
    ("gap 10 mm, 0.5 s", plate(7, height=92) | {"delay": 0.5}),
    ("gap 10 mm, leaks", plate(35, height=92)),
    ("gap 40 mm, 0.2 s", plate(7, height=122) | {"delay": 0.2}),
    ("gap 40 mm, 0.38 s", plate(7, height=122) | {"delay": 0.38}),
    ("gap 40 mm", plate(7, height=122)),
    ("gap 150 mm, 0.375 s", plate(9, height=232) | {"delay": 0.375}),
    ("gap 150 mm, 0.42 s", plate(9, height=232) | {"delay": 0.42}),
    ("gap 150 mm, leaks, 1.2 s", plate(40, height=232) | {"delay": 1.2}),
    ("plate at 40 mm, held, 0.4 s", plate(7, height=40) | {"delay": 0.4}),
    ("plate at 40 mm, held", plate(7, height=40)),
    ("plate at 40 mm, leaks, 0.6 s", plate(40, height=40) | {"delay": 0.6}),
    ("plate at 40 mm, leaks, 2 s", plate(60, height=40) | {"delay": 2}),
    ("plate at 15 mm, held, 0.5 s", plate(12, height=15) | {"delay": 0.5}),
    ("plate at 70 mm, held", plate(7, height=70)),
    ("plate at 70 mm, marginal, 0.5 s", plate(28, height=70) | {"delay": 0.5}),
    ("plate at 70 mm, leaks, 0.2 s", plate(50, height=70) | {"delay": 0.2}),
    ("seven holes of 9 mm", plate(9, 7)),
    ("seven holes of 22 mm", plate(22, 7)),
    ("sixty holes of 5 mm, 0.5 s", plate(5, 60) | {"delay": 0.5}),
    ("one hole of 60 mm, 0.5 s", plate(60) | {"delay": 0.5}),
    ("narrow hole", plate(6)),
    ("narrow hole, rounded", plate(6, cd=0.95)),
    ("narrow hole, water above", plate(6, height=40) | {"delay": 0}),
    ("soapy, marginal", plate(18) | {"tension": 28}),
    ("soapy, sixty holes, leaks", plate(10, 60) | {"tension": 28, "delay": 0.6}),
    ("one stage, water above", {"stages": 1} | plate(8, height=60)),
    ("one stage on a pad tube, narrow hole", {"stages": 1, "b.tube": 150, "b.tubeod": 8.5} | plate(6)),
    ("metal, 60 bar, leaks", METAL | plate(40, height=112, mass=40)),
    ("metal, 60 bar, water above, held", METAL | plate(6, height=100, mass=40)),
    ("leaks at once or not at all", plate(30, knock=1)),
    ("leaks early", plate(16, knock=0.05)),
    ("dud", plate(60) | {"s.nozzle": 45, "s.dry": 0.8, "delay": 0.8}),
    ("delay beyond the stack's flight", plate(7) | {"delay": 9}),
]


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--check", action="store_true")
    parser.add_argument("--write", action="store_true")
    parser.add_argument("--one", metavar="NAME")
    parser.add_argument("--fly", metavar="JSON")
    options = parser.parse_args()
    if options.check:
        return bare.check(TABLE, DESIGNS, fly)
    if options.write:
        bare.write(TABLE, DESIGNS, fly, DEFAULTS)
    elif options.one or options.fly:
        design = json.loads(options.fly) if options.fly else dict(DESIGNS)[options.one]
        print(json.dumps({mode: plain(fly(design, mode)) for mode in MODES}, indent=1))
    else:
        for row in bare.table(False, DESIGNS, fly):
            print(f"{row['name']:46s} {row['mode']:8s} {row['results']['apogee_m']:10.4f} m")
    return 0


if __name__ == "__main__":
    np.seterr(all="ignore")
    sys.exit(main())
