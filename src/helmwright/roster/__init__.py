"""The roster room."""
