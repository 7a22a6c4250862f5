"""The makeup liquid mixes with the modifier at the coldest temperature where they meet.

Reason
    Downstream of the regulator CO2 is gas and only the two liquids are left. If they do not mix they
    form slugs: the spray pulsates or stops, and what was dissolved drops out in the line, the
    regulator and the source, which can block them while the pumps go on. Methanol does not mix
    with heptane or hexane at room temperature, acetonitrile with no alkane at all.

Unsound
    kind: method
    makeup: {liquid: n-heptane, line: makeup, flow: 0.3 mL/min, tee: after the regulator}  # <- here

Sound
    kind: method
    makeup: {liquid: methanol, line: makeup, flow: 0.3 mL/min, tee: after the regulator}

Sound, because the modifier bridges the two
    kind: method
    mobile_phase: {modifier: {liquid: ethanol, line: modifier-2}}
    makeup: {liquid: n-heptane, line: makeup, flow: 0.3 mL/min, tee: after the regulator}

Remedy
    Use the modifier's own liquid as makeup, or one that mixes with both such as 2-propanol; the
    message names it. Flush the makeup line with the bridging liquid before the change. A blend that
    parts by itself needs another composition.

Source
    Critical solution temperatures: the message names the source of the pair and whether it is
    measured or (unverified). The reserve of 5 K: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.liquids import (
    Contact,
    Pairing,
    blend_advice,
    is_neat_co2,
    judge_contact,
    makeup_bottle,
    named,
    parts_by_itself,
)
from methodlint.judging.ask.rule import (
    At,
    Candidate,
    Finding,
    Grade,
    Measure,
    NotChecked,
    RunCase,
    celsius,
)

SUBJECT = "run"
CLASSES = ("stop", "fault", "caution")
NEEDS = ("method.mobile_phase.modifier",)

_MOSTLY_CO2 = 0.5


def applies(case: RunCase) -> bool:
    """There is a makeup liquid, and a modifier that it can meet."""
    method = case.method
    return method is not None and method.makeup is not None and not is_neat_co2(method)


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Ask whether both stay one liquid where the makeup joins, CO2 left out."""
    tees = [contact for contact in case.contacts if contact.site == "tee"]
    if not tees:
        yield case.not_checked(
            "method.makeup", "method.makeup.liquid", "the makeup liquid is not named anywhere"
        )
    for contact in tees:
        pairing = judge_contact(contact)
        if pairing is None:
            continue
        at = At(contact.second.document, contact.second.path)
        if pairing.unknown or pairing.temperature_decides:
            missing = "solvents.coldest_place" if pairing.temperature_decides else "fluids"
            yield case.not_checked(at, missing, pairing.answer.why)
            continue
        yield _finding(case, pairing, at)


def _finding(case: RunCase, pairing: Pairing, at: At) -> Finding:
    contact = pairing.contact
    grade: Grade = "stop"
    where = contact.place
    if case.method is not None and case.method.makeup is not None and not case.method.makeup.tee:
        where += " (the method does not say on which side of the regulator)"
    if contact.in_co2:
        share = contact.least_co2_share
        mostly_co2 = share is not None and share > _MOSTLY_CO2
        grade = "caution" if mostly_co2 else "stop"
        where += ", inside CO2, and are alone downstream of the regulator"
        if share is not None:
            where += f"; CO2 goes down to {100 * share:.0f} %"
    parting = "may form two liquid phases" if pairing.possible else "form two liquid phases"
    flows = ""
    if contact.share_of_first is not None:
        low, high = contact.share_of_first
        flows = f"; modifier is {100 * low:.0f} to {100 * high:.0f} % of the two"
    bridge = f"; {pairing.bridge} mixes with both" if pairing.bridge else ""
    said = (
        f"{pairing.words} {parting} where they meet, at the {where}: {pairing.why}{flows}{bridge}"
    )
    remedy = f"use {pairing.bridge or contact.first.words} as makeup liquid"
    blend = parts_by_itself(contact)
    if blend is not None:
        grade = "stop" if grade == "stop" else "fault"
        said = f"{named(contact.second)} forms two liquid phases before it meets the modifier: "
        said += blend.why
        remedy, pairing = blend_advice(blend), blend
    limit = pairing.limit
    return case.finding(
        at,
        grade,
        said,
        found=celsius(contact.temperature),
        limit=celsius(limit) if limit is not None else None,
        band=Measure(pairing.answer.band_K, "K") if limit is not None else None,
        possible=pairing.possible,
        remedy=remedy,
        candidates=_candidates(case, contact, pairing.bridge),
        also=(At(contact.first.document, contact.first.path),),
        cautions=("pressure",) if grade == "stop" else (),
    )


def _candidates(case: RunCase, contact: Contact, bridge: str | None) -> list[Candidate]:
    """The modifier's own liquid as makeup, then the bridge; the bottle changes with it."""
    found = []
    for name in (contact.first.components[0][0], bridge):
        if name is None:
            continue
        places = [At(contact.second.document, contact.second.path)]
        makeup = case.method.makeup if case.method else None
        if case.solvents is not None and makeup is not None:
            index = makeup_bottle(case.solvents.bottles, makeup)
            places += [case.at(f"solvents.bottles[{index}]")] if index is not None else []
        changes = []
        for place in dict.fromkeys(places):
            changes.append(case.change(At(place.document, (*place.path, "liquids")), None))
            changes.append(case.change(At(place.document, (*place.path, "liquid")), name))
        flush = bridge or name
        text = f"use {name} as makeup liquid and flush the makeup line with {flush} first"
        found.append(case.candidate(text, *changes))
    return found
