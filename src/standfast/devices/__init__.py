"""Open protocols of devices, as far as they are arithmetic: bytes, registers, points, maps. No client is here yet."""
