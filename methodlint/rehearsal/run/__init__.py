"""Run plans in, states over time and place out, and the questions to them."""
