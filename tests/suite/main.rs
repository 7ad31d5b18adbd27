//! Wirewend checked from outside.

mod published_orders;
