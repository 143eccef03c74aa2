"""The reports room."""
