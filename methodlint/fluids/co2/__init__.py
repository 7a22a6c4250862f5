"""Temperature and pressure in, properties of pure CO2 out."""
