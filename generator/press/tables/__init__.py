"""The tables at the station and of the reference."""
