"""IEC 62446-1: tests of photovoltaic systems. Its scope leaves storage out."""
