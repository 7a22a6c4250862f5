"""The sequences that verify a transfer: the same injections on both systems."""

from __future__ import annotations

from methodlint.documents.quantities.format import number
from methodlint.transfer.bench_part import Widths
from methodlint.transfer.sides import Side, Sides
from methodlint.transfer.text_edits import as_scalar

__all__ = ["verification_names", "verification_texts"]

_RETENTION_SPAN = 0.05
_AREA_SPAN = 0.10
_REPLICATES = 6


def verification_names(name: str) -> tuple[str, str]:
    """Names of both sequences, source first."""
    return f"{name}-verify-source", f"{name}-verify-target"


def verification_texts(sides: Sides, name: str, peaks: list[Widths]) -> dict[str, str]:
    """Text of both sequences by name.

    Parameters
    ----------
    name
        Of the proposed method.
    peaks
        Expected peaks on both systems.
    """
    first, second = verification_names(name)
    return {
        first: _text(sides, sides.source, sides.method.name, peaks, target=False),
        second: _text(sides, sides.target, name, peaks, target=True),
    }


def _text(sides: Sides, side: Side, method: str, peaks: list[Widths], *, target: bool) -> str:
    suitability = sides.typed.suitability
    replicates = max(suitability.replicates or 0 if suitability else 0, _REPLICATES)
    lines = [
        "kind: sequence",
        f"title: Verification of a transfer, {'target' if target else 'source'} system",
        "status: draft",
        f"instrument: {as_scalar(side.instrument.name)}",
        f"method: {as_scalar(method)}",
    ]
    if sides.typed.purpose:
        lines.append(f"purpose: {sides.typed.purpose}")
    lines += _acceptance(peaks, suitability.resolution if suitability else None, target=target)
    lines += [
        "# Same vials on both systems. Supply, solvents, room and positions are for the bench to give.",
        "equilibration: 10 min",
        "lines:",
        "  - {kind: blank, sample: diluent}",
        "  - {kind: conditioning, sample: suitability mixture, count: 3}",
        f"  - {{kind: suitability, sample: suitability mixture, count: {replicates}}}",
        "  - {kind: blank, sample: diluent}",
        "after: idle method",
    ]
    return "\n".join(lines) + "\n"


def _acceptance(peaks: list[Widths], resolution: float | None, *, target: bool) -> list[str]:
    lines = ["# Accept if (common practice, no source; retention is predicted, verify):"]
    for peak in peaks:
        time = peak.target_time if target else peak.time
        lines.append(
            f"#   {' '.join(peak.name.split())}: {number(time / 60.0)} min "
            f"+- {number(_RETENTION_SPAN * time / 60.0, 2)} min"
        )
    if resolution is not None:
        lines.append(f"#   resolution of the critical pair at least {resolution:g} on both systems")
    else:
        lines.append("#   same order of elution, resolution not below the source's")
    lines.append(f"#   mean areas per amount injected agree within {_AREA_SPAN:.0%}")
    return lines
