"""How tests that commit empty the ledger after them: the guard is lifted, and put back."""
