"""The method: what is set on the instrument for one injection."""

from __future__ import annotations

import re
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field
from pydantic_core import PydanticCustomError

from methodlint.documents.kinds.base import (
    AbsolutePressure,
    AnyLiquid,
    DetectorType,
    Document,
    Liquid,
    Name,
    OutletPressure,
    Part,
    PositiveCount,
    PressureFromZero,
    Ratio,
    described,
)
from methodlint.documents.quantities.quantity import (
    AnyFlow,
    Concentration,
    Duration,
    Frequency,
    PositiveConcentration,
    PositiveDuration,
    PositiveFlow,
    PositiveShareAnyBasis,
    PositiveVolume,
    PositiveVolumeFlow,
    ShareAnyBasis,
    Temperature,
    VolumeFlow,
    Wavelength,
)
from methodlint.documents.text.visible import excerpt


def _liquid_with_line(value: Any) -> Any:
    return {"liquid": value} if isinstance(value, str) else value


class Modifier(Liquid):
    """The liquid that the modifier pump delivers, and the bottle line it comes from."""

    line: Name | None = described("Bottle line, for example modifier-2.")


AnyModifier = Annotated[Modifier, BeforeValidator(_liquid_with_line)]


class MobilePhase(Part):
    """CO2 and its modifier."""

    modifier: AnyModifier | None = described(
        "A liquid by name, or a blend with additives and its line."
    )
    modifier_share: ShareAnyBasis | None = described(
        "Share of modifier of an isocratic method, '18 % v/v'; a bare % is v/v of the set flows."
    )


class ProgrammeRow(Part):
    """A row of the programme: values reached at this time, linearly from the row before."""

    time: Duration
    modifier_share: ShareAnyBasis | None = None
    flow: AnyFlow | None = None
    outlet_pressure: OutletPressure | None = None
    temperature: Temperature | None = None
    step: bool = described("The row is reached by a jump, not by a ramp.", False)
    reason: str | None = described("'pressure-limited', 'wash', ...")


class Injection(Part):
    """What is injected, how much and into which stream."""

    volume: PositiveVolume | None = None
    mode: Literal["part-filled loop", "filled loop", "metered"] | None = None
    diluent: AnyLiquid | None = None
    stream: Literal["modifier", "mixed", "CO2"] | None = described(
        "Which stream the injection joins."
    )
    flushes: Ratio | None = described("Loop volumes drawn to fill the loop.")
    stacked_every: PositiveDuration | None = described("Stacked injections.")
    after_start: Duration | None = described(
        "Time from the start of the programme to the injection (delayed injection)."
    )
    sample_concentration: PositiveConcentration | None = described(
        "Of all that is dissolved in what is injected."
    )
    solubility: PositiveConcentration | None = described(
        "Of the sample in the mobile phase at the start."
    )
    disturbance: PositiveDuration | None = described(
        "Time after each injection in which the baseline is disturbed."
    )


class Transition(Part):
    """One timed or untimed MS transition."""

    name: Name | None = None
    dwell: PositiveDuration
    begins: Duration | None = None
    ends: Duration | None = None
    polarity: Literal["positive", "negative"] | None = None


_SCAN = re.compile(r"\D*(\d+(?:\.\d+)?)\D+(\d+(?:\.\d+)?)\D*\Z")
_POLARITIES = {"pos": "positive", "neg": "negative", "+": "positive", "-": "negative"}


def _scan_from_words(value: Any) -> Any:
    """Read `100-800` and `{from: 100, to: 800}`; a polarity among them is written apart."""
    if isinstance(value, dict) and set(value) == {"from", "to"}:
        return [value["from"], value["to"]]
    if not isinstance(value, (str, dict, list)):
        return value
    text = " ".join(map(str, value.values())) if isinstance(value, dict) else value
    text = " ".join(map(str, text)) if isinstance(text, list) else text
    found = _SCAN.match(text)
    if found is None or (isinstance(value, list) and len(value) == 2):
        return value
    low, high = (float(part) for part in found.groups())
    words = re.sub(r"[\d.]+\s*(?:-|to|\.\.)?\s*[\d.]+", "", text).lower()
    if not words.strip(" ,:;()m/z"):
        return [low, high]
    polarity = next((name for sign, name in _POLARITIES.items() if sign in words), "")
    apart = f" and 'polarity: {polarity}'" if polarity else ""
    raise PydanticCustomError(
        "document.shape-wrong",
        "{message}",
        {
            "message": f"'scan' reads '{excerpt(text)}': it holds the two ends of the m/z alone",
            "remedy": f"write 'scan: [{low:g}, {high:g}]'{apart}",
        },
    )


class Detector(Part):
    """A detector as this method uses it."""

    type: DetectorType
    cell: Name | None = described("Part of the instrument's train.")
    wavelength: Wavelength | None = None
    reference_wavelength: Wavelength | None = None
    bandwidth: Wavelength | None = None
    highest_absorbance: Ratio | None = described(
        "Absorbance expected at the top of the highest peak."
    )
    rate: Frequency | None = None
    filter: Duration | None = described("Time constant of the filter.")
    begins: Duration | None = None
    ends: Duration | None = None
    source: Literal["ESI", "APCI", "APPI"] | None = None
    source_temperature: Temperature | None = None
    gas_flow: PositiveVolumeFlow | None = described("Drying gas, as set.")
    polarity: Literal["positive", "negative", "both"] | None = None
    scan: Annotated[tuple[Ratio, Ratio], BeforeValidator(_scan_from_words)] | None = described(
        "m/z from, m/z to."
    )
    transitions: tuple[Transition, ...] = ()
    pause: Duration | None = described("Time between two transitions.")
    polarity_switch: Duration | None = None
    purpose: Literal["quantify", "trigger"] | None = None
    heart_cut: bool = described("The trace ends on purpose before the last peak.", False)


