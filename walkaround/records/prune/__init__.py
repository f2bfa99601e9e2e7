"""Taking walks and their photos out of the data folder for good, once somebody has agreed."""
