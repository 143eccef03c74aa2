"""The belief room."""
