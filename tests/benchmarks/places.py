"""Where the programs that are measured lie: this package's wheel in a bare environment, and the
programs of other people that it is compared with in another."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = ROOT / "example_methods"


@dataclass(frozen=True)
class Places:
    """Folders of one series of measurements.

    Attributes
    ----------
    folder
        Scratch folder.
    quick
        Fewer turns and smaller folders, to try the scripts out.
    """

    folder: Path
    quick: bool = False

    @property
    def ours(self) -> Path:
        """Programs of the bare environment with the wheel."""
        return self.folder / "bare" / "bin"

    @property
    def theirs(self) -> Path:
        """Programs of other people."""
        return self.folder / "others" / "bin"

    @property
    def methodlint(self) -> Path:
        """The command of the wheel."""
        return self.ours / "methodlint"

    def turns(self, count: int) -> int:
        """Number of turns of a comparison."""
        return min(count, 3) if self.quick else count


def prepare(folder: Path, *, quick: bool = False) -> Places:
    """Make both environments, the wheel's anew."""
    places = Places(folder, quick)
    folder.mkdir(parents=True, exist_ok=True)
    if not (places.theirs / "yamllint").exists():
        _environment(folder / "others", "check-jsonschema", "yamllint")
    wheels = folder / "wheels"
    for old in wheels.glob("*.whl"):
        old.unlink()
    pip = [sys.executable, "-m", "pip", "wheel", "-q", "--no-deps", "-w", str(wheels), str(ROOT)]
    subprocess.run(pip, check=True)
    (wheel,) = wheels.glob("methodlint-*.whl")
    if not places.methodlint.exists():
        _environment(folder / "bare", str(wheel))
    else:
        again = ["install", "-q", "--force-reinstall", "--no-deps", str(wheel)]
        subprocess.run([str(places.ours / "pip"), *again], check=True)
    return places


def _environment(folder: Path, *packages: str) -> None:
    subprocess.run([sys.executable, "-m", "venv", str(folder)], check=True)
    subprocess.run([str(folder / "bin" / "pip"), "install", "-q", *packages], check=True)
