"""Tests that drive the real app in Chromium, as a mechanic's phone would."""
