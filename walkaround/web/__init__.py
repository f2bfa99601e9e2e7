"""The web server."""
