"""A method moved to another instrument or column: computed, limited, explained and checked."""
