"""What an ELSD or CAD is given evaporates with little left over.

Reason
    An aerosol detector sees whatever does not evaporate. A volatile salt above about 10 mM, or an
    amine and an acid that make a salt in the droplet, raise background and noise, and small peaks
    are lost in them.

Unsound
    kind: method
    detectors: [{type: ELSD}]
    mobile_phase:
      modifier:
        liquid: methanol
        additives: [{additive: ammonium acetate, level: 20 mM}]  # <- here

Sound
    kind: method
    detectors: [{type: ELSD}]
    mobile_phase:
      modifier:
        liquid: methanol
        additives: [{additive: ammonium acetate, level: 5 mM}]

Remedy
    Lower the volatile additive to 10 mM or less, or use either the acid or the amine. What never
    evaporates is the matter of solvent.salt-not-volatile.

Source
    10 mM: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.liquids import additives_in_flow
from methodlint.judging.ask.rule import Finding, Measure, RunCase, show

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("method.detectors",)

_MOST = 10.0


def applies(case: RunCase) -> bool:
    """The method uses a detector of aerosols."""
    method = case.method
    return method is not None and any(d.type in ("ELSD", "CAD") for d in method.detectors)


def judge(case: RunCase) -> Iterator[Finding]:
    """Look at the level of volatile additives, and for an acid beside an amine."""
    volatile = [
        (at, part, part.additive.kind, role)
        for at, part, role in additives_in_flow(case)
        if part.additive is not None and part.additive.volatile
    ]
    for at, part, kind, role in volatile:
        level = part.concentration
        # Acids and amines alone leave no particle; a salt does until it has evaporated.
        if kind == "ammonium salt" and level is not None and level > _MOST:
            yield case.finding(
                at,
                "caution",
                f"{show(level, 'amount concentration', 'mM')} {part.name} in the {role} raises "
                f"the background of an aerosol detector (limit "
                f"{show(_MOST, 'amount concentration', 'mM')})",
                found=Measure(level, "mM"),
                limit=Measure(_MOST, "mM"),
                remedy="lower it to 10 mM",
                candidates=[
                    case.candidate(
                        "lower it to 10 mM",
                        case.change(case.at(at.document, (*at.path, "level")), "10 mM"),
                    )
                ],
            )
    for role in ("modifier", "makeup"):
        own = [(at, part, kind) for at, part, kind, where in volatile if where == role]
        acids = [part for _, part, kind in own if kind == "acid"]
        amines = [(at, part) for at, part, kind in own if kind in ("amine", "ammonia")]
        if acids and amines:
            at, amine = amines[0]
            yield case.finding(
                at,
                "caution",
                f"{amine.name} and {acids[0].name} in the {role} make a salt that evaporates "
                "slowly: it raises the background of an aerosol detector",
                remedy="use either the acid or the amine",
            )
