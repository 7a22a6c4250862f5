"""What every rule needs: cases, findings, measures, and figures in words."""

from __future__ import annotations

from methodlint.documents.loading import Loaded
from methodlint.documents.quantities.format import counted, number, show
from methodlint.documents.quantities.quantity import Quantity
from methodlint.documents.text.names import nearest
from methodlint.documents.text.places import path_text
from methodlint.documents.text.visible import has_letters, visible
from methodlint.judging.case import BatchCase, Case, DocumentCase, RunCase
from methodlint.judging.change_case import ChangeCase
from methodlint.judging.finding import (
    At,
    Candidate,
    Change,
    Finding,
    Grade,
    Measure,
    NotChecked,
    When,
    guards_meaning,
    severity,
)
from methodlint.judging.shared.bands import Judgement, judge_limit
from methodlint.judging.shared.figures import (
    bar,
    celsius,
    grams,
    kilograms,
    litres,
    microlitres,
    millilitres,
    minutes,
    ml_per_min,
    percent,
    ppm,
)
