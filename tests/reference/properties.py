"""Tables of air, water and gas-flow properties from published reference libraries, for the Rust tests.

    python properties.py            print the tables
    python properties.py --check    compute again, compare with properties.json, exit 1 on a difference
    python properties.py --write    write properties.json

Nothing here uses a formula of MODEL.md; where no library has the quantity, the row says "formula".
"""

import argparse
import json
import math
import sys
from importlib.metadata import version
from pathlib import Path

import CoolProp.CoolProp as coolprop
import fluids
import iapws._iapws as iapws_correlations
from ambiance import Atmosphere
from fluids.atmosphere import ATMOSPHERE_1976

TABLE = Path(__file__).resolve().parent / "properties.json"
EARTH_RADIUS = 6356766.0


def ten(x):
    return float(f"{float(x):.10g}")


def atmosphere():
    """Rows at geopotential height H; the libraries want geometric height Z = r0 H/(r0 - H)."""
    rows = []
    for height in [0, 500, *range(1000, 12000, 1000)]:
        z = EARTH_RADIUS * height / (EARTH_RADIUS - height)
        a, b = ATMOSPHERE_1976(z), Atmosphere(z)
        rows.append({"geopotential_m": height, "t_k": ten(a.T), "p_pa": ten(a.P), "rho_kg_m3": ten(a.rho),
                     "sound_m_s": ten(a.v_sonic), "ambiance_p_pa": ten(b.pressure[0]), "ambiance_t_k": ten(b.temperature[0])})
    return rows


def water():
    rows = []
    for celsius in (0.01, 4, 10, 16, 20, 25, 30, 40, 50, 60):
        kelvin = celsius + 273.15
        rho = coolprop.PropsSI("D", "T", kelvin, "P", 101325.0, "Water")
        rows.append({"celsius": celsius, "density_kg_m3": ten(rho),
                     "viscosity_pa_s": ten(iapws_correlations._Viscosity(rho, kelvin)),
                     "vapour_pressure_pa": ten(coolprop.PropsSI("P", "T", kelvin, "Q", 0, "Water")),
                     "tension_n_m": ten(iapws_correlations._Tension(kelvin))})
    return rows


def isentropic():
    """Ratios of NACA Report 1135 for k = 1.4."""
    k, gas, t = 1.4, 287.053, 300.0
    rows = []
    for mach in (0.1, 0.2, 0.3, 0.5, 0.8, 1.0, 1.5, 2.0, 3.0):
        speed = mach * math.sqrt(k * gas * t)
        t0 = fluids.T_stagnation_ideal(T=t, V=speed, Cp=k * gas / (k - 1.0))
        p0 = fluids.P_stagnation(P=1.0, T=t, Tst=t0, k=k)
        area = (1.0 / mach) * ((2.0 / (k + 1.0)) * (1.0 + 0.5 * (k - 1.0) * mach**2)) ** ((k + 1.0) / (2.0 * (k - 1.0)))
        rows.append({"mach": mach, "t_t0": ten(t / t0), "p_p0": ten(1.0 / p0), "rho_rho0": ten(t0 / t / p0),
                     "a_astar": ten(area)})
    return {"rows": rows, "critical_pressure_ratio": ten(fluids.P_critical_flow(1.0, k))}


def everything():
    v = {name: f"{name} {version(name)}" for name in ("fluids", "ambiance", "CoolProp", "iapws")}
    return {
        "atmosphere": {"source": f"{v['fluids']} ATMOSPHERE_1976; ambiance columns {v['ambiance']}", "rows": atmosphere()},
        "water": {"source": {"density_kg_m3": f"{v['CoolProp']}, IAPWS-95 at 101325 Pa",
                             "vapour_pressure_pa": f"{v['CoolProp']}, IAPWS-95 saturation",
                             "viscosity_pa_s": f"{v['iapws']}, IAPWS R12-08 at that density",
                             "tension_n_m": f"{v['iapws']}, IAPWS R1-76(2014)"}, "rows": water()},
        "isentropic": {"source": f"{v['fluids']} T_stagnation_ideal, P_stagnation, P_critical_flow, k = 1.4; a_astar: formula",
                       **isentropic()},
    }


def differences(path, old, new):
    if isinstance(old, dict) and isinstance(new, dict):
        for key in sorted(set(old) | set(new)):
            yield from differences(f"{path}.{key}", old.get(key), new.get(key))
    elif isinstance(old, list) and isinstance(new, list) and len(old) == len(new):
        for i, (a, b) in enumerate(zip(old, new)):
            yield from differences(f"{path}[{i}]", a, b)
    elif isinstance(old, (int, float)) and isinstance(new, (int, float)):
        if abs(old - new) > 1e-8 * max(abs(old), abs(new)):
            yield f"{path:60s} {old:16.10g} {new:16.10g} {new - old:10.2e}"
    elif old != new:
        yield f"{path:60s} {old!s} | {new!s}"


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--check", action="store_true")
    parser.add_argument("--write", action="store_true")
    options = parser.parse_args()
    text = json.dumps(everything(), indent=1) + "\n"
    if options.write:
        TABLE.write_text(text)
    elif options.check:
        lines = list(differences("", json.loads(TABLE.read_text()), json.loads(text)))
        if lines:
            print(f"{'':60s} {'committed':>16s} {'now':>16s} {'difference':>10s}")
            print("\n".join(lines))
            return 1
        print(f"agrees with {TABLE.name}")
    else:
        print(text, end="")
    return 0


if __name__ == "__main__":
    sys.exit(main())
