"""The bench: how fast the program is, how near its search comes, and how its builds play out."""
