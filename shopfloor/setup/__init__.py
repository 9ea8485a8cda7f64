"""What `make setup` runs, before any package is there: a script, and a look at the machine with the bare Python."""
