"""CSV text or a workbook in, lines of a sequence out, each cell with its place."""
