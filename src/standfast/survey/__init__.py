"""The job file: reads it into a Survey and a list of faults."""
