"""Gates (one function each), advancing a stage, the release."""
