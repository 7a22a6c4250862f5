"""What a logbook tells: columns over time, peaks, benches, CO2 by weight."""

from __future__ import annotations

from methodlint.judging.history_case import HistoryCase
from methodlint.judging.shared.history_words import certainty, day, level_words, since_words
from methodlint.rehearsal.history.change import LevelChange, Point
from methodlint.rehearsal.history.columns import BenchStep, ColumnHistory, PeakHistory
from methodlint.rehearsal.history.cylinders import Weighed
from methodlint.rehearsal.history.history import BlockedTubes, History
