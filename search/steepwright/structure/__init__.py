"""Room being built."""
