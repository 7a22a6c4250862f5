"""Names, temperatures, pressures in, properties and bands out; one published correlation a file."""
