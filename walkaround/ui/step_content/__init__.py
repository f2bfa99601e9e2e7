"""The content of a step's screen: its words, its picture, and how large both are."""
