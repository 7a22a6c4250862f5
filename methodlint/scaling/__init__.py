"""Two columns or instruments in, scaled settings out: pure formulas and the density solve."""
