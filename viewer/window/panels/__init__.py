"""One panel for each stage, and the numbers; none knows another."""
