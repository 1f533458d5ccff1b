"""Limits against the rules they cite, the system they are read on, and the instrument in hand."""
