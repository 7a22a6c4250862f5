"""The name of a liquid in, its constants and properties out, each with its source."""
