"""Guiding: what comes next in a visit, computed in processes of its own. Knows no framework."""
