//! Places and directions in space, in millimetres.

/// Three numbers.
pub(super) type Triple = [f64; 3];

/// A frame of reference: an origin and three axes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Frame {
    pub(super) origin: Triple,
    pub(super) x: Triple,
    pub(super) y: Triple,
    pub(super) z: Triple,
}

impl Frame {
    /// The frame of the world.
    pub(super) const WORLD: Self =
        Self { origin: [0.0; 3], x: [1.0, 0.0, 0.0], y: [0.0, 1.0, 0.0], z: [0.0, 0.0, 1.0] };

    /// From an origin, the axis `z` and a direction near to which `x` lies, as
    /// ISO 16739 builds it (`IfcBuildAxes`).
    pub(super) fn of(origin: Triple, z: Triple, near_x: Triple) -> Self {
        let z = unit(z).unwrap_or(Self::WORLD.z);
        let off = sum(near_x, times(z, -dot(near_x, z)));
        let x = unit(off).unwrap_or_else(|| {
            let other = if z[0].abs() < 0.9 { Self::WORLD.x } else { Self::WORLD.y };
            unit(sum(other, times(z, -dot(other, z)))).unwrap_or(Self::WORLD.x)
        });
        Self { origin, x, y: cross(z, x), z }
    }

    /// A place given in this frame, in the frame that this one is given in.
    pub(super) fn place(&self, [x, y, z]: Triple) -> Triple {
        sum(self.origin, self.turn([x, y, z]))
    }

    /// A direction given in this frame.
    pub(super) fn turn(&self, [x, y, z]: Triple) -> Triple {
        sum(sum(times(self.x, x), times(self.y, y)), times(self.z, z))
    }

    /// A frame given in this one.
    pub(super) fn frame(&self, inner: &Self) -> Self {
        Self {
            origin: self.place(inner.origin),
            x: self.turn(inner.x),
            y: self.turn(inner.y),
            z: self.turn(inner.z),
        }
    }
}

fn dot(a: Triple, b: Triple) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

fn cross(a: Triple, b: Triple) -> Triple {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

fn sum(a: Triple, b: Triple) -> Triple {
    [a[0] + b[0], a[1] + b[1], a[2] + b[2]]
}

pub(super) fn times(a: Triple, by: f64) -> Triple {
    a.map(|value| value * by)
}

/// The same direction with length 1; nothing for no direction.
pub(super) fn unit(a: Triple) -> Option<Triple> {
    let length = libm::sqrt(dot(a, a));
    (length > 1e-9 && length.is_finite()).then(|| times(a, 1.0 / length))
}
