"""What holds for every test."""

from __future__ import annotations

from hypothesis import settings

# No test is timed, and the same examples come in every run: a failure is never a matter of luck.
settings.register_profile("steady", deadline=None, derandomize=True)
settings.load_profile("steady")
