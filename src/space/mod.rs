//! Where cable can go.
