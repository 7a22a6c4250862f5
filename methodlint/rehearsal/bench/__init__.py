"""A batch and the cards around it in, CO2 supply, vents, room and people out."""
