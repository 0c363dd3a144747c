"""Home and its neighbours: the map of packs and the settings."""
