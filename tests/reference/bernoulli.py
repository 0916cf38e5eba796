"""A still more independent look at the default design: the textbook's quasi-steady jet, fixed steps, by hand.

No column inertia (du/dt = 0 in Bernoulli's equation and in the thrust), classical Runge-Kutta at a fixed step, events by
the first step beyond them, settled water. It shares no code with trajectories.py; that is called for the comparison only.

Two book-keepings of the thrust: "inside" is MODEL.md with du/dt = 0, F = rho An u^2 (1 - b); "exit" is the usual
F = rho An u^2. The model's thrust is rho An (u^2 + d(h u)/dt): over a water phase from rest its impulse equals that of
"exit", but a part, rho An h u, comes at once when the jet starts and the rocket is heavy, and is taken back while the
column empties and the rocket is light. "inside" has the taking without the giving. So the model must lie between the
two, and it does.
"""

import math

g, R, k = 9.80665, 287.053, 1.4
site, air, rho = 30.0, 291.15, 998.943
dT = air - (288.15 - 0.0065 * site)
bar = 1e5


def pa(h):
    return 101325.0 * (1.0 - 0.0065 * (site + h) / 288.15) ** 5.25588


def rho_air(h):
    return pa(h) / (R * (288.15 - 0.0065 * (site + h) + dT))


def rk4(f, y, dt):
    a = f(y)
    b = f([u + dt / 2 * v for u, v in zip(y, a)])
    c = f([u + dt / 2 * v for u, v in zip(y, b)])
    d = f([u + dt * v for u, v in zip(y, c)])
    return [u + dt / 6 * (p + 2 * q + 2 * r + s) for u, p, q, r, s in zip(y, a, b, c, d)]


def stage(share, h, v, litres, water, bore, throat, cd, fill, dead, cds, n=1.3, dt=2e-5):
    """Water, then gas. dead: mass of everything but this stage's water and gas. Returns t, h, v, gas mass, jet speeds."""
    A, An = math.pi / 4 * bore**2, math.pi / 4 * throat**2
    b = An / A
    net = 1 - b * share
    p0, V0 = pa(0) + fill, litres - water
    mg = p0 * V0 / (R * air)
    t = 0.0

    def burn(y):
        h, v, w = y
        p = p0 * (V0 / (litres - w)) ** n
        m, z = dead + mg + rho * w, w / A
        D = 0.5 * rho_air(h) * v * abs(v) * cds
        # u^2 = 2 Cd^2/(1-b^2) [(p - pa)/rho + a z], a = (rho An u^2 net - D)/m: linear in u^2
        c = 2 * cd**2 / (1 - b * b)
        u2 = c * ((p - pa(h)) / rho - D * z / m) / (1 - c * z * rho * An * net / m)
        a = (rho * An * u2 * net - D) / m
        return [v, a - g, -An * math.sqrt(max(u2, 0.0))]

    y = [h, v, water]
    while y[2] > 0:
        y = rk4(burn, y, dt)
        t += dt
    h, v, _ = y
    tw, hw, vw = t, h, v
    p1 = p0 * (V0 / litres) ** n
    m1 = mg

    def blow(y):
        h, v, m = y
        p = p1 * (m / m1) ** k
        T = p * litres / (m * R)
        r = pa(h) / p
        if r < (2 / (k + 1)) ** (k / (k - 1)):
            r = (2 / (k + 1)) ** (k / (k - 1))
        ue = math.sqrt(2 * k / (k - 1) * R * T * max(1 - r ** ((k - 1) / k), 0.0))
        pe = r * p
        q = cd * An * pe / (R * T * r ** ((k - 1) / k)) * ue
        F = q * ue + (pe - pa(h)) * cd * An
        D = 0.5 * rho_air(h) * v * abs(v) * cds
        return [v, (F - D) / (dead + m) - g, -q]

    y = [h, v, mg]
    while p1 * (y[2] / m1) ** k > pa(y[0]) * 1.0001:
        y = rk4(blow, y, dt)
        t += dt
    return t, y[0], y[1], y[2], (tw, hw, vw)


def glide(h, v, m, cds, seconds=None, dt=1e-3):
    t = 0.0
    f = lambda y: [y[1], -0.5 * rho_air(y[0]) * y[1] * abs(y[1]) * cds / m - g]
    y = [h, v]
    while y[1] > 0 and (seconds is None or t < seconds - dt / 2):
        y = rk4(f, y, dt)
        t += dt
    return t, y[0], y[1]


def flight(share):
    cs = math.pi / 4
    stack, sus = 0.45 * cs * 0.110**2, 0.38 * cs * 0.092**2
    sg = (pa(0) + 10 * bar) * 1.5e-3 / (R * air)
    load = 0.22 + sg + rho * 0.5e-3
    t1, h1, v1, left, w1 = stage(share, 0, 0, 7.5e-3, 2.4e-3, 0.105, 0.0215, 0.97, 10 * bar, 0.42 + load, stack)
    _, h2, v2 = glide(h1, v1, 0.42 + left + load, stack, 1.0)
    _, h3, v3, left3, w3 = stage(share, h2, v2, 2e-3, 0.5e-3, 0.088, 0.009, 0.97, 10 * bar, 0.22, sus)
    _, h4, _ = glide(h3, v3, 0.22 + left3, sus)
    return [w1[0], t1, h1, v1, h2, v2, w3[0], v3, h4]


def main():
    from trajectories import fly
    r = fly({}, "settled")
    full = [r["phases"][0]["to_s"], r["burnout"]["t"], r["burnout"]["h"], r["burnout"]["v"], r["release"]["h"],
            r["release"]["v"], r["sustainer"]["water_s"], r["sustainer"]["v_burnout"], r["apogee_m"]]
    names = ["water gone, s", "burnout, s", "burnout height, m", "burnout speed, m/s", "release height, m",
             "release speed, m/s", "sustainer water, s", "sustainer burnout, m/s", "apogee, m"]
    print(f"{'settled, delay 1 s':24s} {'model':>12s} {'inside':>12s} {'off':>9s} {'exit':>12s} {'off':>9s}")
    for name, c, a, b in zip(names, full, flight(1.0), flight(0.0)):
        print(f"{name:24s} {c:12.4f} {a:12.4f} {100 * (a / c - 1):7.2f} % {b:12.4f} {100 * (b / c - 1):7.2f} %")


if __name__ == "__main__":
    main()
