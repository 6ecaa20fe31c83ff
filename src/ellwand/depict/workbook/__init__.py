"""What the workbook tells: why a garment is cut so, its care, its words, whose rules they are."""
