"""The frozen state of a job, its history, and the one place that swaps it."""
