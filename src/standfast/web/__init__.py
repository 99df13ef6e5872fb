"""The office and the field pages, served: every way in behind one gate."""
