"""One edit at a time to a sound lab: what still comes out clear has a reason that was reviewed."""