class MakeupRow(Part):
    """A row of the makeup programme."""

    time: Duration
    flow: VolumeFlow


class Makeup(Liquid):
    """The makeup liquid of a mass spectrometer or an aerosol detector."""

    line: Name | None = None
    flow: VolumeFlow | None = None
    programme: tuple[MakeupRow, ...] = ()
    tee: Literal["before the regulator", "after the regulator"] | None = None


class PressureLimits(Part):
    """The limits typed into the instrument for this method."""

    high: AbsolutePressure | None = None
    low: PressureFromZero | None = None


class Peak(Part):
    """An expected peak."""

    name: Name
    retention_time: PositiveDuration | None = None
    plates: Ratio | None = None
    width: PositiveDuration | None = described("Base width, 4 sigma.")
    ion: Ratio | None = described("m/z expected.")
    polarity: Literal["positive", "negative"] | None = None
    kind: Literal["polar", "lipid", "wax", "hydrocarbon", "ionisable"] | None = None
    collected: bool = described("Its fraction is collected.", False)


class Fraction(Part):
    """A window of time in which the fraction valve leads the stream into a vessel."""

    peak: Name | None = described("Expected peak that it is meant for.")
    begins: Duration = Field(description="At the fraction valve, from the injection.")
    ends: PositiveDuration


class Collection(Part):
    """What is collected of each injection."""

    fractions: tuple[Fraction, ...] = ()
    makeup: PositiveVolumeFlow | None = described("Liquid added at the collector.")
    vessels_per_fraction: PositiveCount = 1


class Suitability(Part):
    """Limits of the suitability test; a limit is a plain number."""

    replicates: PositiveCount | None = None
    resolution: Ratio | None = None
    tailing: Ratio | None = None
    plates: Ratio | None = None
    rsd: PositiveShareAnyBasis | None = None
    signal_to_noise: Ratio | None = None
    content_margin: PositiveShareAnyBasis | None = described(
        "Upper limit of content less 100 %: 2 % for 98 to 102 %."
    )
    reporting_threshold: PositiveShareAnyBasis | None = described(
        "Of impurities: least share that is reported."
    )
    at_rhythm: bool = described("A series at the run's own rhythm was measured and passed.", False)
    calibrators_serve: bool = described("Calibration lines double as suitability lines.", False)


class MeasuredPressure(Part):
    """A pressure that was read on the instrument, to calibrate the column's permeability."""

    pump_pressure: AbsolutePressure
    modifier_share: ShareAnyBasis
    flow: PositiveVolumeFlow | None = None
    outlet_pressure: AbsolutePressure | None = None


class TransferNotes(Part):
    """What is on record about the transfer that made this method."""

    source_instrument: Name | None = described("Instrument that the source method ran on.")
    allowances: Literal["none", "pharmacopoeial", "earlier-sfc", "lab"] | None = described(
        "Set of allowances that the changes are judged by."
    )
    flow_reason: str | None = described("Why the flow is not the one that geometry gives.")
    equivalence: str | None = described(
        "Record of the data that show both phases to be equivalent."
    )
    concentration_rescaled: bool = described(
        "Sample concentration was changed along with the volume.", False
    )
    verification: tuple[Name, ...] = described(
        "Sequences that verify the transfer, one per system.", ()
    )


class Method(Document):
    """A chromatographic method in neutral terms."""

    kind: Literal["method"]
    purpose: Literal["regulated", "bioanalysis", "research", "screening", "preparative"] | None = (
        described("Decides the class of some rules.")
    )
    column: Name | tuple[Name, ...] | None = described(
        "Column card, or several in series, first one first."
    )
    equivalent_columns: tuple[Name, ...] = ()
    runs_on: tuple[Name, ...] = described("Instrument cards.", ())
    transferred_from: Name | None = described("Method that this one was transferred from.")
    transfer: TransferNotes | None = None
    oven_temperature: Temperature | None = None
    preheater_temperature: Temperature | None = None
    outlet_pressure: OutletPressure | None = described(
        "Set pressure of the regulator, absolute unless it says (g)."
    )
    flow: PositiveFlow | None = described("Total flow as set at the pumps.")
    flow_ramp: Duration | None = described("Time to reach the flow.")
    mobile_phase: MobilePhase | None = None
    programme: tuple[ProgrammeRow, ...] = ()
    run_length: PositiveDuration | None = None
    settling_time: Duration | None = described(
        "Time at the starting conditions after the run length."
    )
    pressure_programmed: bool = described("The method programmes density on purpose.", False)
    injection: Injection | None = None
    detectors: tuple[Detector, ...] = ()
    makeup: Makeup | None = None
    pressure_limits: PressureLimits | None = None
    expected_peaks: tuple[Peak, ...] = ()
    peak_times_at: DetectorType | None = described(
        "Detector on whose trace the retention times were read."
    )
    collection: Collection | None = None
    suitability: Suitability | None = None
    analytes: Literal["polar", "lipids", "waxes", "hydrocarbons", "ionisable", "mixed"] | None = (
        None
    )
    sample_hazard: Literal["none", "toxic", "controlled"] | None = None
    bracketing: Literal["standards", "internal standard", "none"] | None = None
    calibration: Literal["several levels", "single level", "standard addition", "none"] | None = (
        described("How amounts are found; several levels if not said.")
    )
    lowest_level: Concentration | None = described("Quantification limit.")
    developed_on_padded_co2: bool = described(
        "The method was developed on CO2 under helium.", False
    )
    measured_pressures: tuple[MeasuredPressure, ...] = ()
