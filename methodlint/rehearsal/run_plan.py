"""A method, its columns and an instrument, resolved to the numbers that a rehearsal needs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, cast

from methodlint.documents.kinds.column import Column
from methodlint.documents.kinds.instrument import Instrument, TrainPart
from methodlint.documents.kinds.method import Method, ProgrammeRow
from methodlint.documents.loading import Loaded
from methodlint.fluids import mixture
from methodlint.fluids.liquids import find_liquid
from methodlint.hydraulics import columns as beds
from methodlint.hydraulics.train import Segment, Train
from methodlint.rehearsal.missing import Missing
from methodlint.rehearsal.programme import Programme, SetPoint, programme_from_rows

if TYPE_CHECKING:
    from methodlint.documents.kinds.base import Liquid

AMBIENT = 293.15
"""Temperature [K] of parts outside the oven, and of the modifier when it is metered."""

AIR_PRESSURE = 101325.0

_BEFORE_PUMPS = "mixing point"


@dataclass(frozen=True)
class RunPlan:
    """One method on one instrument, in SI, or the list of what is missing for it.

    Attributes
    ----------
    fluid
        Model of the mobile phase; None if there is none for this modifier.
    train
        Segments from the mixing point to the regulator.
    column_indices
        Numbers of the packed beds in the train.
    analytical_column
        Number of the last packed bed, which is the column proper.
    resistance_band
        Relative band of the pressure drop (half width).
    missing
        What has to be supplied before the run can be rehearsed.
    """

    method: Loaded
    columns: tuple[Loaded, ...]
    instrument: Loaded | None
    fluid: mixture.MixtureModel | None = None
    programme: Programme | None = None
    train: Train | None = None
    analytical_column: int = -1
    head_temperature: float = 0.0
    metering: str = "volume"
    modifier_name: str = ""
    makeup_flow: float = 0.0
    makeup_joins: int | None = None
    resistance_band: float = 0.20
    part_of_segment: tuple[int | None, ...] = ()
    missing: tuple[Missing, ...] = ()
    no_model: bool = False
    missing_for: dict[str, tuple[Missing, ...]] = field(default_factory=dict)

    @property
    def ready(self) -> bool:
        """Whether the run can be rehearsed."""
        return not self.missing

    @property
    def method_model(self) -> Method:
        """The typed method."""
        return cast(Method, self.method.model)


def plan_run(method: Loaded, columns: Sequence[Loaded], instrument: Loaded | None) -> RunPlan:
    """Resolve one method on one instrument.

    Parameters
    ----------
    method, columns, instrument
        Documents; columns in flow order, the analytical column last.

    Returns
    -------
    RunPlan
        With `missing` filled where figures are not given.
    """
    lacks: list[Missing] = []
    typed = cast(Method, method.model)
    fluid, name, no_model = _mobile_phase(method, lacks)
    if no_model:
        lacks.append(
            Missing(
                "method.mobile_phase.modifier", method, "there is no model for this mobile phase"
            )
        )
    if not columns:
        lacks.append(Missing("method.column", method, _why_broken(method, ("column",))))
    if instrument is None:
        lacks.append(Missing("method.runs_on", method))
        return RunPlan(
            method, tuple(columns), None, fluid=fluid, missing=tuple(lacks), no_model=no_model
        )
    card = cast(Instrument, instrument.model)
    train, parts = _train(columns, instrument, lacks)
    head = card.co2_pump.head_temperature if card.co2_pump else None
    if head is None:
        lacks.append(Missing("instrument.co2_pump.head_temperature", instrument))
    programme = _programme(method, train, lacks)
    makeup, joins = _makeup(typed, train)
    return RunPlan(
        method=method,
        columns=tuple(columns),
        instrument=instrument,
        fluid=fluid,
        programme=programme,
        train=train,
        analytical_column=train.columns[-1] if train and train.columns else -1,
        head_temperature=head.si if head else 0.0,
        metering=card.co2_pump.metering if card.co2_pump else "volume",
        modifier_name=name,
        makeup_flow=makeup,
        makeup_joins=joins,
        resistance_band=_resistance_band(columns),
        part_of_segment=parts,
        missing=tuple(lacks),
        no_model=no_model,
    )


def components_of(liquid: Liquid) -> tuple[tuple[str, float], ...]:
    """Name the liquids of a bottle with their shares; the names are the standard ones."""
    if liquid.liquids:
        parts = [(part.liquid, part.share.si) for part in liquid.liquids]
    elif liquid.liquid:
        parts = [(liquid.liquid, 1.0)]
    else:
        parts = []
    known = [(find_liquid(name), name, share) for name, share in parts]
    return tuple((found.name if found else name, share) for found, name, share in known)


def _mobile_phase(
    method: Loaded, lacks: list[Missing]
) -> tuple[mixture.MixtureModel | None, str, bool]:
    typed = cast(Method, method.model)
    phase = typed.mobile_phase
    pure = phase is not None and phase.modifier is None and _never_any_modifier(typed)
    if pure:
        return mixture.model_for("carbon dioxide"), "", False
    if phase is None or phase.modifier is None:
        lacks.append(
            Missing(
                "method.mobile_phase.modifier",
                method,
                _why_broken(method, ("mobile_phase", "modifier")),
            )
        )
        return None, "", False
    components = components_of(phase.modifier)
    if not components:
        lacks.append(Missing("method.mobile_phase.modifier.liquid", method))
        return None, "", False
    wanted = components[0][0] if len(components) == 1 else components
    model = mixture.model_for(wanted)
    main = max(components, key=lambda part: part[1])[0]
    return model, main, model is None


def _never_any_modifier(method: Method) -> bool:
    shares = [row.modifier_share for row in method.programme if row.modifier_share is not None]
    if method.mobile_phase is not None and method.mobile_phase.modifier_share is not None:
        shares.append(method.mobile_phase.modifier_share)
    return bool(shares) and all(share.si == 0.0 for share in shares)


def _why_broken(document: Loaded, path: tuple[str | int, ...]) -> str:
    for broken, problem in document.broken.items():
        if broken[: len(path)] == path or path[: len(broken)] == broken:
            return f"it is written down but cannot be used: {problem.message}"
    return ""


def _programme(method: Loaded, train: Train | None, lacks: list[Missing]) -> Programme | None:
    typed = cast(Method, method.model)
    share = typed.mobile_phase.modifier_share if typed.mobile_phase else None
    current: dict[str, float | None] = {
        "modifier_share": share.si if share else None,
        "flow": typed.flow.si if typed.flow else None,
        "outlet_pressure": typed.outlet_pressure.si if typed.outlet_pressure else None,
        "temperature": typed.oven_temperature.si if typed.oven_temperature else None,
    }
    if typed.flow is not None and typed.flow.unit == "g/min":
        current["flow"] = None
        lacks.append(Missing("method.flow", method, "a mass flow cannot be rehearsed; give mL/min"))
    if any(path[:1] == ("programme",) for path in method.broken):
        lacks.append(Missing("method.programme", method, _why_broken(method, ("programme",))))
        return None
    rows: list[SetPoint] = []
    filled = _filled_rows(typed.programme, current)
    for key, where in (
        ("modifier_share", "method.mobile_phase.modifier_share"),
        ("flow", "method.flow"),
        ("outlet_pressure", "method.outlet_pressure"),
        ("temperature", "method.oven_temperature"),
    ):
        if any(row[key] is None for row in filled):
            path = tuple(where.split(".")[1:])
            if not any(missing.where == where for missing in lacks):
                lacks.append(Missing(where, method, _why_broken(method, path)))
    if typed.run_length is None:
        lacks.append(Missing("method.run_length", method, _why_broken(method, ("run_length",))))
    if lacks and (typed.run_length is None or any(None in row.values() for row in filled)):
        return None
    for row in filled:
        rows.append(
            SetPoint(
                time=cast(float, row["time"]),
                share=min(max(cast(float, row["modifier_share"]), 0.0), 1.0),
                flow=max(cast(float, row["flow"]), 0.0),
                outlet_pressure=cast(float, row["outlet_pressure"]),
                oven_temperature=cast(float, row["temperature"]),
                step=bool(row["step"]),
            )
        )
    assert typed.run_length is not None
    mixer = sum(s.volume for s in train.segments if s.kind == "mixer") if train else 0.0
    return programme_from_rows(
        rows, typed.run_length.si, typed.settling_time.si if typed.settling_time else 0.0, mixer
    )


def _filled_rows(
    programme: Sequence[ProgrammeRow], current: dict[str, float | None]
) -> list[dict[str, float | None]]:
    """Fill each row's gaps from the row before; without a programme, one row at time 0."""
    rows: list[dict[str, float | None]] = []
    first = programme[0] if programme else None
    if first is None or first.time.si > 0.0:
        rows.append({"time": 0.0, "step": 0.0, **current})
        if first is not None and first.modifier_share is not None:
            rows[0]["modifier_share"] = first.modifier_share.si
    for row in programme:
        for key in ("modifier_share", "flow", "outlet_pressure", "temperature"):
            value = getattr(row, key)
            if value is not None:
                current[key] = value.si
        rows.append({"time": row.time.si, "step": float(row.step), **current})
    return rows


