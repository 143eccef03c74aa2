"""Writes the pages of docs/reference that the code itself can tell.

They are kept in the repository so that they can be read there, and a test keeps them fresh.
"""
