"""The job file: reads it into a Survey and a list of faults."""

from standfast.survey.read import Reading, Survey, read

__all__ = ["Reading", "Survey", "read"]
