"""Sending a built site to where readers find it, and packing it into one file."""
