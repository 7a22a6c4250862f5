"""Many paths in, one report out, judged by several workers as if by one."""
