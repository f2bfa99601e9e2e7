"""Buttons, texts, colors and sizes that all screens share; they know Flet and no walk."""
