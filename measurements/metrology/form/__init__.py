"""Form: how far a surface departs from the circle, the cylinder and the plane it ought to be."""
