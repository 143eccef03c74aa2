"""Files taken in: looked at row by row before anything happens."""
