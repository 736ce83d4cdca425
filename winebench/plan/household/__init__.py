"""What the plan owes to a household: days away, weekends, who stirs, one pail for two batches."""
