"""Rules of thumb of the trade, which no code states: each is marked so wherever it is printed."""
