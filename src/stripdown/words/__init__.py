"""What is said: each answer once, as a frozen record of sentences, figures and keys that every renderer lays out as it is."""
