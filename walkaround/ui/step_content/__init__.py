"""What a step asks, as it is drawn: its words, its picture, and how large both are."""
