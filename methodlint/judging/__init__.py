"""Rules, findings, the loader of rule files and the harness that runs their examples."""
