"""A report in, the content of the bench card out, whatever it is laid out in."""
