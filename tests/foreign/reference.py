"""Solves the engine's cases again with a general-purpose numeric library, and compares.

Reads a JSON line for each case on standard input. Nothing here knows the engine's formulas: the loop of chain is the
hull of two circles, gradient and speed are roots of the published road-power model (Journal of Applied Biomechanics
14(3), 1998), inertia is an integral over each cog.
"""

import json
import sys

import numpy
from scipy.integrate import quad
from scipy.optimize import brentq
from scipy.spatial import ConvexHull

BORE_M = 0.0175
TURN = numpy.linspace(0.0, 2.0 * numpy.pi, 4000, endpoint=False)
CIRCLE = numpy.column_stack([numpy.cos(TURN), numpy.sin(TURN)])


def chain_loop(case):
    """Pitches of a chain that lies around both sprockets without slack."""
    apart = case["stay_um"] / 12_700.0
    front = CIRCLE * case["ring"] / (2.0 * numpy.pi)
    rear = CIRCLE * case["cog"] / (2.0 * numpy.pi) + [apart, 0.0]
    # In two dimensions the "area" of a hull is its girth.
    return ConvexHull(numpy.vstack([front, rear])).area


def power(case, speed, gradient):
    air = speed + case["headwind"]
    area = case["drag_area_m2"] + case["wheel_drag_area_m2"]
    slope, weight = numpy.arctan(gradient), case["mass_kg"] * case["gravity"]
    force = 0.5 * case["air_kg_m3"] * area * air * abs(air)
    force += case["rolling"] * weight * numpy.cos(slope) + weight * numpy.sin(slope)
    force += 0.091 + 0.0087 * speed
    return force * speed / case["efficiency"]


def root(function, low, high):
    """The root, or the end of the interval beyond which it lies."""
    if function(high) < 0.0:
        return high
    if function(low) > 0.0:
        return low
    return brentq(function, low, high, xtol=1e-14, rtol=1e-14, maxiter=500)


def gradient_held(case):
    metres = case["ring"] / case["cog"] * case["wheel_um"] / 1e6
    speed = metres * case["cadence_rpm"] / 60.0
    return root(lambda gradient: power(case, speed, gradient) - case["power_w"], -1.0, 1.0)


def speed_needed(case):
    return root(lambda speed: power(case, speed, case["gradient"]) - case["power_w"], 0.0, 60.0)


def inertia(case):
    whole = 0.0
    for teeth, mass_mg in case["cogs"]:
        outer = 0.0127 / (2.0 * numpy.sin(numpy.pi / teeth))
        mass = mass_mg / 1e6
        if outer <= BORE_M:
            whole += mass * outer**2
            continue
        per_area = mass / quad(lambda radius: radius, BORE_M, outer)[0]
        whole += per_area * quad(lambda radius: radius**3, BORE_M, outer)[0]
    return whole


# What is compared, how it is solved here, and how far apart the two may be: absolute, then relative.
CHECKS = [
    ("loop_pitches", chain_loop, 1e-4, 0.0),
    ("gradient_held", gradient_held, 1e-9, 0.0),
    ("speed_needed", speed_needed, 1e-8, 0.0),
    ("inertia_kg_m2", inertia, 0.0, 1e-9),
]


def main():
    cases = [json.loads(line) for line in sys.stdin if line.startswith("{")]
    wrong = 0
    for name, solve, absolute, relative in CHECKS:
        worst = 0.0
        for case in cases:
            expected = solve(case)
            apart = abs(case[name] - expected)
            worst = max(worst, apart)
            if not apart <= absolute + relative * abs(expected):
                wrong += 1
                print(f"{name}: the engine says {case[name]}, the library {expected}: {json.dumps(case)}")
        print(f"{name}: {len(cases)} cases, {worst:.2e} apart at most")
    if len(cases) < 1000:
        print(f"only {len(cases)} cases came in, at least 1000 are wanted")
        return 1
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
