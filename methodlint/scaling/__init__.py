"""Pure formulas of transfer between columns and instruments, and the density solve."""
