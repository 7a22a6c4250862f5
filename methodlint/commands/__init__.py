"""Commands of the command line, one module each; heavy modules are imported when one runs."""
