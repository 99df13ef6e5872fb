"""The language catalogue of what people read."""

from standfast.words.catalogue import ENGLISH, OTHERS, has, languages, named, say

__all__ = ["ENGLISH", "OTHERS", "has", "languages", "named", "say"]
