"""The desk: pages for the laptop."""
