"""Revised lifting equation (NIOSH 94-110): how much one person may lift by hand."""
