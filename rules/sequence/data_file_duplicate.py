"""Every line writes its data under a name of its own.

Reason
    Two files of one name: the second overwrites the first, or the run stops when it is due.
    Names that differ only in capitals, or in characters that the disk replaces, are the same name.

Unsound
    kind: sequence
    data_file: "{date}"  # <- here

Sound
    kind: sequence
    data_file: "{seq}_{line:03}"

Remedy
    Use a pattern that holds the number of the line, such as `{seq}_{line:03}`. A pattern may hold
    {date}, {line}, {sample}, {plate}, {well}, {kind} and {seq} (the name of the sequence); several
    injections of one line are numbered by the instrument.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Candidate, Finding, Grade, Measure, visible
from methodlint.judging.ask.sequence import DataFile, PatternWrong, data_files, duplicate_files

SUBJECT = "batch"
CLASSES = ("stop", "fault")
NEEDS = ("sequence.lines",)

_UNIQUE = "{seq}_{line:03}"


def applies(case: BatchCase) -> bool:
    """Without names the instrument makes its own."""
    sequence = case.sequence
    return sequence is not None and (
        sequence.data_file is not None or any(line.data_file for line in sequence.lines)
    )


def judge(case: BatchCase) -> Iterator[Finding]:
    """Fill the patterns in and compare the names as the disk sees them."""
    card = case.instrument.data_files if case.instrument is not None else None
    sequence = case.sequence
    assert sequence is not None
    try:
        files = data_files(case.batch, card)
    except PatternWrong as wrong:
        place = "sequence.data_file" if sequence.data_file else "sequence.lines"
        yield case.finding(
            case.at(place),
            "fault",
            f"the names of the data files cannot be made: {wrong}",
            remedy=f'write data_file: "{_UNIQUE}"',
        )
        return
    groups = duplicate_files(files)
    existing = card.existing if card is not None else None
    if groups and existing != "suffix":
        yield _duplicate(case, groups, existing)
    longest = card.longest_path if card is not None else None
    longer = [file for file in files if longest is not None and len(file.on_disk) > longest]
    if longer and longest is not None:
        yield case.finding(
            case.line_at(longer[0].line.index),
            "fault",
            f"the name of a data file has {len(longer[0].on_disk)} characters, the instrument "
            f"takes {longest}",
            found=Measure(len(longer[0].on_disk)),
            limit=Measure(longest),
            remedy="shorten the name",
        )


def _duplicate(case: BatchCase, groups: list[list[DataFile]], existing: str | None) -> Finding:
    group = groups[0]
    first, second = group[0].line.index, group[1].line.index
    grade: Grade = "stop" if existing == "overwrite" else "fault"
    what = {
        "overwrite": "the instrument overwrites the first",
        "refuse": "the instrument refuses the second and stops",
        None: "the card does not say what the instrument does then",
    }[existing]
    own = group[1].line.line.data_file is not None
    at = case.line_at(second, "data_file") if own else case.at("sequence.data_file")
    more = sum(len(g) for g in groups)
    return case.finding(
        at,
        grade,
        f"lines {first + 1} and {second + 1} both write '{visible(group[1].name)}'"
        f"{f' ({more} lines share a name)' if more > 2 else ''}: {what}",
        found=Measure(more),
        limit=Measure(0),
        remedy=f'write data_file: "{_UNIQUE}"',
        candidates=_candidates(case, groups),
        also=(case.line_at(first),),
    )


def _candidates(case: BatchCase, groups: list[list[DataFile]]) -> list[Candidate]:
    changes = [case.change("sequence.data_file", _UNIQUE)]
    changes += [
        case.change(case.line_at(file.line.index, "data_file"), None)
        for group in groups
        for file in group
        if file.line.line.data_file is not None
    ]
    return [case.candidate(f'write data_file: "{_UNIQUE}"', *changes)]
