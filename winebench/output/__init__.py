"""Pages and files made of a project and its outlook: card, labels, calendar, table."""
