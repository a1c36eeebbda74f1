//! Every format holds what the scene holds: the words, the size, the ink.

#[path = "export/random.rs"]
mod random;
#[path = "export/sample.rs"]
mod sample;

use proptest::prelude::*;
use resvg::tiny_skia::Pixmap;
use roxmltree::{Document, Node};
use stubout::export::pdf::{self, PdfInfo};
use stubout::export::svg::{self, TextStyle};
use stubout::export::{ExportError, png};
use stubout::scene::{Affine, Face, Ink, Item, Point, Scene, TextItem};

fn info() -> PdfInfo {
    PdfInfo {
        title: "Sample".to_string(),
        author: "A. Nobody".to_string(),
        subject: "Every item".to_string(),
        keywords: vec!["sheet".to_string()],
    }
}

/// The words that a finished SVG holds, in painting order: of live text, or of outlines by their accessible names.
fn words_of(document: &Document) -> Vec<String> {
    let words = |node: Node| {
        if node.has_tag_name("text") {
            Some(node.text().unwrap_or_default().to_string())
        } else if node.attribute("role") == Some("img") {
            node.attribute("aria-label").map(str::to_string)
        } else {
            None
        }
    };
    document.descendants().filter_map(words).collect()
}

#[test]
fn the_sample_uses_every_character_of_the_trade_and_one_that_is_missing() {
    let scene = sample::sheet();
    let lacking = |words: &str| {
        words
            .chars()
            .filter(|c| Face::Regular.font().lacks(*c))
            .collect::<String>()
    };
    assert!(scene.words().contains(&sample::CHARACTERS));
    assert_eq!(lacking(&scene.words().concat()), "漢");
}

#[test]
fn svg_holds_the_words_in_both_styles() {
    let scene = sample::sheet();
    for style in [TextStyle::Outlines, TextStyle::Live] {
        let written = svg::write(&scene, style);
        let document = Document::parse(&written).unwrap();
        assert_eq!(words_of(&document), scene.words(), "{style:?}");
        let root = document.root_element();
        assert_eq!(root.attribute("width"), Some("210mm"));
        assert_eq!(root.attribute("viewBox"), Some("0 0 210 148.5"));
        assert_eq!(root.first_element_child().unwrap().text(), Some(scene.title()));
        let named = |node: &Node| node.attribute("role") == Some("group") && node.attribute("aria-label").is_some();
        let names: Vec<_> = document
            .descendants()
            .filter(named)
            .filter_map(|g| g.attribute("aria-label"))
            .collect();
        assert_eq!(names[..2], ["frame", "pens & dashes"]);
    }
}

#[test]
fn every_outlined_glyph_has_its_shape_in_the_file() {
    let written = svg::write(&sample::sheet(), TextStyle::Outlines);
    let document = Document::parse(&written).unwrap();
    let shapes: std::collections::HashSet<_> = document.descendants().filter_map(|n| n.attribute("id")).collect();
    let href = ("http://www.w3.org/1999/xlink", "href");
    let used: Vec<_> = document.descendants().filter_map(|n| n.attribute(href)).collect();
    assert!(used.iter().all(|used| shapes.contains(used.trim_start_matches('#'))));
    let visible = sample::sheet().words().concat().chars().filter(|c| *c != ' ').count();
    assert_eq!(used.len(), visible);
}

#[test]
fn live_text_says_how_long_it_is() {
    let scene = sample::sheet();
    let written = svg::write(&scene, TextStyle::Live);
    let document = Document::parse(&written).unwrap();
    let lengths: Vec<f64> = document
        .descendants()
        .filter_map(|n| n.attribute("textLength"))
        .map(|length| length.parse().unwrap())
        .collect();
    let mut expected = Vec::new();
    scene.walk(|_, item| {
        if let Item::Text(text) = item {
            expected.push(text.advance());
        }
    });
    assert_eq!(lengths.len(), expected.len());
    assert!(
        lengths
            .iter()
            .zip(expected)
            .all(|(found, wanted)| (found - wanted).abs() <= 0.0005)
    );
}

