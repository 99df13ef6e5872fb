"""How a unit is held: loads, statics, fixings, and the checks of each."""
