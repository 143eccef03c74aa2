"""Config: settings of one room, its addresses, and the application that a server runs."""
