"""What the checker says: places in files, findings, and the reports made of them."""
