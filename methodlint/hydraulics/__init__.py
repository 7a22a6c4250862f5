"""A train of tubes and beds with what flows in, pressure and temperature along it out."""
