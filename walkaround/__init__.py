"""Talks one mechanic, alone, through the lamp and air-brake check of a trailer or truck."""

from walkaround.base.message import Message, read_in_logs_by


def _in_english(unread: Message) -> str:
    """Read a message for who uses the package without the app, and has chosen no language."""
    from walkaround.bootstrap import read_language

    return read_language().text(unread)


read_in_logs_by(_in_english)
