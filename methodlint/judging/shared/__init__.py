"""What several rules ask and say in the same way: a case in, a finding, a figure or words out."""
