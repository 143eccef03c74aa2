"""Marks and lengths, as every page writes them."""
