"""Re-measure as the part turns; run long jobs with progress and cancel."""
