"""Keeps job revisions, events and files. Nothing is kept in a database yet; a job is a folder, read by the foreman."""
