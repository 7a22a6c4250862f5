"""What a change touches: a revision in; the files that differ, and the report of both states, out."""
