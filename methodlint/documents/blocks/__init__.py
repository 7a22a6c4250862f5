"""A compact block of a sequence in, its lines laid out."""
