"""A liquid has the name that is meant.

Reason
    Whatever depends on a liquid is found by its name: what it does to a coated column, whether it
    freezes, how strong it is as a diluent. A slip in the name takes all of that away in silence,
    and on a list of forbidden liquids it allows what the maker forbids.

Unsound
    kind: method
    injection: {volume: 2 uL, diluent: etanol}  # <- here

Unsound, because the list would forbid nothing
    kind: column
    forbidden_liquids: [tetrahydrofuran, dichlormethane]  # <- here

Unsound, because nobody knows which ones are meant
    kind: column
    forbidden_liquids: [aggressive solvents]  # <- here

Sound, because these are classes of liquids
    kind: column
    forbidden_liquids: [chlorinated solvents, ethers]

Sound
    kind: method
    injection: {volume: 2 uL, diluent: ethanol}

Sound, because another liquid is no slip
    kind: method
    injection: {volume: 2 uL, diluent: isobutanol}

Remedy
    Write the name that is meant. A liquid that is not known here is no error: what cannot be
    judged for lack of data is reported as not checked.

Source
    Common practice, no source. Names are held to be slips by their distance in letters.
"""

from collections.abc import Iterator

from methodlint.judging.ask.document import is_placeholder, liquid_names
from methodlint.judging.ask.liquids import known_on_a_list, similar_liquids
from methodlint.judging.ask.rule import DocumentCase, Finding, visible

SUBJECT = "document"
CLASSES = ("caution",)
NEEDS = ()

_MODIFIER = ("mobile_phase", "modifier")
_LISTS = ("forbidden_liquids", "allowed_liquids", "temperature_limits")


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Look at each name once; a modifier without a model is told where the run is."""
    told: set[str] = set()
    for path, name in liquid_names(case.document.model, case.document.read):
        if name in told or path[:2] == _MODIFIER or is_placeholder(name):
            continue
        listed = path[0] in _LISTS
        if listed and known_on_a_list(name):
            continue
        meant = similar_liquids(name)
        if not meant and not listed:
            continue
        told.add(name)
        at = case.at(case.document, path)
        if not meant:
            yield case.finding(
                at,
                "caution",
                f"neither a liquid nor a class of liquids is known as '{visible(name)}': on this "
                "list it holds for a liquid of exactly this name only",
                remedy="name the liquids, or a class such as alcohols, ketones, ethers, esters, "
                "chlorinated solvents, aromatics, alkanes, nitriles, amides or water",
            )
            continue
        yield case.finding(
            at,
            "caution",
            f"no liquid '{visible(name)}' is known: nothing was judged by what it would do",
            remedy=f"did you mean {' or '.join(meant)}?",
            candidates=[
                case.candidate(f"write '{meant[0]}' if that is meant", case.change(at, meant[0]))
            ],
        )
