"""A plan or a sequence in, which liquids meet where and how cold out."""
