"""GS38: test equipment of electrical workers."""
