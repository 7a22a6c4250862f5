"""What flows: CO2, modifiers, their mixtures and phase boundary; one published correlation per file."""
