"""One walk: events in, state out."""
