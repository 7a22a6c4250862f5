"""Every vial holds what all its injections draw.

Reason
    An injection takes its own volume and what the sampler draws beside it, and the needle leaves
    some liquid behind. A vial that replicates, suitability and bracketing standards share runs dry in
    the middle of the night; the sampler then injects air and reports nothing.

Unsound
    kind: sequence
    lines:
      - {kind: blank, sample: diluent, plate: 1, well: A1, fill: 1 mL}
      - {kind: suitability, sample: SST, plate: 1, well: A3, fill: 40 uL, dead_volume: 12 uL, count: 6}  # <- here

Sound
    kind: sequence
    lines:
      - {kind: blank, sample: diluent, plate: 1, well: A1, fill: 1 mL}
      - {kind: suitability, sample: SST, plate: 1, well: A3, fill: 60 uL, dead_volume: 12 uL, count: 6}

Sound, because like vials are set out
    kind: sequence
    lines:
      - {kind: suitability, sample: SST, plate: 1, well: A3, fill: 40 uL, dead_volume: 12 uL, count: 6, vials: 2}

Remedy
    Fill as much as the message says, or set out like vials and write `vials: 2`.

Source
    Arithmetic. Dead volumes are those of the cards; usual ones are 50 to 100 uL for a 2 mL vial,
    10 to 15 uL for a 250 uL insert, 5 uL for a well of a 384-well plate: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.judging.ask.rule import (
    BatchCase,
    Candidate,
    Finding,
    NotChecked,
    When,
    counted,
    microlitres,
    show,
)
from methodlint.judging.ask.sequence import (
    VialAccount,
    fill_advised,
    full_vial,
    tray_of,
    vial_accounts,
    vial_advice,
)

SUBJECT = "batch"
CLASSES = ("fault",)
NEEDS = ("sequence.lines", "instrument.autosampler.extra_drawn")

_REPORTED_SINGLY = 20
_TRIED = 3


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Compare what each vial gives with what it holds."""
    sampler = case.get("instrument.autosampler")
    accounts = vial_accounts(case.batch.lines, tray_of(sampler, case.sequence))
    dry = [account for account in accounts if account.dry_line is not None]
    for number, account in enumerate(dry[:_REPORTED_SINGLY]):
        yield _finding(case, account, tried=number < _TRIED)
    if len(dry) > _REPORTED_SINGLY:
        yield _rest(case, dry[_REPORTED_SINGLY:])
    yield from _unknown(case, accounts)


def _finding(case: BatchCase, account: VialAccount, *, tried: bool) -> Finding:
    assert account.dry_line is not None and account.fill_needed is not None
    assert account.needed is not None and account.available is not None
    lines = len(case.batch.lines)
    names = " and ".join(list(account.samples)[:3]) or "a sample"
    filled = case.line_at(account.fill_line or 0, "fill")
    return case.finding(
        case.line_at(account.dry_line),
        "fault",
        f"{names} in {account.place.words} runs dry at injection {account.dry_draw} from this "
        f"vial, line {account.dry_line + 1} of {lines}: {counted(account.draws, 'injection')} need "
        f"{show(account.needed, 'volume', 'uL')}, {show(account.available, 'volume', 'uL')} can be "
        f"drawn, {show(account.needed - account.available, 'volume', 'uL')} too little",
        found=microlitres(account.needed),
        limit=microlitres(account.available),
        when=When(injection=account.dry_injection, last_injection=account.dry_injection),
        remedy=vial_advice(account),
        candidates=_candidates(case, account) if tried else (),
        also=(filled,),
    )


def _candidates(case: BatchCase, account: VialAccount) -> list[Candidate]:
    assert account.fill_line is not None
    filled, at = (case.line_at(account.fill_line, key) for key in ("fill", "vials"))
    fill, needed = fill_advised(account), account.vials_needed
    if fill is not None:
        return [case.candidate(f"fill {fill}", case.change(filled, fill))]
    if account.capacity is None or account.fill is None or needed is None:
        return []
    found = []
    for vials in (2, 3, 4):
        if vials > account.vials and account.fill <= account.capacity:
            text = f"set out {vials} like vials: 'vials: {vials}'"
            found.append(case.candidate(text, case.change(at, vials)))
    full = case.change(filled, full_vial(account))
    return [*found, case.candidate(vial_advice(account), full, case.change(at, needed))]


def _rest(case: BatchCase, dry: list[VialAccount]) -> Finding:
    first = dry[0]
    assert first.dry_line is not None
    return case.finding(
        case.line_at(first.dry_line),
        "fault",
        f"{len(dry)} further vials run dry, the first of them in {first.place.words}",
        when=When(injection=first.dry_injection),
        remedy="look at the fills; they may all be written in the wrong unit",
    )


def _unknown(case: BatchCase, accounts: tuple[VialAccount, ...]) -> Iterator[NotChecked]:
    """Say once for each missing figure how many vials lack it."""
    tray = tray_of(case.get("instrument.autosampler"), case.sequence)
    runs = [line for line in case.batch.lines if line.injects]
    lost = [line.index for line in runs if tray.place(line.line) is None]
    lacking = {
        "sequence.lines[].well": lost,
        "sequence.lines[].fill": [a.lines[0] for a in accounts if a.fill is None],
        "instrument.autosampler.vessels[].dead_volume": [
            a.lines[0] for a in accounts if a.dead_volume is None
        ],
        "method.injection.volume": [a.lines[0] for a in accounts if a.needed is None],
    }
    for figure, lines in lacking.items():
        if lines:
            said = "vial" if len(lines) == 1 else "vials"
            reason = f"{len(lines)} {said} without it, first in line {lines[0] + 1}"
            yield case.not_checked(case.line_at(lines[0]), figure, reason)
