"""What the workbook tells: why a garment is cut as it is, how cloth is cared for, what words mean, whose rules they are."""
