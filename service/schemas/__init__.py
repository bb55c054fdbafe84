"""The wire: text into values of the trade and back. Knows JSON, marshmallow and pint."""
