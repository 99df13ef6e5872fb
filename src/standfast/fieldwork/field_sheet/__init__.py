"""The field sheet: a work order as data for a tablet, in every language of the crew at once."""
