"""Signing in: by password at the desk, by PIN at a station that the room knows."""
