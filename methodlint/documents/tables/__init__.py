"""Sample tables: CSV text and workbooks that a sequence takes its lines from."""
