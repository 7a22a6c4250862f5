"""Pressures along the train against what parts and pumps bear."""

from __future__ import annotations

from methodlint.judging.shared.overpressure import (
    CLOSE,
    Excess,
    cut_off,
    cut_off_protects,
    lower_outlet,
    slower,
    wider_tube,
    worst_against,
)
from methodlint.judging.shared.scaled_times import slower_and_longer
from methodlint.rehearsal.run.extreme import Extreme, pressure_band_words
from methodlint.rehearsal.run.part_pressures import (
    PartPressure,
    PumpLimit,
    makeup_passes_train,
    part_pressures,
    pressures_that_a_plug_reaches,
    pump_limits,
    regulator_mass_flow,
)
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.states import FloatArray
from methodlint.rehearsal.run.tube_losses import losses_behind_column, tubes_of_unknown_loss
