"""What is to know of a recipe, its must and its vessels, each with its way out."""
