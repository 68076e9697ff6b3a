//! Stories in a real terminal: the program as it is shipped, in a terminal of its own.

mod edges;
mod ends;
mod evening;
mod first;
mod looks;
mod mouse;
mod others;
mod paste;
mod resize;
mod seat;
mod settings;
mod stops;
