"""Deleting walks and their photos from the data folder, once somebody has agreed."""
