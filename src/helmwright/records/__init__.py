"""Records: one ledger of what happened in the room, and what follows from it."""
