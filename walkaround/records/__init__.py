"""Walks on disk."""
