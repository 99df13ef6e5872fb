"""One module for each step. A step that was released is never changed; a new one is added behind it."""
