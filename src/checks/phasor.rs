//! Alternating quantities as complex numbers.

use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub};

/// A complex number: a voltage, a current or an impedance at the frequency of
/// the supply.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Phasor {
    /// In phase: resistance.
    pub re: f64,
    /// A quarter turn ahead: reactance.
    pub im: f64,
}

impl Phasor {
    /// Zero.
    pub const ZERO: Self = Self { re: 0.0, im: 0.0 };

    /// From its two parts.
    #[must_use]
    pub const fn new(re: f64, im: f64) -> Self {
        Self { re, im }
    }

    /// Its magnitude. Plain, since no quantity here is near the ends of what a
    /// float can hold.
    #[must_use]
    pub fn magnitude(self) -> f64 {
        (self.re * self.re + self.im * self.im).sqrt()
    }

    /// So many times as much.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        Self { re: self.re * factor, im: self.im * factor }
    }
}

impl Add for Phasor {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self { re: self.re + other.re, im: self.im + other.im }
    }
}

impl AddAssign for Phasor {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl Sub for Phasor {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self { re: self.re - other.re, im: self.im - other.im }
    }
}

impl Neg for Phasor {
    type Output = Self;
    fn neg(self) -> Self {
        self.times(-1.0)
    }
}

impl Mul for Phasor {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Self {
            re: self.re * other.re - self.im * other.im,
            im: self.re * other.im + self.im * other.re,
        }
    }
}

impl Div for Phasor {
    type Output = Self;
    fn div(self, other: Self) -> Self {
        let square = other.re * other.re + other.im * other.im;
        (self * Self::new(other.re, -other.im)).times(1.0 / square)
    }
}
