"""BS 7671, Requirements for Electrical Installations, with the diversity of the guide that is read beside it."""
