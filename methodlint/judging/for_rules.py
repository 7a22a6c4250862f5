"""Everything of `methodlint.judging.ask` on one page, for rules of labs written for 0.1."""

from __future__ import annotations

from methodlint.judging.ask.column import *
from methodlint.judging.ask.detector import *
from methodlint.judging.ask.document import *
from methodlint.judging.ask.flow import *
from methodlint.judging.ask.liquids import *
from methodlint.judging.ask.phase import *
from methodlint.judging.ask.pressure import *
from methodlint.judging.ask.room import *
from methodlint.judging.ask.rule import *
from methodlint.judging.ask.sequence import *
from methodlint.judging.ask.supply import *
from methodlint.judging.ask.transfer import *
from methodlint.judging.shared.two_phases import TwoPhaseRegion as Parting
from methodlint.rehearsal.batch.positions import TrayPlace as Place
from methodlint.rehearsal.contacts.contact import ContactLiquid as Meeting
from methodlint.rehearsal.plan.additive_tolerance import ToleratedAdditive as AdditiveLimit
