"""Helmwright: the right football helmet on every head of a roster, kept right."""

__version__ = "0.1.0"
