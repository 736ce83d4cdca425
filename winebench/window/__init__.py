"""The window: Qt widgets that paint an outlook and send edits; no rule of the trade."""
