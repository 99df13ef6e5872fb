"""General dowel equations for lateral connections, with a gap between the members (AWC Technical Report 12)."""
