"""Make, or check, the shipped tables of the two-phase envelopes.

``python -m methodlint.fluids.mixtures.make_boundary`` writes ``data/boundary_<modifier>.npz`` and a
``.json`` beside each that says what it was made from; ``--check`` makes them anew and compares.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import sys
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from methodlint.fluids.mixtures.boundary_tracing import PhaseEnvelope, trace
from methodlint.fluids.mixtures.interaction_parameters import CARBON_DIOXIDE, PAIRS, PairParameters

Array = NDArray[np.float64]

DATA = Path(__file__).parent.parent / "data"
RETROGRADE_NODES = 24
BUBBLE_NODES = 80
SUBCRITICAL_T = np.array([*np.arange(273.15, 303.2, 1.0), 303.75, CARBON_DIOXIDE.temperature])
SUPERCRITICAL_T = np.array([304.65, 305.15, 306.15, *np.arange(307.15, 373.2, 2.0)])
TRACED_POINTS = 300


def envelopes(pair: PairParameters) -> list[PhaseEnvelope]:
    """All traced isotherms of one pair, cold to warm."""
    out: list[PhaseEnvelope] = []
    for T, supercritical in ((SUBCRITICAL_T, False), (SUPERCRITICAL_T, True)):
        out += trace(pair.cubic, T, pair.boundary.at(T), supercritical, TRACED_POINTS)
    return out


def _saturation(T: float) -> float:
    from CoolProp import CoolProp

    if T >= CARBON_DIOXIDE.temperature:
        return CARBON_DIOXIDE.pressure
    return float(CoolProp.PropsSI("P", "T", T, "Q", 0, "CO2"))


def _rows(envelope: PhaseEnvelope) -> tuple[float, float, Array, Array]:
    """Critical and leanest composition, upper and lower pressures on the stretched nodes."""
    pressure, liquid, vapour = envelope.pressure, envelope.liquid, envelope.vapour
    q = np.linspace(0.0, 1.0, BUBBLE_NODES + 1)
    t = np.linspace(0.0, 1.0, RETROGRADE_NODES + 1)
    if envelope.supercritical:
        # The last steps close the gap in ln K to 0 evenly: pressure closes as its square.
        end = 0.5 * (liquid[-1] + vapour[-1])
        end_pressure = pressure[-1] + (pressure[-1] - pressure[-2]) / 3.0
    else:
        end = 0.0
        slope = (pressure[-1] - pressure[-2]) / (liquid[-1] - liquid[-2])
        end_pressure = _saturation(envelope.temperature)
        # The cubic's own saturation line is up to 0.3 % off: the share of CO2 follows the
        # reference.
        correction = end_pressure / (pressure[-1] - slope * liquid[-1]) - 1.0
        pressure = pressure * (1.0 + correction * (1.0 - liquid))
    liquid, vapour = np.append(liquid, end), np.append(vapour, end)
    pressure = np.append(pressure, end_pressure)
    x_bubble = end + (1.0 - end) * q * q
    upper = np.interp(x_bubble, liquid[::-1], pressure[::-1])
    turn = int(np.argmin(vapour))
    leanest = float(vapour[turn])

    def dew(x: Array) -> Array:
        last = turn if envelope.supercritical else turn - 1
        y, p = vapour[last::-1], pressure[last::-1]
        rich = np.exp(np.interp(np.log(np.maximum(x, y[0])), np.log(y), np.log(p)))
        return np.asarray(np.where(x < y[0], end_pressure + (p[0] - end_pressure) * x / y[0], rich))

    if envelope.supercritical:
        x_retrograde = (leanest + (end - leanest) * t * t)[:-1]
        upper_retrograde = np.interp(x_retrograde, vapour[turn:], pressure[turn:])
        lower_retrograde = dew(x_retrograde)
    else:
        # No retrograde side: the piece collapses onto the saturation of CO2.
        upper_retrograde = lower_retrograde = np.full(RETROGRADE_NODES, end_pressure)
    return (
        end,
        leanest,
        np.append(upper_retrograde, upper),
        np.append(lower_retrograde, dew(x_bubble)),
    )


def table(pair: PairParameters) -> dict[str, Any]:
    """Arrays of one table, as they are stored."""
    traced = envelopes(pair)
    rows = [_rows(e) for e in traced]
    return {
        "temperature": np.array([e.temperature for e in traced]),
        "critical_composition": np.array([r[0] for r in rows]),
        "leanest_composition": np.array([r[1] for r in rows]),
        "upper": np.array([r[2] for r in rows], dtype=np.float32),
        "lower": np.array([r[3] for r in rows], dtype=np.float32),
        "retrograde_nodes": np.array(RETROGRADE_NODES),
    }


def description(pair: PairParameters, npz: Path) -> dict[str, Any]:
    """What a table was made from, for the file beside it."""
    import CoolProp

    return {
        "modifier": pair.name,
        "equation": "Peng & Robinson 1976, van der Waals one-fluid mixing",
        "carbon_dioxide": vars_of(CARBON_DIOXIDE),
        "critical_constants": vars_of(pair.critical),
        "k12_knots_K": [list(k) for k in pair.knots],
        "sources": list(pair.sources),
        "saturation_of_carbon_dioxide": f"CoolProp {CoolProp.__version__}",
        "sha256": hashlib.sha256(npz.read_bytes()).hexdigest(),
    }


def vars_of(constants: Any) -> dict[str, float]:
    """Critical constants as plain numbers [K, Pa, -]."""
    return {
        "temperature": constants.temperature,
        "pressure": constants.pressure,
        "acentric_factor": constants.acentric_factor,
    }


def main(arguments: list[str] | None = None) -> int:
    """Command line: 0 when written or equal, 1 when ``--check`` finds a difference."""
    parser = argparse.ArgumentParser(prog="make_boundary", description=__doc__)
    parser.add_argument("--check", action="store_true", help="compare with the shipped tables")
    parser.add_argument("--only", choices=sorted(PAIRS), help="one modifier instead of all")
    chosen = parser.parse_args(arguments)
    faults = 0
    for pair in PAIRS.values():
        if chosen.only not in (None, pair.name):
            continue
        path = DATA / f"boundary_{pair.name.replace('-', '_')}.npz"
        made = table(pair)
        if chosen.check:
            with np.load(path) as stored:
                worst = max(
                    float(np.max(np.abs(stored[key] - value) / np.maximum(np.abs(value), 1e-9)))
                    for key, value in made.items()
                )
            record = json.loads(path.with_suffix(".json").read_text(encoding="utf-8"))
            same_bytes = record["sha256"] == hashlib.sha256(path.read_bytes()).hexdigest()
            fine = worst < 1e-4 and same_bytes
            faults += not fine
            print(
                f"{pair.name}: largest relative difference {worst:.1e}", "" if fine else "DIFFERS"
            )
        else:
            DATA.mkdir(exist_ok=True)
            np.savez_compressed(path, **made)
            text = json.dumps(description(pair, path), indent=2) + "\n"
            path.with_suffix(".json").write_text(text, encoding="utf-8")
            print(f"{pair.name}: {path.stat().st_size} bytes")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
