"""Running an engine: the air of the day, power referred to a standard day, oil used, magnetos, and how fast a reading rises."""