#[test]
fn pdf_holds_the_words_and_the_true_size() {
    let scene = sample::sheet();
    let mut second = Scene::new(431.8, 279.4, "11 × 17 in");
    second.push(TextItem::new("second sheet", 5.0, Face::Strong).map(Affine::to(Point::new(20.0, 20.0))));
    let file = pdf::write(&[scene.clone(), second], &info()).unwrap();
    let document = lopdf::Document::load_mem(&file).unwrap();
    let pages = document.get_pages();
    assert_eq!(pages.len(), 2);
    for (page, (width, height)) in [(1, (sample::WIDTH, sample::HEIGHT)), (2, (431.8, 279.4))] {
        let media = document
            .get_dictionary(pages[&page])
            .unwrap()
            .get(b"MediaBox")
            .unwrap()
            .as_array()
            .unwrap();
        let media: Vec<f64> = media.iter().map(|n| f64::from(n.as_float().unwrap())).collect();
        assert!((media[2] - media[0] - width * 72.0 / 25.4).abs() < 0.01, "{media:?}");
        assert!((media[3] - media[1] - height * 72.0 / 25.4).abs() < 0.01, "{media:?}");
    }
    let text = document.extract_text(&[1]).unwrap();
    for words in scene.words() {
        let words = words.replace('漢', "");
        assert!(text.contains(words.trim()), "{words:?} is not in {text:?}");
    }
    assert!(document.extract_text(&[2]).unwrap().contains("second sheet"));
}

#[test]
fn two_runs_give_the_same_bytes() {
    let scene = sample::sheet();
    assert_eq!(scene, sample::sheet());
    for style in [TextStyle::Outlines, TextStyle::Live] {
        assert_eq!(svg::write(&scene, style), svg::write(&sample::sheet(), style));
    }
    let pdf = |scene: Scene| pdf::write(&[scene.clone(), scene], &info()).unwrap();
    assert!(pdf(scene.clone()) == pdf(sample::sheet()));
    assert!(png::write(&scene, 100.0).unwrap() == png::write(&sample::sheet(), 100.0).unwrap());
}

#[test]
fn png_has_ink_where_words_stand_and_white_paper_elsewhere() {
    let dpi = 150.0;
    let scene = sample::sheet();
    let file = png::write(&scene, dpi).unwrap();
    let picture = Pixmap::decode_png(&file).unwrap();
    assert_eq!((picture.width(), picture.height()), (1240, 877));
    let resolution = 5906u32.to_be_bytes(); // 150 dots per inch, per metre
    assert_eq!(
        file[37..49],
        [b"pHYs".as_slice(), &resolution, &resolution].concat(),
        "prints in true size"
    );
    let at = |x: f64, y: f64| {
        let pixel = |mm: f64| (mm / 25.4 * dpi) as u32;
        let color = picture.pixel(pixel(x), pixel(y)).unwrap();
        assert_eq!(color.alpha(), 255, "paper is not transparent");
        color.red()
    };
    let middle = sample::LARGE_H;
    assert!(at(middle.x, middle.y) < 40, "the bar of the H");
    assert_eq!(at(middle.x, middle.y - 8.0), 255, "between the legs of the H");
    assert_eq!(at(5.0, 5.0), 255, "the margin");
    assert!(at(20.0, 70.0) < 40, "the frame");
    scene.walk(|_, item| {
        if let Item::Text(text) = item
            && text.inked() == Ink::Black
        {
            let area = text.quad().bounds();
            let mut darkest = 255;
            for step in 0..2500u32 {
                let (x, y) = (f64::from(step % 50) / 50.0, f64::from(step / 50) / 50.0);
                darkest = darkest.min(at(area.min.x + x * area.width(), area.min.y + y * area.height()));
            }
            assert!(darkest < 160, "no ink of {:?}", text.words());
        }
    });
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn whatever_is_drawn_every_format_can_be_read(scene in random::scene()) {
        for style in [TextStyle::Outlines, TextStyle::Live] {
            let written = svg::write(&scene, style);
            let document = Document::parse(&written).map_err(|error| TestCaseError::fail(error.to_string()))?;
            let words: Vec<_> = scene.words().into_iter().filter(|words| !words.is_empty()).collect();
            prop_assert_eq!(words_of(&document), words);
            let shapes = document.descendants().filter_map(|n| n.attribute("d"));
            prop_assert!(shapes.flat_map(str::chars).all(|c| "MLQCZ0123456789.- ".contains(c)));
        }
        match pdf::write(std::slice::from_ref(&scene), &info()) {
            Ok(file) => prop_assert!(lopdf::Document::load_mem(&file).is_ok()),
            Err(error) => prop_assert!(matches!(error, ExportError::SheetTooLarge { .. }), "{}", error),
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn whatever_is_drawn_a_picture_can_be_seen(scene in random::scene()) {
        match png::write(&scene, 20.0) {
            Ok(file) => prop_assert!(Pixmap::decode_png(&file).is_ok()),
            Err(error) => prop_assert!(matches!(error, ExportError::PictureTooLarge { .. }), "{}", error),
        }
    }
}
