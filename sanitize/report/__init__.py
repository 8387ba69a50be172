"""Result to text, JSON, CSV and pictures; returns strings and bytes, never prints."""