def _train(
    columns: Sequence[Loaded], instrument: Loaded, lacks: list[Missing]
) -> tuple[Train | None, tuple[int | None, ...]]:
    card = cast(Instrument, instrument.model)
    if not card.train:
        lacks.append(Missing("instrument.train", instrument))
        return None, ()
    segments: list[Segment] = []
    parts: list[int | None] = []
    before_column = 0
    has_column = False
    for index, part in enumerate(card.train):
        if part.part == "regulator":
            break
        if part.bypassed:
            continue
        if part.part == "column":
            has_column = True
            before_column = len(segments)
            for bed in columns:
                segment = _bed(bed, lacks)
                if segment is not None:
                    segments.append(segment)
                    parts.append(None)
            continue
        segments.append(_plain_segment(part, index))
        parts.append(index)
    if not has_column:
        lacks.append(Missing("instrument.train", instrument, "it has no part 'column'"))
        return None, ()
    if any(missing.where.startswith("column.") for missing in lacks):
        return None, ()
    if card.dwell_volume is not None:
        known = sum(segment.volume for segment in segments[:before_column])
        rest = max(card.dwell_volume.si - known, 0.0)
        segments.insert(0, Segment(_BEFORE_PUMPS, "part", swept_volume=rest))
        parts.insert(0, None)
    segments.append(Segment("regulator", "regulator"))
    parts.append(None)
    return Train(tuple(_unique(segments))), tuple(parts)


