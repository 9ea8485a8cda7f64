"""Pages of the register of vendors, and of the orders."""
