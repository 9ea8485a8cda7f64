"""Pure computation: numbers in, numbers out. No Django, no clock, no files; a library in its own right."""
