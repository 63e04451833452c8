"""Figures of whole build sheets, worked apart from the project's own code. See ../generate_whole_sheets.py."""
