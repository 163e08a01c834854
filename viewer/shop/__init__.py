"""The user's machines, materials, pairs and process; time, money and test pieces."""
