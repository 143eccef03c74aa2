"""Web: the desk for the laptop, the station for the tablet, signing in, and paper."""
