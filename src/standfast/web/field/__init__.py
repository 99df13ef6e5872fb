"""What tablets ask for: their pages, and the way in and out of the field record."""
