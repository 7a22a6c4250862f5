"""Writes a transfer: all of its files or none, never over what others wrote or edited."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path as FilePath
from typing import Any

from methodlint.documents.library import lab_root
from methodlint.documents.text.opening import CannotOpen, bytes_of
from methodlint.documents.text.writing import look_at_targets, write_files
from methodlint.transfer.computed import Computed, NoFeasibleTransfer
from methodlint.transfer.record import transfer_data

__all__ = ["may_write", "write_transfer"]

_LONGEST_RECORD = 16 * 1024 * 1024


def write_transfer(
    transfer: Computed, file: FilePath, beside: Mapping[str, str]
) -> tuple[FilePath, ...]:
    """Write method, record and verification sequences; see `Transfer.write`."""
    if not transfer.feasible:
        raise NoFeasibleTransfer("; ".join(item.message for item in transfer.obstacles))
    record = json.dumps(transfer_data(transfer), indent=2, sort_keys=True, ensure_ascii=False)
    texts = {file: transfer.text, _record_of(file): record + "\n"}
    texts |= {file.with_name(f"{file.stem}{ending}"): text for ending, text in beside.items()}
    for name, text in transfer.verification.items():
        texts[file.with_name(f"{name}.yaml")] = text
    file.parent.mkdir(parents=True, exist_ok=True)
    write_files(
        {str(target): text for target, text in texts.items()},
        judged=[str(lab_root(FilePath(transfer.sides.method.read.name).absolute()))],
        read=_documents(transfer),
        hashes=_written_before(file),
    )
    return tuple(texts)


def may_write(file: FilePath, root: FilePath) -> None:
    """Look whether the method may be written to a file, before anything is computed.

    Raises
    ------
    NotWritten
        When it may not.
    """
    look_at_targets([str(file)], judged=[str(root)], hashes=_written_before(file))


def _record_of(file: FilePath) -> FilePath:
    return file.with_name(f"{file.stem}-transfer.json")


def _written_before(file: FilePath) -> frozenset[str]:
    """Hashes of the documents that the transfer before this one wrote, by its record."""
    try:
        record: Any = json.loads(bytes_of(str(_record_of(file)), _LONGEST_RECORD))
    except (CannotOpen, ValueError, RecursionError):
        return frozenset()
    if not isinstance(record, dict):
        return frozenset()
    sequences = record.get("verification_sha256")
    hashes = [record.get("proposed_sha256")]
    hashes += list(sequences.values()) if isinstance(sequences, dict) else []
    return frozenset(each for each in hashes if isinstance(each, str))


def _documents(transfer: Computed) -> list[str]:
    sides = transfer.sides
    found = [sides.method, *sides.source.columns, *sides.target.columns]
    found += [sides.source.instrument, sides.target.instrument]
    return [document.read.name for document in found]
