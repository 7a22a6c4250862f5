"""A guided set-up of a lab folder: questions, templates, and what answers make of them."""
