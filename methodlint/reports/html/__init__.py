"""A report in, one page of HTML out that needs no network and no script."""
