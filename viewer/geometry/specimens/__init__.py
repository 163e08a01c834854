"""Standard specimens: small prints that each answer one question, made from a few numbers."""
