"""Words of the command line in, an exit status and text out; one module for each command."""
