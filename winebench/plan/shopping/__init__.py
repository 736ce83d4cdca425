"""What the batch needs, what is in stock, what to buy and what it costs."""
