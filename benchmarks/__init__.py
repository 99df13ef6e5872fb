"""Speed as ratios against a floor or a general-purpose tool in the same run. Never a test."""
