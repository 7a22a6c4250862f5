"""What comes in from an editor: nothing that is malformed leaves the server deaf."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from typing import Any, BinaryIO

from lsprotocol import types
from pygls.exceptions import JsonRpcException
from pygls.protocol import LanguageServerProtocol

__all__ = ["AnsweringProtocol", "Incoming"]

MOST_BYTES = 64 * 1024 * 1024
"""Longest message that is read."""

_HEADER_BYTES = 1024 * 1024
_LENGTH = re.compile(rb"Content-Length: *(\d+)\r\n\Z", re.IGNORECASE)


class _Ignored:
    """Stands for a message that was answered already."""

    jsonrpc = ""


class AnsweringProtocol(LanguageServerProtocol):
    """Answers requests whose parameters cannot be read; the library reports them only."""

    def structure_message(self, data: dict[str, Any]) -> Any:
        """Make a message of what was read."""
        try:
            return super().structure_message(data)
        except JsonRpcException as error:
            if "method" not in data or not isinstance(data.get("id"), (int, str)):
                raise
            self._send_response(data["id"], error=error.to_response_error())
            return _Ignored()


class Incoming(io.RawIOBase):
    """Standard input, without lengths that no message has.

    Where a message of such a length begins, the next readable header is looked for.

    Parameters
    ----------
    source
        What is read.
    refuse
        Called with the reason for each length that is refused.
    """

    def __init__(self, source: BinaryIO, refuse: Callable[[str], None]) -> None:
        super().__init__()
        self._source = source
        self._refuse = refuse

    def readline(self, size: int | None = -1, /) -> bytes:
        """Read a header line; one that follows other bytes without a line end is found."""
        line = self._source.readline(_HEADER_BYTES)
        found = _LENGTH.search(line)
        if found is None:
            if line.lower().startswith(b"content-length"):
                self._refuse("Content-Length is not a number of bytes")
            return line
        if int(found[1]) > MOST_BYTES:
            self._refuse(f"Content-Length is above the limit of {MOST_BYTES} bytes")
            return b"\r\n"
        return b"Content-Length: " + found[1] + b"\r\n"

    def read(self, size: int = -1, /) -> bytes:
        """Read a message."""
        return self._source.read(size)


def refusal(reason: str) -> types.ResponseError:
    """Make the error that is sent for a message that cannot be read."""
    return types.ResponseError(types.ErrorCodes.InvalidRequest, reason)
