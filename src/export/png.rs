//! PNG: the SVG with outlined lettering, painted on white paper without any font of the machine.

use resvg::tiny_skia::{Color, Pixmap, Transform};
use resvg::usvg::{Options, Tree};

use super::ExportError;
use super::svg::{self, TextStyle};
use crate::scene::Scene;

/// The largest picture in pixels; each takes four bytes while it is painted.
const MOST_PIXELS: f64 = 100.0e6;

/// Paints a scene at `dpi` dots per inch (10 to 2400). The file says its resolution, so it prints in true size.
pub fn write(scene: &Scene, dpi: f64) -> Result<Vec<u8>, ExportError> {
    let picture = painted(scene, dpi)?;
    let mut file = picture.encode_png().map_err(|error| refused(&error))?;
    file.splice(AFTER_HEADER..AFTER_HEADER, resolution(dpi));
    Ok(file)
}

/// The same as pixels: width, height, and four bytes for each, red, green, blue and 255.
///
/// # Errors
/// When the resolution or the picture is out of bounds.
pub fn pixels(scene: &Scene, dpi: f64) -> Result<([usize; 2], Vec<u8>), ExportError> {
    let picture = painted(scene, dpi)?;
    Ok(([picture.width() as usize, picture.height() as usize], picture.take()))
}

fn refused(reason: &dyn ToString) -> ExportError {
    ExportError::Refused {
        format: "PNG",
        reason: reason.to_string(),
    }
}

fn painted(scene: &Scene, dpi: f64) -> Result<Pixmap, ExportError> {
    if !(10.0..=2400.0).contains(&dpi) {
        return Err(ExportError::Resolution(dpi));
    }
    let pixels = |mm: f64| (mm / 25.4 * dpi).round().max(1.0);
    let (width, height) = (pixels(scene.width()), pixels(scene.height()));
    if width * height > MOST_PIXELS {
        return Err(ExportError::PictureTooLarge {
            megapixels: width * height / 1e6,
            limit: MOST_PIXELS / 1e6,
        });
    }
    let svg = svg::write(scene, TextStyle::Outlines);
    let tree = Tree::from_str(&svg, &Options::default()).map_err(|error| refused(&error))?;
    let mut picture = Pixmap::new(width as u32, height as u32).ok_or_else(|| refused(&"the picture has no size"))?;
    picture.fill(Color::WHITE);
    let scale = Transform::from_scale(width as f32 / tree.size().width(), height as f32 / tree.size().height());
    resvg::render(&tree, scale, &mut picture.as_mut());
    Ok(picture)
}

/// A PNG with a chunk `tEXt` of this keyword and these words behind its header (PNG 3rd ed., 11.3.3.2).
pub fn with_text(mut file: Vec<u8>, keyword: &str, words: &str) -> Vec<u8> {
    let text = chunk(b"tEXt", &[keyword.as_bytes(), b"\0", words.as_bytes()].concat());
    if file.len() >= AFTER_HEADER {
        file.splice(AFTER_HEADER..AFTER_HEADER, text);
    }
    file
}

/// A chunk: the length of its data, its name, the data and the check sum of both (PNG 3rd ed., 5.3).
fn chunk(name: &[u8; 4], data: &[u8]) -> Vec<u8> {
    let body = [name.as_slice(), data].concat();
    let mut chunk = (data.len() as u32).to_be_bytes().to_vec();
    chunk.extend(&body);
    chunk.extend(crc(&body).to_be_bytes());
    chunk
}

/// Where the first chunk after the header stands: 8 bytes of signature, 25 of header (PNG 3rd ed., 5.3 and 11.2.1).
const AFTER_HEADER: usize = 33;

/// The chunk `pHYs`, pixels per metre both ways (PNG 3rd ed., 11.3.4.3).
fn resolution(dpi: f64) -> Vec<u8> {
    let per_metre = (dpi / 0.0254).round() as u32;
    let metre = per_metre.to_be_bytes();
    chunk(b"pHYs", &[metre.as_slice(), &metre, &[1]].concat())
}

/// The check sum of a chunk (PNG 3rd ed., annex D; ISO 3309).
fn crc(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(u32::MAX, |crc, byte| {
        (0..8).fold(crc ^ u32::from(*byte), |crc, _| {
            if crc & 1 == 1 { crc >> 1 ^ 0xEDB8_8320 } else { crc >> 1 }
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_check_sum_agrees_with_the_one_every_png_ends_with() {
        assert_eq!(crc(b"IEND"), 0xAE42_6082);
    }

    #[test]
    fn a_picture_too_large_or_too_coarse_is_refused_before_memory_is_taken() {
        let sheet = Scene::new(431.8, 279.4, "11 × 17 in");
        let error = write(&sheet, 1200.0).unwrap_err();
        assert!(
            matches!(error, ExportError::PictureTooLarge { megapixels, .. } if megapixels > 269.0),
            "{error}"
        );
        for dpi in [0.0, -96.0, f64::NAN, f64::INFINITY] {
            assert!(matches!(write(&sheet, dpi), Err(ExportError::Resolution(_))));
        }
    }
}
