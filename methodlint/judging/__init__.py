"""A case in, findings and what was not checked out."""
