"""The record under load: a day of two tablets and the office, many tablets at once, and what grows with a job."""
