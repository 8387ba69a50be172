"""What a pump and an injector showed on the bench."""
