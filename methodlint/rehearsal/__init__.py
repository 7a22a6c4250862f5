"""Documents in, what will happen out, minute by minute and injection by injection."""
