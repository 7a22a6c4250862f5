"""What a rule may ask, sorted by subject: a case in, a finding or a figure out."""
