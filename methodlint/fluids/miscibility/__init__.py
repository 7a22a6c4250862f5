"""Two liquids in, whether they mix and how sure that is out."""
