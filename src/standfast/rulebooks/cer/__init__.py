"""Rules of the Australian Clean Energy Regulator for the papers of an installation."""
