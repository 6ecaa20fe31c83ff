"""Any noun as a drawing, a table or a sentence: what to show."""
