"""One file per report format."""
