"""What a wall asks for and what that costs, in integer cents."""
