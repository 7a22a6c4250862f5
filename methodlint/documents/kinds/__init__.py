"""The eight kinds of document, one module each, imported when a document of that kind is met."""
