"""What the geometry of two columns alone says about flow, time and injection volume.

The formulas are those of the harmonised chapter USP <621> (Ph. Eur. 2.2.46), as official since
1 December 2022; quoted from memory and recomputed. They were written for liquid chromatography.
"""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Bed", "flow_ratio", "length_span", "plate_ratio", "time_ratio", "volume_ratio"]


@dataclass(frozen=True, slots=True)
class Bed:
    """Geometry of a packed bed.

    Attributes
    ----------
    length, inner_diameter, particle_size
        [m], above 0.
    total_porosity
        Share of the empty column that mobile phase fills [-].
    """

    length: float
    inner_diameter: float
    particle_size: float
    total_porosity: float = 0.65

    @property
    def length_to_particle(self) -> float:
        """L/dp [-]."""
        return self.length / self.particle_size


def flow_ratio(source: Bed, target: Bed) -> float:
    """F2/F1 that keeps the reduced velocity [-].

    Source
    ------
    F2 = F1 (d2^2 dp1) / (d1^2 dp2): USP <621>, from memory; van Deemter theory.
    """
    bore = (target.inner_diameter / source.inner_diameter) ** 2
    return bore * source.particle_size / target.particle_size


def volume_ratio(source: Bed, target: Bed, *, hold_up: bool = False) -> float:
    """V2/V1 of the empty columns, or of their hold-up volumes [-].

    Parameters
    ----------
    hold_up
        Whether the total porosities count too, which the chapter leaves out.

    Source
    ------
    V2 = V1 (L2 d2^2) / (L1 d1^2), for injection volumes: USP <621>, from memory.
    """
    ratio = target.length * target.inner_diameter**2
    ratio /= source.length * source.inner_diameter**2
    return ratio * target.total_porosity / source.total_porosity if hold_up else ratio


def time_ratio(source: Bed, target: Bed, flow: float) -> float:
    """t2/t1 that keeps the column volumes of every segment of a gradient [-].

    Parameters
    ----------
    flow
        F2/F1 as chosen [-], above 0.

    Source
    ------
    tG2 = tG1 (F1/F2) (L2 d2^2) / (L1 d1^2): USP <621>, from memory.
    """
    return volume_ratio(source, target) / flow


def plate_ratio(source: Bed, target: Bed) -> float:
    """N2/N1 at the same reduced velocity: that of L/dp [-]."""
    return target.length_to_particle / source.length_to_particle


def length_span(
    source: Bed, particle_size: float, lowest: float, highest: float
) -> tuple[float, float]:
    """Column lengths [m] whose L/dp stays within a span.

    Parameters
    ----------
    particle_size
        Of the target [m].
    lowest, highest
        Relative to the source, 0.75 and 1.50 for -25 % and +50 %.
    """
    middle = source.length_to_particle * particle_size
    return lowest * middle, highest * middle
