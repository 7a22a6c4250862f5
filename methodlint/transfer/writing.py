"""Writes a transfer: each file whole or not at all, never over a document that was read."""

from __future__ import annotations

import json
import os
import secrets
from collections.abc import Mapping
from pathlib import Path as FilePath

from methodlint.transfer.result import NoFeasibleTransfer, Transfer

__all__ = ["write_transfer"]


def write_transfer(
    transfer: Transfer, file: FilePath, beside: Mapping[str, str]
) -> tuple[FilePath, ...]:
    """Write method, record and verification sequences; see `Transfer.write`."""
    from methodlint.transfer.record import transfer_data

    if not transfer.feasible:
        raise NoFeasibleTransfer("; ".join(item.message for item in transfer.obstacles))
    record = json.dumps(transfer_data(transfer), indent=2, sort_keys=True, ensure_ascii=False)
    texts = {file: transfer.text, file.with_name(f"{file.stem}-transfer.json"): record + "\n"}
    texts |= {file.with_name(f"{file.stem}{ending}"): text for ending, text in beside.items()}
    for name, text in transfer.verification.items():
        texts[file.with_name(f"{name}.yaml")] = text
    read = {FilePath(path).resolve() for path in _documents(transfer)}
    for target in texts:
        if target.resolve() in read:
            raise FileExistsError(f"{target} is a document that was read; choose another file")
    file.parent.mkdir(parents=True, exist_ok=True)
    for target, text in texts.items():
        _replace(target, text)
    return tuple(texts)


def _documents(transfer: Transfer) -> list[str]:
    sides = transfer.sides
    found = [sides.method, *sides.source.columns, *sides.target.columns]
    found += [sides.source.instrument, sides.target.instrument]
    return [document.read.name for document in found]


def _replace(file: FilePath, text: str) -> None:
    part = file.with_name(f".{file.name}.{secrets.token_hex(4)}")
    # Not by mkstemp: others of the lab read these files, as far as the umask lets them.
    handle = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666)
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="") as stream:
            stream.write(text)
        os.replace(part, file)
    except BaseException:
        os.unlink(part)
        raise
