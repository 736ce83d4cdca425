"""Small widgets that every pane uses: fields, figures, marks."""
