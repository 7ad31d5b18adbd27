//! The states of a session, each changed by its own messages alone.

mod camera;
mod drawing;
mod hand;
mod held;
mod in_the_way;
mod jobs;
mod legs;
mod reshape;
mod selection;
mod sight;
mod sketch;
mod tools;

pub use camera::{Camera, REDUCTION};
pub use hand::Hand;
pub use held::{Band, Clip, Hold};
pub use in_the_way::{InTheWay, free_beside, free_for};
pub use jobs::Jobs;
pub use legs::{LegKey, PinKey};
pub(crate) use legs::{insert, is_of};
pub use reshape::{Part, Reshape};
pub use selection::Selection;
pub use sight::Sight;
pub use sketch::{Sketch, Touch};
pub use tools::{Amount, AreaKind, Step, Tool};
