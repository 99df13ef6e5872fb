"""The language catalogue of what people read."""

from standfast.words.catalogue import ENGLISH, has, languages, say

__all__ = ["ENGLISH", "has", "languages", "say"]
