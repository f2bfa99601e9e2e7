"""All that is shown and said, from message files, one folder a language.

No other package builds a sentence: they name a message by its id, and the values that go into it.
"""
