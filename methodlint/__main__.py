"""The command, and `python -m methodlint`: an interrupt is heeded before anything is imported."""

import os
import sys


def main() -> None:
    """Import the commands and run one."""
    # Python puts the working folder first; what is checked may lie there, and nothing of it is run.
    if not sys.flags.safe_path and sys.path and sys.path[0] in ("", os.getcwd()):
        del sys.path[0]
    try:
        from methodlint.cli import main as run_command
    except KeyboardInterrupt:
        raise SystemExit(130) from None
    run_command()


if __name__ == "__main__":
    main()
