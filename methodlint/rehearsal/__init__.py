"""From a plan to what will happen, minute by minute and injection by injection."""
