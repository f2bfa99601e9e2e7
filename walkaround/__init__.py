"""Talks one mechanic, alone, through the lamp and air-brake check of a trailer or truck."""
