"""What belongs to the whole batch: the kitchen, the room, the instruments, days away."""
