"""A transfer as JSON: the same bytes on every run."""

from __future__ import annotations

import json

from methodlint.transfer.record import transfer_data
from methodlint.transfer.result import Transfer

__all__ = ["transfer_json"]


def transfer_json(transfer: Transfer) -> str:
    """Write a transfer as JSON text with a final newline."""
    return json.dumps(transfer_data(transfer), indent=2, sort_keys=True, ensure_ascii=False) + "\n"
