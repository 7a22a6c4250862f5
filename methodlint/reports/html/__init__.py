"""The report as one page of HTML that needs no network and no script."""
