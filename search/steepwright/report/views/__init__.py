"""What the page shows, as plain frozen records: worked out once, tested by equality."""