def _plain_segment(part: TrainPart, index: int) -> Segment:
    name = part.name or f"{part.part} {index + 1}"
    own = part.temperature.si if part.temperature else None
    tube = part.part in ("tube", "preheater", "guard") and part.length and part.bore
    if tube and part.length and part.bore and part.length.si > 0.0 and part.bore.si > 0.0:
        kind = "preheater" if part.part == "preheater" else "tube"
        return Segment(name, kind, length=part.length.si, bore=part.bore.si, temperature=own)
    volume = part.volume.si if part.volume else 0.0
    kind = part.part if part.part not in ("tube", "preheater", "guard") else "part"
    return Segment(name, kind, swept_volume=volume, temperature=own)


def _bed(loaded: Loaded, lacks: list[Missing]) -> Segment | None:
    card = cast(Column, loaded.model)
    absent = [
        name
        for name in ("length", "inner_diameter", "particle_size")
        if (value := getattr(card, name)) is None or value.si <= 0.0
    ]
    for name in absent:
        lacks.append(Missing(f"column.{name}", loaded, _why_broken(loaded, (name,))))
    if absent:
        return None
    assert card.length and card.inner_diameter and card.particle_size
    shell = card.particle_type == "superficially porous"
    default = beds.TOTAL_POROSITY_SUPERFICIALLY_POROUS if shell else beds.TOTAL_POROSITY_POROUS
    total = card.total_porosity or default
    resistance = beds.DEFAULT_FLOW_RESISTANCE
    if card.flow_resistance is not None:
        resistance = beds.superficial_flow_resistance(
            card.flow_resistance.value, card.flow_resistance.basis, total
        )
    return Segment(
        loaded.name,
        "column",
        length=card.length.si,
        bore=card.inner_diameter.si,
        particle_size=card.particle_size.si,
        flow_resistance=float(resistance),
        external_porosity=card.external_porosity or beds.DEFAULT_EXTERNAL_POROSITY,
        total_porosity=total,
    )


def _unique(segments: list[Segment]) -> list[Segment]:
    """Number the names that occur twice; a train tells its segments apart by name."""
    seen: dict[str, int] = {}
    named: list[Segment] = []
    for segment in segments:
        count = seen.get(segment.name, 0)
        seen[segment.name] = count + 1
        if count:
            segment = Segment(**{**segment.__dict__, "name": f"{segment.name} ({count + 1})"})
        named.append(segment)
    return named


def _makeup(method: Method, train: Train | None) -> tuple[float, int | None]:
    """Makeup flow [m3/s] that joins before the regulator, and the segment where it joins."""
    makeup = method.makeup
    if makeup is None or train is None or makeup.tee != "before the regulator":
        return 0.0, None
    flows = [row.flow.si for row in makeup.programme]
    flow = max(flows) if flows else (makeup.flow.si if makeup.flow else 0.0)
    tees = train.of_kind("tee")
    return flow, (tees[-1] if tees else train.regulator)


def _resistance_band(columns: Sequence[Loaded]) -> float:
    """Relative band of the drop: 20 % without a measured pressure, viscosity included."""
    cards = [cast(Column, loaded.model) for loaded in columns]
    measured = bool(cards) and all(card.measured_drop is not None for card in cards)
    return 0.15 if measured else 0.20
