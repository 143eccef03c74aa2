"""Questions: pure readings of the tables."""
