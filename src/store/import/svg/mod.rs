//! SVG: shapes with their transforms, groups as layers, texts as names.

mod element;
mod outside;

use kurbo::{Affine, BezPath, PathEl, Point, Shape as _};
use roxmltree::{Document, Node, ParsingOptions};

use super::drawing::{Drawing, PARTS_MAX, fill_of};
use super::lines::{Band, Line, Mark};
use super::{ImportForm, ImportProblem};
use element::{label, length, number, path, style, transform};

/// The deepest that elements are nested, copies by `use` included.
const DEPTH_MAX: usize = 64;
/// The most elements, copies included.
const ELEMENTS_MAX: usize = 500_000;
/// The longest outline, bytes; what is read of it takes up to 40 times as many.
const PATH_BYTES_MAX: usize = 4 * 1024 * 1024;
/// The bytes of all outlines, copies included.
const READ_MAX: usize = 64 * 1024 * 1024;
/// A stroke this wide against the whole drawing is a wall and not a line.
const WIDE: f64 = 0.005;

type Failure = (String, ImportProblem);

/// Reads a file.
pub(super) fn read(bytes: &[u8]) -> Result<Drawing, Failure> {
    let bad =
        |place: String, problem: String| (place, ImportProblem::form(ImportForm::Svg, problem));
    let text = std::str::from_utf8(bytes)
        .map_err(|_| bad(String::new(), "it is not UTF-8 text".into()))?;
    let most = u32::try_from(ELEMENTS_MAX).unwrap_or(u32::MAX);
    let options = ParsingOptions { allow_dtd: true, nodes_limit: most };
    outside::bounded(bytes).map_err(|problem| bad(String::new(), problem))?;
    let document = Document::parse_with_options(text, options)
        .map_err(|error| bad(format!("line {}", error.pos().row), error.to_string()))?;
    let root = document.root_element();
    if root.tag_name().name() != "svg" {
        return Err(bad(String::new(), "its root is not an svg element".into()));
    }
    let view = root.attribute("viewBox").map(element::numbers).filter(|view| view.len() == 4);
    let mut reader =
        Reader { drawing: Drawing::default(), count: 0, read: 0, extent: 0.0, passed: 0 };
    if let Some(view) = &view {
        reader.extent = view[2].max(view[3]);
        if let Some(width) = root.attribute("width").and_then(length).filter(|_| view[2] > 0.0) {
            let how = "as its width and viewBox state".to_owned();
            reader.drawing.stated = Some((width / view[2], how));
        }
    }
    // Up the page, as plans are.
    reader.children(root, Affine::scale_non_uniform(1.0, -1.0), "", 0)?;
    if reader.passed > 0 {
        reader.drawing.passed.push(("images and other elements".to_owned(), reader.passed));
    }
    gather(&mut reader.drawing);
    Ok(reader.drawing)
}

struct Reader {
    drawing: Drawing,
    count: usize,
    /// Bytes of outlines.
    read: usize,
    /// The larger side of the drawing; 0 where it is not stated.
    extent: f64,
    passed: usize,
}

impl Reader {
    fn children(
        &mut self,
        node: Node<'_, '_>,
        outer: Affine,
        layer: &str,
        depth: usize,
    ) -> Result<(), Failure> {
        for child in node.children().filter(Node::is_element) {
            self.element(child, outer, layer, depth + 1)?;
        }
        Ok(())
    }

    fn element(
        &mut self,
        node: Node<'_, '_>,
        outer: Affine,
        layer: &str,
        depth: usize,
    ) -> Result<(), Failure> {
        self.count += 1;
        let place = || format!("line {}", node.document().text_pos_at(node.range().start).row);
        if self.count > ELEMENTS_MAX || self.drawing.is_full() {
            return Err((
                place(),
                ImportProblem::TooMany { what: "parts of a drawing", most: PARTS_MAX },
            ));
        }
        let bad = |problem: String| (place(), ImportProblem::form(ImportForm::Svg, problem));
        if depth > DEPTH_MAX {
            return Err(bad(format!("elements more than {DEPTH_MAX} deep, or one within itself")));
        }
        if style(node, "display").is_some_and(|value| value == "none") {
            return Ok(());
        }
        let own = outer * transform(node).map_err(bad)?;
        let name = label(node);
        match node.tag_name().name() {
            "g" | "svg" | "a" | "switch" => {
                let layer = if name.is_empty() { layer } else { name };
                self.children(node, own, layer, depth)
            }
            "use" => self.copy(node, own, layer, depth),
            "text" => {
                let words: String = node
                    .descendants()
                    .filter_map(|part| part.text().filter(|_| part.is_text()))
                    .collect();
                let words = words.split_whitespace().collect::<Vec<_>>().join(" ");
                let words: String = words.chars().take(120).collect();
                let first = node.descendants().find(|part| part.has_attribute("x")).unwrap_or(node);
                let at = own * Point::new(number(first, "x"), number(first, "y"));
                if !words.is_empty() {
                    self.drawing.texts.push((words, [at.x, at.y]));
                }
                Ok(())
            }
            "rect" | "line" | "polyline" | "polygon" | "path" | "circle" | "ellipse" => {
                // A copy is read as its original was.
                let drawn = ["d", "points"].iter().filter_map(|name| node.attribute(*name));
                let length = drawn.map(str::len).max().unwrap_or(0);
                self.read += length;
                if length > PATH_BYTES_MAX || self.read > READ_MAX {
                    let problem = format!(
                        "an outline of more than {PATH_BYTES_MAX} bytes, or all with more than {READ_MAX}"
                    );
                    return Err(bad(problem));
                }
                let outline = path(node).map_err(bad)?;
                self.shape(node, own * outline, layer, name, own);
                Ok(())
            }
            "defs" | "symbol" | "clipPath" | "mask" | "pattern" | "marker" | "style" | "title"
            | "desc" | "metadata" => Ok(()),
            _ => {
                self.passed += 1;
                Ok(())
            }
        }
    }

