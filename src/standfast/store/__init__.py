"""Jobs, their revisions, events and files behind one small interface: a folder, SQLite or PostgreSQL."""
