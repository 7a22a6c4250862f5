"""`python -m methodlint`."""

import os
import sys

# Python puts the working folder first; what is checked may lie there, and nothing of it is run.
if not sys.flags.safe_path and sys.path and sys.path[0] in ("", os.getcwd()):
    del sys.path[0]

from methodlint.cli import main

if __name__ == "__main__":
    main()
