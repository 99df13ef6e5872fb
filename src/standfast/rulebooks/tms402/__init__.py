"""TMS 402: strength of headed bolts cast into masonry, in lb, in and psi."""
