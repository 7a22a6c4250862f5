"""The repositories of the tests of changes."""

from tests.changes.conftest import kept, repository

__all__ = ["kept", "repository"]
