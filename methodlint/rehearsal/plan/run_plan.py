"""A method, its columns and an instrument, resolved to the numbers that a rehearsal needs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import cast

from methodlint.documents.kinds.column import Column
from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.kinds.method import Method, ProgrammeRow
from methodlint.documents.loading import Loaded
from methodlint.documents.quantities.format import show
from methodlint.fluids.mixtures.mixture import MixtureModel
from methodlint.fluids.mixtures.mixture_choice import model_for
from methodlint.hydraulics.calibration import Calibration
from methodlint.hydraulics.drop_band import REGULATOR_ACCURACY
from methodlint.hydraulics.train import Train
from methodlint.rehearsal.plan.components import components_of
from methodlint.rehearsal.plan.flow_train import train_of_cards
from methodlint.rehearsal.plan.makeup_tee import makeup_joins
from methodlint.rehearsal.plan.measured_pressure import Bench, calibrate
from methodlint.rehearsal.plan.missing import Missing, why_broken
from methodlint.rehearsal.plan.programme import Programme, SetPoint, programme_from_rows
from methodlint.rehearsal.plan.settings_by_mass import by_volume, settings_by_mass
from methodlint.rehearsal.plan.surroundings import AIR_PRESSURE, AMBIENT

__all__ = ["AIR_PRESSURE", "AMBIENT", "RunPlan", "components_of", "plan_run"]


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
    makeup_flow, makeup_joins
        Highest flow of makeup that joins before the regulator [m3/s], and the segment where it
        does; 0 and None without one.
    resistance_band
        Relative band of the pressure drop, both ways, where it follows from something else than
        measured pressures; None for what `drop_band` says.
    regulator_accuracy
        How far the pressure at the regulator may lie from its setting [Pa].
    calibrations
        What measured pressures say about the column; empty if there are none.
    not_calibrated
        Why a measured pressure that is written down was not used; empty if none was refused.
    missing
        What has to be supplied before the run can be rehearsed.
    steady
        A step of a sequence at constant settings: none of its moments differs from the others.
    """

    method: Loaded[Method]
    columns: tuple[Loaded[Column], ...]
    instrument: Loaded[Instrument] | None
    fluid: MixtureModel | None = None
    programme: Programme | None = None
    train: Train | None = None
    analytical_column: int = -1
    head_temperature: float = 0.0
    metering: str = "volume"
    modifier_name: str = ""
    makeup_flow: float = 0.0
    makeup_joins: int | None = None
    resistance_band: float | None = None
    regulator_accuracy: float = REGULATOR_ACCURACY
    calibrations: tuple[Calibration, ...] = ()
    not_calibrated: str = ""
    part_of_segment: tuple[int | None, ...] = ()
    missing: tuple[Missing, ...] = ()
    no_model: bool = False
    steady: bool = False

    @property
    def ready(self) -> bool:
        """Whether the run can be rehearsed."""
        return not self.missing

    @property
    def method_model(self) -> Method:
        """The typed method."""
        return self.method.model


def plan_run(
    method: Loaded[Method], columns: Sequence[Loaded[Column]], instrument: Loaded[Instrument] | None
) -> RunPlan:
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
    typed = method.model
    fluid, name, no_model = _mobile_phase(method, lacks)
    if no_model:
        lacks.append(
            Missing(
                "method.mobile_phase.modifier", method, "there is no model for this mobile phase"
            )
        )
    if not columns:
        lacks.append(Missing("method.column", method, why_broken(method, ("column",))))
    if instrument is None:
        lacks.append(Missing("method.runs_on", method))
        return RunPlan(
            method,
            tuple(columns),
            None,
            fluid=fluid,
            modifier_name=name,
            missing=tuple(lacks),
            no_model=no_model,
        )
    card = instrument.model
    heated = typed.preheater_temperature
    train, parts = train_of_cards(columns, instrument, lacks, heated.si if heated else None)
    head = card.co2_pump.head_temperature if card.co2_pump else None
    if head is None:
        lacks.append(Missing("instrument.co2_pump.head_temperature", instrument))
    programme = _programme(method, card, train, lacks)
    makeup, joins = _makeup(typed, card, train)
    metering = card.co2_pump.metering if card.co2_pump else "volume"
    found = None
    if train is not None and programme is not None and head is not None:
        bench = Bench(train, head.si, metering, _name_of_phase(typed), programme)
        found = calibrate(bench, method, columns, instrument)
        train = found.train
    return RunPlan(
        method=method,
        columns=tuple(columns),
        instrument=instrument,
        fluid=fluid,
        programme=programme,
        train=train,
        analytical_column=train.columns[-1] if train and train.columns else -1,
        head_temperature=head.si if head else 0.0,
        metering=metering,
        modifier_name=name,
        makeup_flow=makeup,
        makeup_joins=joins,
        regulator_accuracy=_regulator_accuracy(card),
        calibrations=found.calibrations if found else (),
        not_calibrated=found.refused if found else "",
        part_of_segment=parts,
        missing=tuple(lacks),
        no_model=no_model,
    )


