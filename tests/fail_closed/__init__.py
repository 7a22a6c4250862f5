"""What could not be used is never taken for "no question here"."""
