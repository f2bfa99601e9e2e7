"""All that is shown and said, from message files, one folder a language.

Nothing else builds a sentence: the rest names a message by its id, and what goes into it.
"""
