"""AS/NZS 1596: distance of ignition sources from gas cylinders. Read by the siting engine."""
