"""Reference data of the trade, read once from resources/catalog, each row with its source."""
