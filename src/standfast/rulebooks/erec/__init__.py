"""Engineering Recommendations G98 and G99: connecting small generators to public networks in Great Britain."""
