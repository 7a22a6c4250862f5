"""A typed document in, what it says of itself out: contradictions, odd values, placeholders, hash."""
