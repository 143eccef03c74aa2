"""Visit: one player, one helmet, try-on by try-on, until it is accepted, stopped or impossible."""
