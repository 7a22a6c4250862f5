"""Bytes in, a tree out whose nodes know their places; slips told in plain words."""
