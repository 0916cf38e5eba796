"""Tables about plates with holes from published reference libraries, for the Rust tests.

    python restrictor.py            print the tables
    python restrictor.py --check    compute again, compare with restrictor.json, exit 1 on a difference
    python restrictor.py --write    write restrictor.json

Nothing here uses a formula of MODEL.md; the two orifices in series are solved by bracketing with the library's own flow function.
"""

import argparse
import json
import math
import sys
from importlib.metadata import version
from pathlib import Path

import fluids
from fluids.atmosphere import ATMOSPHERE_1976
from fluids.flow_meter import C_Reader_Harris_Gallagher
from fluids.safety_valve import API520_F2
from scipy.optimize import brentq
from scipy.special import jn_zeros

from properties import differences

TABLE = Path(__file__).resolve().parent / "restrictor.json"
K = 1.4
CRITICAL = fluids.P_critical_flow(1.0, K)


def digits(x):
    return float(f"{float(x):.14g}")


def orifices():
    """Corner taps. The upstream pressure for the loss is large, so that its expansibility plays no part (the library uses none there)."""
    rows = []
    for bore in (0.026, 0.05, 0.071, 0.0725, 0.088, 0.1, 0.105):
        for beta in (0.1, 0.2, 0.35, 0.5, 0.6, 0.75):
            for reynolds in (5e3, 2e4, 1e5, 1e6):
                rho, mu = 998.2, 1.0016e-3
                mass_flow = reynolds * math.pi * bore * mu / 4.0
                c = C_Reader_Harris_Gallagher(D=bore, Do=beta * bore, rho=rho, mu=mu, m=mass_flow, taps="corner")
                loss = fluids.dP_orifice(D=bore, Do=beta * bore, P1=2e5, P2=1e5, C=c) / 1e5
                k = fluids.discharge_coefficient_to_K(D=bore, Do=beta * bore, C=c)
                rows.append({"bore_m": bore, "beta": beta, "reynolds": reynolds, "discharge": digits(c),
                             "loss_share": digits(loss), "k_on_bore": digits(k)})
    return rows


def viscosities():
    """Heights with their own temperature; only the pair of temperature and viscosity counts."""
    airs = [ATMOSPHERE_1976(z) for z in (-2000.0, 0.0, 500.0, 2000.0, 5000.0, 11000.0)]
    return [{"t_k": digits(air.T), "viscosity_pa_s": digits(air.mu)} for air in airs]


def flow_function(ratio):
    """Mass flow over A p/sqrt(R T), from the coefficient of subcritical flow of API 520."""
    r = max(ratio, CRITICAL)
    return 0.0 if r >= 1.0 else math.sqrt(2.0 * (1.0 - r)) * API520_F2(k=K, P1=1.0, P2=r)


def flow_functions():
    return [{"ratio": r, "psi": digits(flow_function(r))} for r in (0.1, 0.5, 0.5283, 0.6, 0.7, 0.8, 0.9, 0.95, 0.99, 0.999)]


def series():
    rows = []
    for nozzle in (0.05, 0.25, 0.5, 0.8, 1.0, 1.5, 2.0, 4.0):
        for ambient in (0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 0.99):
            def surplus(y):
                return flow_function(y) - nozzle * y * flow_function(ambient / y)
            y = brentq(surplus, ambient, 1.0, xtol=1e-16, rtol=1e-15)
            rows.append({"nozzle_over_holes": nozzle, "ambient_ratio": ambient, "share": digits(y)})
    return rows


def bonds():
    rows = []
    for hole in (0.005, 0.0131, 0.0209, 0.05):
        for deceleration in (3.0, 9.80665, 40.0):
            # The library's gravity is fixed; a factor on the length stands for another one.
            length = 0.5 * hole * math.sqrt(deceleration / fluids.constants.g)
            rows.append({"hole_m": hole, "deceleration": deceleration, "bond": digits(fluids.Bond(998.2, 0.0, 0.07274, length))})
    return rows


def everything():
    library, scipy = f"fluids {version('fluids')}", f"scipy {version('scipy')}"
    return {
        "limits": {"source": f"{scipy} jn_zeros, squared", "one_hole": digits(jn_zeros(1, 1)[0] ** 2),
                   "several_holes": digits(jn_zeros(0, 1)[0] ** 2)},
        "bond": {"source": f"{library} Bond, water 998.2 kg/m3, 0.07274 N/m", "rows": bonds()},
        "orifices": {"source": f"{library} C_Reader_Harris_Gallagher, dP_orifice, discharge_coefficient_to_K", "rows": orifices()},
        "air_viscosity": {"source": f"{library} ATMOSPHERE_1976", "rows": viscosities()},
        "flow_function": {"source": f"{library} API520_F2 and P_critical_flow, k = 1.4", "rows": flow_functions()},
        "series": {"source": f"{scipy} brentq on the same", "rows": series()},
    }


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
