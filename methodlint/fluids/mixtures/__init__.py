"""CO2 and a modifier in, density, viscosity and the phase boundary out, with their bands."""
