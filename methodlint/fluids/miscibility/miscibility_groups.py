"""Groups of liquids that mix each with each, and miscibility numbers for the pairs nobody has listed."""

from __future__ import annotations

from collections.abc import Mapping

from methodlint.fluids.miscibility.miscibility_data import CHART

__all__ = ["GODFREY_NUMBERS", "MISCIBLE_GROUPS"]

_ALCOHOLS = ("ethanol", "1-propanol", "2-propanol", "1-butanol", "tert-butanol")
_ALKANES = ("n-pentane", "n-hexane", "n-heptane", "isooctane", "cyclohexane")
_MIDDLE = (
    "acetone",
    "ethyl acetate",
    "tetrahydrofuran",
    "2-methyltetrahydrofuran",
    "1,4-dioxane",
    "methyl tert-butyl ether",
    "diethyl ether",
    "diisopropyl ether",
    "dichloromethane",
    "chloroform",
    "toluene",
)
_WITH_WATER = (
    "methanol",
    "ethanol",
    "1-propanol",
    "2-propanol",
    "tert-butanol",
    "acetone",
    "1,4-dioxane",
    "dimethyl sulfoxide",
    "N,N-dimethylformamide",
    "acetic acid",
    "formic acid",
)
_POLAR = ("methanol", "acetonitrile", "dimethyl sulfoxide", "N,N-dimethylformamide")

#: Two groups whose members mix, each with each, and the source; a pair in `PAIRS` comes first.
MISCIBLE_GROUPS: tuple[tuple[frozenset[str], frozenset[str], str], ...] = (
    (frozenset(_ALKANES), frozenset(_ALKANES), "general chemistry (unverified)"),
    (frozenset(_ALKANES), frozenset(_ALCOHOLS), f"{CHART}; only when dry"),
    (frozenset(_ALKANES), frozenset(_MIDDLE), CHART),
    (frozenset(_MIDDLE), frozenset(_MIDDLE), CHART),
    (frozenset(_ALCOHOLS), frozenset((*_ALCOHOLS, *_MIDDLE, *_POLAR)), CHART),
    (frozenset(("methanol", "acetonitrile")), frozenset((*_MIDDLE, *_POLAR)), CHART),
    (
        frozenset(("dimethyl sulfoxide", "N,N-dimethylformamide")),
        frozenset(
            (
                *_POLAR,
                "acetone",
                "ethyl acetate",
                "tetrahydrofuran",
                "1,4-dioxane",
                "dichloromethane",
                "chloroform",
                "toluene",
            )
        ),
        CHART,
    ),
    (
        frozenset(("acetic acid", "formic acid")),
        frozenset(
            (
                *_ALCOHOLS,
                *_POLAR,
                "acetic acid",
                "formic acid",
                "acetone",
                "ethyl acetate",
                "tetrahydrofuran",
                "1,4-dioxane",
                "diethyl ether",
            )
        ),
        CHART,
    ),
    (frozenset(("water",)), frozenset(_WITH_WATER), "general chemistry (unverified)"),
)

#: Miscibility numbers of N. B. Godfrey, CHEMTECH 2 (1972) 359; two where a liquid has two, the first
#: against liquids of higher number, the second against those of lower.  The second field is True where the
#: number was read in a copy of the table, False where it is from memory.
GODFREY_NUMBERS: Mapping[str, tuple[tuple[int, ...], bool]] = {
    "n-pentane": ((30,), False),
    "n-hexane": ((29,), True),
    "n-heptane": ((29,), False),
    "isooctane": ((29,), False),
    "cyclohexane": ((28,), False),
    "toluene": ((23,), False),
    "diethyl ether": ((23,), False),
    "diisopropyl ether": ((26,), False),
    "dichloromethane": ((20,), True),
    "chloroform": ((19,), True),
    "ethyl acetate": ((19,), True),
    "tetrahydrofuran": ((17,), True),
    "1,4-dioxane": ((17,), True),
    "acetone": ((15, 17), True),
    "tert-butanol": ((16,), False),
    "1-butanol": ((15,), False),
    "2-propanol": ((15,), False),
    "1-propanol": ((15,), False),
    "ethanol": ((14,), False),
    "acetic acid": ((14,), True),
    "methanol": ((12,), True),
    "N,N-dimethylformamide": ((12,), False),
    "acetonitrile": ((11, 17), False),
    "dimethyl sulfoxide": ((9,), True),
    "formic acid": ((5,), False),
}
