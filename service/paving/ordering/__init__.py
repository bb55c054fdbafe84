"""Ordering: what the merchant sells, and what to buy of it."""
