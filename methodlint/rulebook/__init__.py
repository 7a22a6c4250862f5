"""A rule's file in, its page, shape and judged examples out."""
