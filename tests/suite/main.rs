//! One binary for all tests that look at the library from outside.

mod checker;
mod checker_is_loud;
