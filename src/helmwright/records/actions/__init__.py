"""Changes: each gathers, lets a pure function decide, and appends to the ledger."""
