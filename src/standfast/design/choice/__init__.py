"""The whole choice: place, route, conductors, overcurrent step and fixing together, at the least allowed price."""
