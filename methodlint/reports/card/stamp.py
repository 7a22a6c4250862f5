"""What ties a card to the check that it comes from: the verdict and a hash of what was judged."""

from __future__ import annotations

import hashlib

from methodlint.checking.report import Report
from methodlint.judging.case import BatchCase
from methodlint.reports.wording import verdict_words

__all__ = ["HELD", "documents_hash", "is_held", "stamp"]

HELD = "not printed: this is not to be run. Correct what the check reports, then check again."
"""In place of the steps of a start."""

_DIGITS = 12


def documents_hash(case: BatchCase) -> str:
    """SHA-256 of the SHA-256 of every document of a sequence, in order of kind and name."""
    documents = {document.path: document for document in case.documents.values()}
    for run in case.runs.values():
        documents |= {one.path: one for one in (*run.documents.values(), *run.columns)}
    if case.lab is not None:
        documents[case.lab.path] = case.lab
    lines = [f"{one.kind}/{one.name} {one.read.sha256}" for one in documents.values()]
    lines += [hashlib.sha256(table.data).hexdigest() for table in case.documents["sequence"].tables]
    return hashlib.sha256("\n".join(sorted(lines)).encode()).hexdigest()


def is_held(report: Report) -> bool:
    """Whether the card leaves out start and signature: nothing of it is to be run."""
    return report.verdict == "do not run"


def stamp(report: Report, documents: str) -> str:
    """Write verdict and hash, what was typed for this run included.

    Parameters
    ----------
    documents
        As `documents_hash` gives it.
    """
    if report.given:
        documents = hashlib.sha256(f"{documents} {report.given}".encode()).hexdigest()
    day = f", judged as of {report.as_of.isoformat()}" if report.as_of is not None else ""
    return f"{verdict_words(report).upper()}  documents {documents[:_DIGITS]}{day}"
