"""What liquids do: which they are, what they dissolve and attack, where they meet."""

from __future__ import annotations

from methodlint.documents.contents.bottle_roles import makeup_bottle, role_of
from methodlint.fluids.additives.known import Additive, concentration, find_additive, same_level
from methodlint.fluids.liquids.known import find_liquid, similar_liquids
from methodlint.fluids.liquids.liquid_classes import is_in, known_on_a_list
from methodlint.fluids.liquids.wetted_materials import (
    Material,
    attack,
    attacks_anything,
    doubt,
    find_material,
)
from methodlint.fluids.miscibility.blends import BRIDGES, bridge_for, miscible_blend
from methodlint.fluids.miscibility.incompatible import clashes
from methodlint.judging.shared.flowing import additives_in_flow
from methodlint.judging.shared.held_liquids import (
    additives_of,
    lasting,
    liquid_difference,
    liquid_words,
    same_liquids,
)
from methodlint.judging.shared.not_miscible import (
    Pairing,
    blend_advice,
    judge_contact,
    named,
    parts_by_itself,
)
from methodlint.judging.shared.salts import salt_findings
from methodlint.rehearsal.batch.liquid_paths import pumped_in_steps
from methodlint.rehearsal.batch.washes import (
    Wash,
    calibration_span,
    dissolves,
    salt_thrown_out,
    salts_thrown_out,
    washes_of,
)
from methodlint.rehearsal.contacts.contacts_between import waste_contents
from methodlint.rehearsal.contacts.dissolved import (
    Dissolved,
    dissolved_in,
    level_of,
    salt_limit_in,
    water_share,
)
from methodlint.rehearsal.contacts.in_a_run import (
    Contact,
    ContactLiquid,
    bottles_of,
    coldest_place,
    makeup_of,
    modifier_bottles,
)
from methodlint.rehearsal.plan.run_plan import components_of, is_neat_co2
