"""A report in, one format out; one file or folder for each."""
