"""The bench card by content: what it says, whatever it is laid out in."""
