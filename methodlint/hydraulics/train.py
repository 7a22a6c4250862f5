"""The flow train: every segment between the pumps and the regulator, cut into slices."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from functools import cached_property, lru_cache

import numpy as np

from methodlint.hydraulics import columns
from methodlint.hydraulics.layout import Layout

__all__ = ["BED_KINDS", "TUBE_KINDS", "Segment", "Train"]

TUBE_KINDS = frozenset({"tube", "preheater", "loop"})
"""Kinds that lose pressure like an open tube."""

BED_KINDS = frozenset({"column", "guard"})
"""Kinds that lose pressure like a packed bed."""

_UNBOUND = float("nan")


@dataclass(frozen=True)
class Segment:
    """One stretch of the flow train.

    Attributes
    ----------
    name : str
        Name in the train, unique there.
    kind : str
        "tube", "preheater", "loop" (open tubes); "column", "guard" (packed beds); any other word
        ("mixer", "injector", "cell", "regulator", ...) is a volume that loses no pressure.
    length, bore : float
        [m]; for tubes and beds.
    particle_size : float
        [m]; beds only.
    flow_resistance : float
        Superficial basis [-]; beds only.
    external_porosity, total_porosity : float
        [-]; beds only.
    swept_volume : float
        [m3]; parts only (tubes and beds have theirs by geometry).
    temperature : float or None
        Own temperature [K]; None takes that of the surroundings.
    loss : bool
        False switches the loss of pressure off (a tube known by its volume alone).
    """

    name: str
    kind: str
    length: float = 0.0
    bore: float = 0.0
    particle_size: float = 0.0
    flow_resistance: float = columns.DEFAULT_FLOW_RESISTANCE
    external_porosity: float = columns.DEFAULT_EXTERNAL_POROSITY
    total_porosity: float = columns.TOTAL_POROSITY_POROUS
    swept_volume: float = 0.0
    temperature: float | None = None
    loss: bool = True

    def __post_init__(self) -> None:
        needed = []
        if self.is_bed:
            needed = ["length", "bore", "particle_size", "flow_resistance"]
            needed += ["external_porosity", "total_porosity"]
        elif self.is_tube and self.loss:
            needed = ["length", "bore"]
        for name in needed:
            if not getattr(self, name) > 0.0:
                raise ValueError(f"{self.kind} {self.name!r}: {name} must be above zero")

    @property
    def is_tube(self) -> bool:
        """Loses pressure like an open tube."""
        return self.kind in TUBE_KINDS

    @property
    def is_bed(self) -> bool:
        """Loses pressure like a packed bed."""
        return self.kind in BED_KINDS

    @property
    def cross_section(self) -> float:
        """Of the empty tube or column [m2]."""
        return float(np.pi / 4.0 * self.bore**2)

    @property
    def volume(self) -> float:
        """Mobile phase in the segment [m3]."""
        if self.is_bed:
            return columns.hold_up_volume(self.length, self.bore, self.total_porosity)
        if self.is_tube and self.bore > 0.0:
            return self.cross_section * self.length
        return self.swept_volume


@dataclass(frozen=True)
class Train:
    """Segments in flow order: pumps first, regulator last.

    Attributes
    ----------
    segments : tuple of Segment
        At least one; names unique.

    Raises
    ------
    ValueError
        If there is no segment or a name occurs twice.
    """

    segments: tuple[Segment, ...]

    def __post_init__(self) -> None:
        names = [segment.name for segment in self.segments]
        if not names:
            raise ValueError("a flow train has at least one segment")
        twice = sorted({name for name in names if names.count(name) > 1})
        if twice:
            raise ValueError(f"names occur twice in the flow train: {', '.join(twice)}")

    def index(self, name: str) -> int:
        """Number of the segment of this name.

        Raises
        ------
        KeyError
            If there is none.
        """
        for number, segment in enumerate(self.segments):
            if segment.name == name:
                return number
        raise KeyError(name)

    def of_kind(self, *kinds: str) -> tuple[int, ...]:
        """Numbers of all segments of these kinds, in flow order."""
        return tuple(i for i, segment in enumerate(self.segments) if segment.kind in kinds)

    @cached_property
    def columns(self) -> tuple[int, ...]:
        """Numbers of the packed beds (guards and columns), in flow order."""
        return self.of_kind(*BED_KINDS)

    @cached_property
    def mixers(self) -> tuple[int, ...]:
        """Numbers of the stirred mixers upstream of the packed beds."""
        last = self.columns[0] if self.columns else len(self.segments)
        return tuple(number for number in self.of_kind("mixer") if number < last)

    @property
    def mixer_volume(self) -> float:
        """Volume of those mixers together [m3]."""
        return sum(self.segments[number].volume for number in self.mixers)

    @property
    def cell(self) -> int | None:
        """Number of the first detector cell, None without one."""
        return next(iter(self.of_kind("cell")), None)

    @property
    def regulator(self) -> int:
        """Number of the regulator: the segment of that kind, else the last one."""
        return next(iter(self.of_kind("regulator")), len(self.segments) - 1)

    def volume_before(self, number: int) -> float:
        """Volume between the pumps and the inlet of segment `number` [m3]."""
        return sum(segment.volume for segment in self.segments[:number])

    def slices_of(self, layout: Layout, number: int) -> slice:
        """Where segment `number` lies in the slices of this train's layout.

        Faces of a segment are ``pressure[:, part.start]`` (inlet) and ``pressure[:, part.stop]``
        (outlet).
        """
        found = np.flatnonzero(layout.segment == number)
        return slice(int(found[0]), int(found[-1]) + 1)

    def layout(self, per_column: int = 30, per_tube: int = 3, refine: int = 1) -> Layout:
        """Cut the train into slices.

        Parameters
        ----------
        per_column, per_tube : int, optional
            Slices of every bed and of every tube that loses a part worth telling of what the beds
            lose; anything else is one slice.
        refine : int, optional
            Multiplies both, for the proof that the steps are fine enough.

        Returns
        -------
        Layout
            Arrays (S,).
        """
        return _layout(self, per_column, per_tube, refine)


_NARROW = 0.05
"""Viscous loss of a tube over that of the bed that loses most, from which on it is cut up. Below,
it loses a few bar, over which density and viscosity run straight: one slice or three differ by
less than 0.1 bar even close to the critical point."""


def _viscous(segment: Segment) -> float:
    """Coefficient of the viscous loss of a whole bed or tube [1/m3]."""
    if segment.is_bed:
        share = segment.flow_resistance / segment.particle_size**2
        return float(share * segment.length / segment.cross_section)
    return float(128.0 * segment.length / (np.pi * segment.bore**4))


@lru_cache(maxsize=64)
def _layout(train: Train, per_column: int, per_tube: int, refine: int) -> Layout:
    # Methods of a folder share a few trains.
    rows: list[tuple[float, ...]] = []
    # by geometry alone: a measured resistance must not change how many slices there are
    usual = [
        _viscous(replace(segment, flow_resistance=columns.DEFAULT_FLOW_RESISTANCE))
        for segment in train.segments
        if segment.is_bed
    ]
    narrow = _NARROW * max(usual, default=0.0)
    for number, segment in enumerate(train.segments):
        count = 1
        bed = tube = 0.0
        viscous = inertial = turbulent = reynolds = 0.0
        area, length = segment.cross_section, segment.length
        if segment.is_bed:
            bed, count = 1.0, per_column * refine
            dp, eps = segment.particle_size, segment.external_porosity
            reynolds = dp / area
            if segment.loss:
                viscous = _viscous(segment)
                inertial = columns.ERGUN_INERTIAL_CONSTANT * (1.0 - eps) * length
                inertial /= eps**3 * dp * area**2
        elif segment.is_tube and segment.loss:
            viscous = _viscous(segment)
            tube, count = 1.0, (per_tube if viscous > narrow else 1) * refine
            reynolds = 4.0 / (np.pi * segment.bore)
            turbulent = length / (2.0 * segment.bore * area**2)
        own = _UNBOUND if segment.temperature is None else segment.temperature
        shared = np.array([viscous, inertial, turbulent, segment.volume]) / count
        rows += [(number, tube, bed, *shared, reynolds, own)] * count
    table = np.array(rows, dtype=np.float64).T
    layout = Layout(
        segment=table[0].astype(np.int64),
        is_tube=table[1].astype(np.bool_),
        is_column=table[2].astype(np.bool_),
        viscous=table[3],
        inertial=table[4],
        turbulent=table[5],
        volume=table[6],
        reynolds=table[7],
        temperature=table[8],
    )
    for field in fields(Layout):
        getattr(layout, field.name).flags.writeable = False
    return layout
