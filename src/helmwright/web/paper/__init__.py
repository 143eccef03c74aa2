"""Paper: labels, cards and sheets as PDF."""
