"""The screens of vehicles: their list, one vehicle, its form, the import of a file."""
