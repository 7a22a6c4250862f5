"""The name of an additive in, what is known of it out."""
