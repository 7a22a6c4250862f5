"""Writes the changes of a candidate into copies of the documents."""

from __future__ import annotations

import copy
import itertools
from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from methodlint.documents.loading import Loaded, model_class, validated
from methodlint.documents.text.places import Path
from methodlint.documents.text.problems import Problem
from methodlint.judging.finding import Candidate, Change


def changed_documents(candidate: Candidate) -> dict[str, Loaded] | None:
    """Apply a candidate's changes.

    Returns
    -------
    dict or None
        Changed documents by path; None if a changed document does not validate.
    """
    documents, problems = with_changes(candidate.changes)
    return None if problems else documents


def with_changes(changes: Iterable[Change]) -> tuple[dict[str, Loaded], list[Problem]]:
    """Write changes into copies of the documents.

    Returns
    -------
    tuple
        Changed documents by path, without what cannot be used, and the problems of what cannot.

    Raises
    ------
    KeyError, IndexError, TypeError, ValueError
        If a path leads through what is no mapping and no list, or to an item that is not there.
    """
    data: dict[str, Any] = {}
    documents: dict[str, Loaded] = {}
    for change in changes:
        document = change.at.document
        documents[document.path] = document
        if document.path not in data:
            data[document.path] = copy.deepcopy(document.data)
        put(data[document.path], change.at.path, change.value, insert=change.insert)
    problems: list[Problem] = []
    for path, document in documents.items():
        model, found, _ = validated(model_class(document.kind), data[path], document.read)
        problems += found
        documents[path] = replace(document, model=model, data=data[path])
    return documents, problems


def put(data: Any, path: Path, value: Any, *, insert: bool = False) -> None:
    """Write a value into plain data, making the mappings on the way."""
    for step, following in itertools.pairwise(path):
        if isinstance(data, dict):
            if not isinstance(data.get(str(step)), (dict, list)):
                data[str(step)] = [] if isinstance(following, int) else {}
            data = data[str(step)]
        else:
            data = data[int(step)]
    last = path[-1]
    if isinstance(data, list):
        if insert:
            data.insert(int(last), value)
        else:
            data[int(last)] = value
    elif value is None:
        data.pop(str(last), None)
    else:
        data[str(last)] = value
