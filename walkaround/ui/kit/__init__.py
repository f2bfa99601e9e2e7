"""Buttons, texts, colours and sizes that all screens share; they know Flet and no walk."""
