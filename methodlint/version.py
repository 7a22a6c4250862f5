"""The version of this package, the only place where it stands."""

__version__ = "0.2.0"
