//! Laws that hold for any line.
