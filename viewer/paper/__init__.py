"""Documents: the client sheet put together, and set onto pages by Qt."""
