//! Corners that do not meet, closed where that is asked for.

use std::fmt::Write as _;

use wirewend::plan::{OpenCorner, Plan, close_corners, open_corners};
use wirewend::units::Mm;

/// Closes the corners with gaps of no more than `most` and says which.
pub(super) fn close(plan: &mut Plan, most: Mm) -> Result<String, String> {
    let (edit, closed) = close_corners(plan, most);
    plan.apply(edit).map_err(|error| error.to_string())?;
    let mut said = String::new();
    for corner in &closed {
        let _ = writeln!(said, "  closed {}", one(corner));
    }
    let corners = if closed.len() == 1 { "corner" } else { "corners" };
    let _ = writeln!(said, "{} {corners} closed, up to {most} wide", closed.len());
    said.push_str(&left(plan, None));
    Ok(said)
}

/// What corners are open, and how to close them; nothing where none is.
pub(super) fn left(plan: &Plan, how: Option<&str>) -> String {
    let open = open_corners(plan);
    let gaps = || open.iter().map(|corner| corner.gap);
    let (Some(least), Some(most)) = (gaps().min(), gaps().max()) else { return String::new() };
    let (corners, stay) = if open.len() == 1 { ("corner", "does") } else { ("corners", "do") };
    let wide = if least == most { most.to_string() } else { format!("{} to {most}", least.get()) };
    let how = how.map_or_else(String::new, |how| format!("; {how}"));
    format!("{} {corners} {stay} not meet, open by {wide}{how}\n", open.len())
}

fn one(corner: &OpenCorner) -> String {
    let OpenCorner { wall: (wall, _), other, gap, meets, .. } = corner;
    format!("{gap} between {wall} and {other} at {}, {}", meets.x.get(), meets.y.get())
}
