"""Coverage-guided fuzzing of the reader, by hand; atheris is no dependency of the tests.

    pip install atheris
    python -m tests.hazards.fuzz_reader FOLDER tests/hazards/corpus -max_total_time=300
    python -m tests.hazards.fuzz_reader --keep FOLDER

FOLDER takes what opens new ways through the code; `--keep` copies the least part of it that opens
as many into `tests/hazards/corpus`, which every test run reads. Options are those of libFuzzer.
"""

from __future__ import annotations

import hashlib
import importlib
import shutil
import sys
from pathlib import Path

CORPUS = Path(__file__).resolve().parent / "corpus"
_MOST_KEPT, _LONGEST = 60, 2_000


def target(data: bytes) -> None:
    """Read an input; a broken promise is an exception."""
    from tests.hazards.reading import look_at

    look_at(data)


def keep(folder: Path) -> int:
    """Copy the inputs that reach lines which no shorter one reaches."""
    from methodlint.documents.loading import load
    from methodlint.documents.text.reader import read_text

    load(read_text(b"kind: sequence\nlines: [1]\n", "x"), "x", "x")
    reached: set[tuple[str, int]] = set()
    now: set[tuple[str, int]] = set()

    def trace(frame, event, _argument):  # type: ignore[no-untyped-def]
        if "/methodlint/documents/" not in frame.f_code.co_filename:
            return None
        now.add((frame.f_code.co_filename, frame.f_lineno))
        return trace

    kept = 0
    CORPUS.mkdir(exist_ok=True)
    for file in sorted(folder.iterdir(), key=lambda f: (f.stat().st_size, f.name)):
        data = file.read_bytes()
        now.clear()
        sys.settrace(trace)
        try:
            target(data)
        finally:
            sys.settrace(None)
        if now - reached and len(data) <= _LONGEST and kept < _MOST_KEPT:
            reached |= now
            shutil.copyfile(file, CORPUS / hashlib.sha256(data).hexdigest()[:12])
            kept += 1
    print(f"{kept} inputs reach {len(reached)} lines of reading")
    return 0


def main(arguments: list[str]) -> int:
    """Fuzz until libFuzzer's options end it."""
    if arguments[:1] == ["--keep"]:
        return keep(Path(arguments[1]))
    import atheris  # type: ignore[import-not-found]

    with atheris.instrument_imports(include=["methodlint.documents"]):
        for name in ("loading", "sequence_lines"):
            importlib.import_module(f"methodlint.documents.{name}")
    for argument in arguments:
        if not argument.startswith("-"):
            Path(argument).mkdir(parents=True, exist_ok=True)
    atheris.Setup([sys.argv[0], *arguments], target)
    atheris.Fuzz()
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
