"""A tree in, a typed document of one of eight kinds out; each kind is imported when it is met."""
