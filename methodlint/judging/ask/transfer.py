"""What a move to another column or instrument changes."""

from __future__ import annotations

from methodlint.scaling.allowances import Allowance, allowance_set, lab_allowances
from methodlint.scaling.allowances import Name as SetName
from methodlint.scaling.comparison import Comparison
from methodlint.scaling.density_match import common_setting
from methodlint.scaling.geometry import flow_ratio, length_span, plate_ratio, volume_ratio
from methodlint.scaling.headroom import loads_of
from methodlint.scaling.headroom import within as loads_beyond
from methodlint.scaling.metering import modifier_density_of, share_for_mass_fraction
from methodlint.scaling.rounding import significant
