"""California Energy Code and its reference appendix for storage."""
