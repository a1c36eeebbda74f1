//! What a person decided.
