"""Study: what the method is worth, against heads, helmets, hands and fitters not its model's."""
