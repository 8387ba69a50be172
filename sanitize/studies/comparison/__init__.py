"""Loop files side by side: what differs in them, and what it does."""
