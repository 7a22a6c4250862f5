"""How a sample table was read is reported where it is not obvious.

Reason
    Tables come from spreadsheets and from other people: the header in other words, title rows on
    top, decimal commas, another encoding. What was made of it is reported once, so that
    somebody who knows the table can see whether it is what was meant.

Unsound
    kind: sequence
    table: samples.csv  # <- here
    x-tables:
      samples.csv: |
        Probe;Vial;Inj Vol [uL]
        wine 01;A1;2,0

Sound, because nothing had to be made out
    kind: sequence
    table: samples.csv
    x-tables:
      samples.csv: |
        sample,well,volume [uL]
        wine 01,A1,2.0

Remedy
    Nothing has to be done if the note says what is meant. Otherwise write the headers as the keys
    of a line (sample, plate, well, volume, ...), or say in the sequence what they mean:
    `table: {file: samples.csv, columns: {Our word: sample}}`.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import DocumentCase, Finding

SUBJECT = "document"
CLASSES = ("note",)
NEEDS = ()


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Report what was noted when the table was read."""
    yield from case.reported()
