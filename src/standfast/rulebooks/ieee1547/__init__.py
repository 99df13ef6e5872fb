"""IEEE 1547: interconnection of distributed energy resources."""
