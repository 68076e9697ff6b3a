//! Lines typed by hand.
