"""The anatomy room."""
