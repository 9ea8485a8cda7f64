"""How the invented shop works through its engines: each act by the person who would do it, through the same services."""
