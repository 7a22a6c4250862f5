"""What a document says of itself: contradictions, odd values, placeholders, hash."""

from __future__ import annotations

from methodlint.documents.contents.blend_basis import blends_without_basis
from methodlint.documents.contents.contradictions import contradictions
from methodlint.documents.contents.implausible import implausible_values
from methodlint.documents.contents.liquid_names import liquid_names
from methodlint.documents.contents.placeholders import placeholders
from methodlint.documents.contents.values_hash import EDITION as HASH_EDITION
from methodlint.documents.contents.values_hash import part_hashes, values_hash
from methodlint.documents.kinds.base import Deviation, Liquid
from methodlint.documents.kinds.lab import Lab
from methodlint.documents.kinds.method import Makeup
from methodlint.documents.kinds.sequence import Line
from methodlint.documents.kinds.sequence import Sequence as SequenceModel
from methodlint.documents.kinds.solvents import Bottle
from methodlint.documents.quantities.number_findings import is_placeholder
from methodlint.judging.shared.looser import looser
