//! Golden files: what was looked at once and held to be right. Used as a module: `#[path = "support/golden.rs"] mod golden;`.
//!
//! `BLESS=1` takes what comes out now as right: read the difference, look at the pictures. A picture is kept as the text of
//! its SVG. Where that text differs, both texts are painted and the paintings compared: another way of writing the same
//! picture passes, and so does the last digit of another machine's mathematics. `LOOK=folder` saves all pictures of a folder
//! on one sheet under their names.
#![allow(dead_code)]

use resvg::tiny_skia::{Color, Pixmap, PixmapPaint, Transform};
use resvg::usvg::{Options, Tree};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use stubout::export::svg::{self, TextStyle};
use stubout::scene::{Anchor, Face, Point, Scene, TextItem};

/// Painted pixels of a mm.
const PIXELS: f32 = 10.0;
/// A painted pixel may differ by so much in one color.
const SHADE: u8 = 24;

/// The golden files of one folder, while a test goes through them.
pub struct Golden {
    folder: PathBuf,
    seen: BTreeSet<String>,
    faults: Vec<String>,
    pictures: Vec<(String, String)>,
}

impl Golden {
    /// Those of a folder, told from the root of the project.
    pub fn of(folder: &str) -> Golden {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
        std::fs::create_dir_all(&folder).unwrap();
        Golden {
            folder,
            seen: BTreeSet::new(),
            faults: Vec::new(),
            pictures: Vec::new(),
        }
    }

    /// Holds a picture against the file of this name, `.svg`.
    pub fn picture(&mut self, name: &str, scene: &Scene) {
        let found = svg::write(scene, TextStyle::Outlines);
        self.hold(&format!("{name}.svg"), &found, |kept, found| {
            let (kept, found) = (painted(kept), painted(found));
            if (kept.width(), kept.height()) != (found.width(), found.height()) {
                return Some("its size differs".to_owned());
            }
            let pairs = kept.data().chunks_exact(4).zip(found.data().chunks_exact(4));
            let differs = |(a, b): &(&[u8], &[u8])| a.iter().zip(*b).any(|(a, b)| a.abs_diff(*b) > SHADE);
            let count = pairs.filter(differs).count();
            (count > 0).then(|| format!("{count} painted pixels differ"))
        });
        self.pictures.push((name.to_owned(), found));
    }

    /// Holds a text against the file of this name.
    pub fn text(&mut self, name: &str, found: &str) {
        self.hold(name, found, |kept, found| {
            let (kept, found): (Vec<&str>, Vec<&str>) = (kept.lines().collect(), found.lines().collect());
            let same = kept
                .iter()
                .zip(&found)
                .take_while(|(kept, found)| kept == found)
                .count();
            let line = |of: &[&str]| of.get(same).map_or("nothing".to_owned(), |line| format!("{line:?}"));
            Some(format!(
                "line {}: kept {}, found {}",
                same + 1,
                line(&kept),
                line(&found)
            ))
        });
    }

    /// `differs` is asked where the texts differ and tells how.
    fn hold(&mut self, name: &str, found: &str, differs: impl Fn(&str, &str) -> Option<String>) {
        let path = self.folder.join(name);
        assert!(self.seen.insert(name.to_owned()), "{}: made twice", path.display());
        let kept = std::fs::read_to_string(&path);
        let fault = match &kept {
            Ok(kept) if kept == found => None,
            Ok(kept) => differs(kept, found),
            Err(error) => Some(error.to_string()),
        };
        let Some(fault) = fault else { return };
        if is_blessed() {
            std::fs::write(&path, found).unwrap();
            return;
        }
        let new = Path::new(env!("CARGO_TARGET_TMPDIR")).join("golden").join(name);
        std::fs::create_dir_all(new.parent().unwrap()).unwrap();
        std::fs::write(&new, found).unwrap();
        self.faults
            .push(format!("{}: {fault}; see {}", path.display(), new.display()));
    }

    /// All pictures under their names.
    fn sheet(&self) -> Pixmap {
        const WIDE: u32 = 1900;
        const APART: u32 = 24;
        let (mut x, mut y, mut row) = (APART, APART, 0);
        let mut placed = Vec::new();
        for (name, picture) in &self.pictures {
            let mut words = Scene::new(3.0 + 1.2 * name.len() as f64, 3.0, "");
            words.push(TextItem::new(name, 1.8, Face::Regular).at(Point::new(0.5, 2.4), Anchor::Start));
            let words = painted(&svg::write(&words, TextStyle::Outlines));
            let picture = painted(picture);
            let wide = picture.width().max(words.width()) + APART;
            if x + wide > WIDE {
                (x, y, row) = (APART, y + row + APART, 0);
            }
            row = row.max(words.height() + picture.height());
            placed.push((x, y, words, picture));
            x += wide;
        }
        let mut sheet = Pixmap::new(WIDE, y + row + APART).unwrap();
        sheet.fill(Color::from_rgba8(225, 232, 240, 255));
        for (x, y, words, picture) in placed {
            for (top, part) in [(y, &words), (y + words.height(), &picture)] {
                let paint = PixmapPaint::default();
                sheet.draw_pixmap(x as i32, top as i32, part.as_ref(), &paint, Transform::identity(), None);
            }
        }
        sheet
    }

    /// Fails where a file differs, or is none that the test made.
    #[track_caller]
    pub fn done(mut self) {
        if let Some(folder) = std::env::var_os("LOOK").filter(|_| !self.pictures.is_empty()) {
            std::fs::create_dir_all(&folder).unwrap();
            let name = self.folder.file_name().unwrap().to_string_lossy();
            self.sheet()
                .save_png(Path::new(&folder).join(format!("{name}.png")))
                .unwrap();
        }
        for entry in std::fs::read_dir(&self.folder).unwrap() {
            let path = entry.unwrap().path();
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            if self.seen.contains(&name) {
                continue;
            }
            if is_blessed() {
                std::fs::remove_file(path).unwrap();
            } else {
                self.faults.push(format!("{}: no test makes it", path.display()));
            }
        }
        assert!(
            self.faults.is_empty(),
            "{} golden files differ; BLESS=1 takes what is found as right:\n{}",
            self.faults.len(),
            self.faults.join("\n")
        );
    }
}

fn is_blessed() -> bool {
    std::env::var_os("BLESS").is_some()
}

fn painted(svg: &str) -> Pixmap {
    let tree = Tree::from_str(svg, &Options::default()).unwrap();
    let size = tree.size().to_int_size();
    // An SVG's pixel is 1/96 in.
    let scale = PIXELS * 25.4 / 96.0;
    let side = |pixels: u32| (pixels as f32 * scale).ceil() as u32;
    let mut picture = Pixmap::new(side(size.width()), side(size.height())).unwrap();
    picture.fill(Color::WHITE);
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut picture.as_mut());
    picture
}
