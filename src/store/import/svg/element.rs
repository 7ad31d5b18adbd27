//! What the attributes of an element say.

use std::str::FromStr as _;

use kurbo::{Affine, BezPath, Circle, Ellipse, Point, Rect, Shape as _};
use roxmltree::Node;
use svgtypes::{Length, LengthUnit, Transform};

/// What an element is called: its label, id or class.
pub(super) fn label<'a>(node: Node<'a, '_>) -> &'a str {
    let label = node.attributes().find(|attribute| attribute.name() == "label");
    label
        .map(|label| label.value())
        .or(node.attribute("id"))
        .or(node.attribute("class"))
        .unwrap_or_default()
}

/// A property, as an attribute or within `style`.
pub(super) fn style<'a>(node: Node<'a, '_>, name: &str) -> Option<&'a str> {
    let within = node.attribute("style").and_then(|style| {
        style.split(';').filter_map(|rule| rule.split_once(':')).find(|(key, _)| key.trim() == name)
    });
    within.map(|(_, value)| value.trim()).or(node.attribute(name))
}

/// A number; 0 where there is none.
pub(super) fn number(node: Node<'_, '_>, name: &str) -> f64 {
    let number =
        node.attribute(name).and_then(|text| Length::from_str(text.split([' ', ',']).next()?).ok());
    number.map_or(0.0, |length| length.number).clamp(-1e12, 1e12)
}

/// Numbers with spaces or commas between.
pub(super) fn numbers(text: &str) -> Vec<f64> {
    let parts = text.split(|letter: char| letter == ',' || letter.is_whitespace());
    parts.filter_map(|part| part.parse().ok()).filter(|number: &f64| number.is_finite()).collect()
}

/// A physical length, mm; none in pixels, percent and the like.
pub(super) fn length(text: &str) -> Option<f64> {
    let length = Length::from_str(text).ok()?;
    let unit = match length.unit {
        LengthUnit::Mm => 1.0,
        LengthUnit::Cm => 10.0,
        LengthUnit::In => 25.4,
        LengthUnit::Pt => 25.4 / 72.0,
        LengthUnit::Pc => 25.4 / 6.0,
        _ => return None,
    };
    Some(length.number * unit)
}

pub(super) fn transform(node: Node<'_, '_>) -> Result<Affine, String> {
    let Some(text) = node.attribute("transform") else { return Ok(Affine::IDENTITY) };
    let t = Transform::from_str(text).map_err(|error| format!("its transform: {error}"))?;
    Ok(Affine::new([t.a, t.b, t.c, t.d, t.e, t.f]))
}

/// The outline of a shape in its own frame.
pub(super) fn path(node: Node<'_, '_>) -> Result<BezPath, String> {
    let of = |name: &str| number(node, name);
    let round = |centre: Point, x: f64, y: f64| {
        Ellipse::new(centre, (x, y), 0.0).to_path(x.max(y).max(1e-6) * 0.001)
    };
    Ok(match node.tag_name().name() {
        "rect" => {
            let (x, y) = (of("x"), of("y"));
            Rect::new(x, y, x + of("width"), y + of("height")).to_path(0.1)
        }
        "line" => {
            let mut path = BezPath::new();
            path.move_to((of("x1"), of("y1")));
            path.line_to((of("x2"), of("y2")));
            path
        }
        "circle" => {
            Circle::new((of("cx"), of("cy")), of("r")).to_path(of("r").abs().max(1e-6) * 0.001)
        }
        "ellipse" => round(Point::new(of("cx"), of("cy")), of("rx").abs(), of("ry").abs()),
        "path" => BezPath::from_svg(node.attribute("d").unwrap_or_default())
            .map_err(|error| format!("its path: {error}"))?,
        kind => {
            let numbers = numbers(node.attribute("points").unwrap_or_default());
            let mut path = BezPath::new();
            for (index, pair) in numbers.chunks_exact(2).enumerate() {
                let at = (pair[0], pair[1]);
                if index == 0 { path.move_to(at) } else { path.line_to(at) }
            }
            if kind == "polygon" && numbers.len() >= 6 {
                path.close_path();
            }
            path
        }
    })
}
