"""The steps of a procedure as a graph: what can follow what, and what each way out changes."""
