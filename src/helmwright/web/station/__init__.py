"""The station: the tablet's page, and the messages it sends and asks for."""