    fn copy(
        &mut self,
        node: Node<'_, '_>,
        own: Affine,
        layer: &str,
        depth: usize,
    ) -> Result<(), Failure> {
        let href = node.attributes().find(|attribute| attribute.name() == "href");
        let id = href.and_then(|href| href.value().strip_prefix('#'));
        let target = id.and_then(|id| {
            node.document().descendants().find(|other| other.attribute("id") == Some(id))
        });
        let Some(target) = target else {
            self.passed += 1;
            return Ok(());
        };
        // Every copy looks its original up: dear in a large file.
        self.count += 100;
        let own = own * Affine::translate((number(node, "x"), number(node, "y")));
        let layer = if label(node).is_empty() { layer } else { label(node) };
        if target.tag_name().name() == "symbol" {
            return self.children(target, own, layer, depth + 1);
        }
        self.element(target, own, layer, depth + 1)
    }

    fn shape(
        &mut self,
        node: Node<'_, '_>,
        outline: BezPath,
        layer: &str,
        name: &str,
        own: Affine,
    ) {
        let bounds = outline.bounding_box();
        let sides = [bounds.x0, bounds.x1, bounds.y0, bounds.y1];
        if sides.iter().any(|side| !side.is_finite() || side.abs() > 1e12) {
            self.passed += 1;
            return;
        }
        if let Some(fill) = fill_of(name).or_else(|| fill_of(layer)) {
            let corners = vec![
                [bounds.x0, bounds.y0],
                [bounds.x1, bounds.y0],
                [bounds.x1, bounds.y1],
                [bounds.x0, bounds.y1],
            ];
            let at = bounds.center();
            let mark = Mark { fill, at: [at.x, at.y], corners };
            self.drawing.symbols.push((name.to_owned(), layer.to_owned(), mark));
            return;
        }
        let stroke = style(node, "stroke-width")
            .and_then(|width| width.trim_end_matches("px").parse::<f64>().ok());
        let [a, b, ..] = own.as_coeffs();
        let width = stroke.unwrap_or(0.0) * libm::hypot(a, b);
        let filled = style(node, "fill").is_none_or(|fill| fill != "none");
        let is_line = matches!(node.tag_name().name(), "line") || !filled;
        let wide = is_line && self.extent > 0.0 && width > WIDE * self.extent;
        let size = bounds.width().max(bounds.height()).max(1e-6);
        let mut ring: Vec<[f64; 2]> = Vec::new();
        let (mut first, mut last) = (Point::ZERO, Point::ZERO);
        let mut closed = false;
        let mut sides = Vec::new();
        kurbo::flatten(outline, size * 0.005, |part| {
            let to = match part {
                PathEl::MoveTo(to) => {
                    (first, last) = (to, to);
                    ring.push([to.x, to.y]);
                    return;
                }
                PathEl::ClosePath => {
                    closed = true;
                    first
                }
                PathEl::LineTo(to) => to,
                _ => return,
            };
            if (to - last).hypot() > 0.0 && sides.len() < PARTS_MAX {
                sides.push(Line { a: [last.x, last.y], b: [to.x, to.y] });
                ring.push([to.x, to.y]);
            }
            last = to;
        });
        for line in sides {
            if wide {
                self.drawing.bands.push((layer.to_owned(), Band { line, thickness: width }));
            } else {
                self.drawing.lines.push((layer.to_owned(), line));
            }
        }
        if closed && ring.len() >= 4 {
            ring.pop();
            let name = name.replace(['_', '-'], " ");
            self.drawing.outlines.push((name, layer.to_owned(), ring));
        }
    }
}

/// The leaf and the swing of a door are one mark: those that overlap are
/// brought together.
fn gather(drawing: &mut Drawing) {
    let bounds = |mark: &Mark| {
        mark.corners
            .iter()
            .fold([f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY], |b, c| {
                [b[0].min(c[0]), b[1].min(c[1]), b[2].max(c[0]), b[3].max(c[1])]
            })
    };
    let mut kept: Vec<(String, String, Mark)> = Vec::new();
    for (name, layer, mark) in std::mem::take(&mut drawing.symbols).into_iter().take(5_000) {
        let own = bounds(&mark);
        let same = kept.iter_mut().find(|(_, other, met)| {
            let met_bounds = bounds(met);
            *other == layer
                && met.fill == mark.fill
                && own[0] <= met_bounds[2]
                && met_bounds[0] <= own[2]
                && own[1] <= met_bounds[3]
                && met_bounds[1] <= own[3]
        });
        match same {
            Some((_, _, met)) => met.corners.extend(mark.corners),
            None => kept.push((name, layer, mark)),
        }
    }
    drawing.symbols = kept;
}