def _mobile_phase(
    method: Loaded[Method], lacks: list[Missing]
) -> tuple[MixtureModel | None, str, bool]:
    typed = method.model
    phase = typed.mobile_phase
    if is_neat_co2(typed):
        return model_for("carbon dioxide"), "", False
    if phase is None or phase.modifier is None:
        lacks.append(
            Missing(
                "method.mobile_phase.modifier",
                method,
                why_broken(method, ("mobile_phase", "modifier"))
                or "neat CO2 is written `mobile_phase: {modifier_share: 0 % v/v}`",
            )
        )
        return None, "", False
    components = components_of(phase.modifier)
    if not components:
        lacks.append(Missing("method.mobile_phase.modifier.liquid", method))
        return None, "", False
    model = model_for(_name_of_phase(typed))
    main = max(components, key=lambda part: part[1])[0]
    return model, main, model is None


def _name_of_phase(method: Method) -> str | tuple[tuple[str, float], ...]:
    """What `model_for` knows the mobile phase by."""
    modifier = method.mobile_phase.modifier if method.mobile_phase else None
    components = components_of(modifier) if modifier is not None else ()
    if not components:
        return "carbon dioxide"
    return components[0][0] if len(components) == 1 else components


def is_neat_co2(method: Method) -> bool:
    """Whether a method says that it runs CO2 alone: a share of 0 throughout, and no modifier."""
    if method.mobile_phase is None or method.mobile_phase.modifier is not None:
        return False
    shares = [row.modifier_share for row in method.programme if row.modifier_share is not None]
    if method.mobile_phase.modifier_share is not None:
        shares.append(method.mobile_phase.modifier_share)
    return bool(shares) and all(share.si == 0.0 for share in shares)


def _programme(
    method: Loaded[Method], card: Instrument, train: Train | None, lacks: list[Missing]
) -> Programme | None:
    typed = method.model
    share = typed.mobile_phase.modifier_share if typed.mobile_phase else None
    current: dict[str, float | None] = {
        "modifier_share": share.si if share else None,
        "flow": typed.flow.si if typed.flow else None,
        "outlet_pressure": typed.outlet_pressure.si if typed.outlet_pressure else None,
        "temperature": typed.oven_temperature.si if typed.oven_temperature else None,
    }
    if typed.flow is not None and not by_volume(typed.flow):
        current["flow"] = None
    by_mass = settings_by_mass(method)
    lacks += by_mass
    if any(path[:1] == ("programme",) for path in method.broken):
        lacks.append(Missing("method.programme", method, why_broken(method, ("programme",))))
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
                lacks.append(Missing(where, method, why_broken(method, path)))
    if typed.run_length is None:
        lacks.append(Missing("method.run_length", method, why_broken(method, ("run_length",))))
    beyond = [row for row in filled if row["modifier_share"] is not None and not _possible(row)]
    if beyond:
        text = (
            f"{100.0 * cast(float, beyond[0]['modifier_share']):g} % is no share of a mobile phase"
        )
        lacks.append(Missing("method.programme", method, text))
        return None
    if any(row["outlet_pressure"] is not None and row["outlet_pressure"] <= 0.0 for row in filled):
        text = "the outlet pressure is not above 0 bar absolute, where there is no fluid"
        lacks.append(Missing("method.outlet_pressure", method, text))
        return None
    slip = _slip_of_flow([row["flow"] or 0.0 for row in filled], card)
    if slip and not by_mass:
        lacks.append(Missing("method.flow", method, slip))
        return None
    if lacks and (typed.run_length is None or any(None in row.values() for row in filled)):
        return None
    if by_mass:
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
    mixer = train.mixer_volume if train else 0.0
    return programme_from_rows(
        rows, typed.run_length.si, typed.settling_time.si if typed.settling_time else 0.0, mixer
    )


_SLIP = 50.0
"""Flow over what the pumps reach from which it is a slip of the unit: common practice, no source."""


def _slip_of_flow(flows: Sequence[float], card: Instrument) -> str:
    """Say that a flow [m3/s] is no setting of these pumps; empty where it may be one."""
    limits = [
        pump.highest_flow.si
        for pump in (card.co2_pump, card.modifier_pump)
        if pump is not None and pump.highest_flow is not None and pump.highest_flow.si > 0.0
    ]
    most = max(flows, default=0.0)
    if not limits or most <= _SLIP * sum(limits):
        return ""
    return (
        f"{show(most, 'volume flow', 'mL/min')} is {most / sum(limits):.0f} times what the pumps "
        "reach together: a slip, from which no pressure is computed"
    )


def _possible(row: dict[str, float | None]) -> bool:
    """Whether the share is one that a mobile phase can have; a slip starts no physics."""
    return -1e-9 <= cast(float, row["modifier_share"]) <= 1.0 + 1e-9


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


def _regulator_accuracy(card: Instrument) -> float:
    given = card.regulator.accuracy if card.regulator else None
    return REGULATOR_ACCURACY if given is None else given.si


def _makeup(method: Method, card: Instrument, train: Train | None) -> tuple[float, int | None]:
    """Makeup flow [m3/s] that joins before the regulator, and the segment where it joins."""
    makeup = method.makeup
    if makeup is None or train is None or makeup.tee != "before the regulator":
        return 0.0, None
    if makeup_joins(card, method) == "branch":
        return 0.0, None
    flows = [row.flow.si for row in makeup.programme]
    flow = max(flows) if flows else (makeup.flow.si if makeup.flow else 0.0)
    tees = train.of_kind("tee")
    return flow, (tees[-1] if tees else train.regulator)
