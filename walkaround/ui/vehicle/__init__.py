"""The screens of vehicles: their list, one vehicle, its form, a file taken in."""
