"""A method, its columns and an instrument, resolved to the numbers that a rehearsal needs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from methodlint.documents.kinds.column import Column
from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.kinds.method import Method
from methodlint.documents.loading import Loaded
from methodlint.documents.quantities.format import show
from methodlint.fluids.mixtures.mixture import MixtureModel
from methodlint.fluids.mixtures.mixture_choice import model_for
from methodlint.hydraulics.calibration import Calibration
from methodlint.hydraulics.drop_band import REGULATOR_ACCURACY
from methodlint.hydraulics.train import Train
from methodlint.rehearsal.plan.components import components_of
from methodlint.rehearsal.plan.flow_train import train_of_cards
from methodlint.rehearsal.plan.logged_column import LoggedColumn, LoggedColumns
from methodlint.rehearsal.plan.makeup_tee import makeup_joins
from methodlint.rehearsal.plan.measured_pressure import Bench, calibrate
from methodlint.rehearsal.plan.missing import Missing, why_broken
from methodlint.rehearsal.plan.programme import Programme, programme_from_rows
from methodlint.rehearsal.plan.set_points import SETTINGS, complete_rows, filled_rows
from methodlint.rehearsal.plan.settings_by_mass import settings_by_mass
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
    logged
        What a logbook says of the analytical column; None without one.
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
    logged: LoggedColumn | None = None
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
    method: Loaded[Method],
    columns: Sequence[Loaded[Column]],
    instrument: Loaded[Instrument] | None,
    logged: LoggedColumns = (),
) -> RunPlan:
    """Resolve one method on one instrument.

    Parameters
    ----------
    method, columns, instrument
        Documents; columns in flow order, the analytical column last.
    logged
        What logbooks say of columns, each with the name of its card.

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
        found = calibrate(bench, method, columns, instrument, dict(logged))
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
        logged=dict(logged).get(columns[-1].name) if columns else None,
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
    by_mass = settings_by_mass(method)
    lacks += by_mass
    if any(path[:1] == ("programme",) for path in method.broken):
        lacks.append(Missing("method.programme", method, why_broken(method, ("programme",))))
        return None
    filled = filled_rows(typed)
    mass_keys = {missing.where.rpartition(".")[2] for missing in by_mass}
    gaps = [key for key in SETTINGS if any(row.value(key) is None for row in filled)]
    for where in [SETTINGS[key] for key in gaps if key not in mass_keys]:
        if not any(missing.where == where for missing in lacks):
            path = tuple(where.split(".")[1:])
            lacks.append(Missing(where, method, why_broken(method, path)))
    if typed.run_length is None:
        lacks.append(Missing("method.run_length", method, why_broken(method, ("run_length",))))
    # a slip starts no physics
    shares = [row.share for row in filled if row.share is not None]
    beyond = [share for share in shares if not -1e-9 <= share <= 1.0 + 1e-9]
    if beyond:
        text = f"{100.0 * beyond[0]:g} % is no share of a mobile phase"
        lacks.append(Missing("method.programme", method, text))
        return None
    if any(row.outlet_pressure is not None and row.outlet_pressure <= 0.0 for row in filled):
        text = "the outlet pressure is not above 0 bar absolute, where there is no fluid"
        lacks.append(Missing("method.outlet_pressure", method, text))
        return None
    slip = _slip_of_flow([row.flow or 0.0 for row in filled], card)
    if slip and not by_mass:
        lacks.append(Missing("method.flow", method, slip))
        return None
    if by_mass or gaps or typed.run_length is None:
        return None
    mixer = train.mixer_volume if train else 0.0
    settling = typed.settling_time.si if typed.settling_time else 0.0
    return programme_from_rows(complete_rows(typed), typed.run_length.si, settling, mixer)


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
