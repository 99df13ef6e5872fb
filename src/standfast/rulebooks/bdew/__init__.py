"""BDEW: standard load profile of German households."""
