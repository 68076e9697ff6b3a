//! What the pages say is so: the house's arrows, the README's commands and screens, the guide's lists.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test that meets what must not be there stops"
)]

mod architecture;
mod cautions;
mod guide;
mod readme;
