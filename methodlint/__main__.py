"""`python -m methodlint`."""

from methodlint.cli import main

if __name__ == "__main__":
    main()
