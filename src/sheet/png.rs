//! A scene as a picture of dots.

use std::sync::{Arc, OnceLock};

use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree, fontdb};

use super::lettering::{BOLD, REGULAR, SIGNS};
use super::scene::Scene;
use super::svg::svg;

/// The scene as a PNG file with so many dots to the inch.
///
/// # Errors
/// A message where so many dots are more than a picture can hold.
pub fn png(scene: &Scene, dots_per_inch: f64) -> Result<Vec<u8>, String> {
    let options = Options { fontdb: fonts(), ..Options::default() };
    let tree = Tree::from_str(&svg(scene), &options).map_err(|error| error.to_string())?;
    let (width, height) = scene.page.size();
    let per_mm = dots_per_inch / 25.4;
    let dots = |mm: f64| {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "bounded on this line"
        )]
        let dots = libm::round((mm * per_mm).clamp(1.0, 60_000.0)) as u32;
        dots
    };
    let mut picture =
        Pixmap::new(dots(width), dots(height)).ok_or("too many dots for a picture")?;
    #[expect(clippy::cast_possible_truncation, reason = "paper is small")]
    let scale = (width * per_mm / f64::from(tree.size().width())) as f32;
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut picture.as_mut());
    picture.encode_png().map_err(|error| error.to_string())
}

fn fonts() -> Arc<fontdb::Database> {
    static FONTS: OnceLock<Arc<fontdb::Database>> = OnceLock::new();
    Arc::clone(FONTS.get_or_init(|| {
        let mut fonts = fontdb::Database::new();
        for font in [REGULAR, BOLD, SIGNS] {
            fonts.load_font_data(font.to_vec());
        }
        Arc::new(fonts)
    }))
}
