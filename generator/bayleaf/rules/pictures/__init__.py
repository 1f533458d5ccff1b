"""Photos: files that cannot be shown, call-outs beside the picture, pictures that nobody sees."""
