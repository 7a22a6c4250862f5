"""A method in, how far its settings may move before a check no longer holds out."""
