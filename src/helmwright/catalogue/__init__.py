"""The catalogue room."""
