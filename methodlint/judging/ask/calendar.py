"""Sequences in the order of their starts: benches, cylinders, bottles, waste and rooms shared."""

from __future__ import annotations

from methodlint.judging.calendar_case import CalendarCase
from methodlint.judging.shared.calendar_words import clock_text, hand_words, names_of
from methodlint.rehearsal.batch.bench_state import BenchState, differences
from methodlint.rehearsal.batch.line_facts import OVEN_RATE, OVEN_SOAK
from methodlint.rehearsal.calendar.booking import Booking, StoreUse, TraySample
from methodlint.rehearsal.calendar.calendar import WEEK, Calendar, CylinderTurn, StoreTurn
