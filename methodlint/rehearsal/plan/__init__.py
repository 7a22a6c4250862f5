"""Documents in, one resolved run plan out: programme, train, liquids, surroundings."""
