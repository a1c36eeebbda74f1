//! How the window looks: its two themes, its font, and the colours of the marks of editing. Paper stays paper in both.

use crate::desk::settings::{Light, Settings};
use crate::scene::Face;
use egui::{Color32, CornerRadius, FontData, FontDefinitions, FontFamily, Stroke, TextStyle, Theme, Visuals};
use std::sync::Arc;

/// The paper.
pub const PAPER: Color32 = Color32::WHITE;
/// The lines of the lattice.
pub const LATTICE: Color32 = Color32::from_rgb(0xe3, 0xe8, 0xea);
/// The plane that is worked in.
pub const PLANE: Color32 = Color32::from_rgb(0x0b, 0x6e, 0x6e);
/// Strokes across pipe that tell of it: as dark as the pipe, told apart by their length.
pub const STROKES: Color32 = Color32::from_rgb(0x2a, 0x2a, 0x2a);
/// What is chosen.
pub const CHOSEN: Color32 = Color32::from_rgb(0x0b, 0x5c, 0xad);
/// What is to come.
pub const GHOST: Color32 = Color32::from_rgb(0x0b, 0x6e, 0x6e);
/// What is refused, and what must be mended.
pub const REFUSED: Color32 = Color32::from_rgb(0xa3, 0x1f, 0x1a);

/// What is asked for most: the filled button, and the bar of the side that is looked at.
pub const ACCENT: Color32 = Color32::from_rgb(0x0b, 0x5d, 0x66);
/// Words on it.
pub const ON_ACCENT: Color32 = Color32::WHITE;

/// Whether a job stands well.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mood {
    /// The rules found nothing that must be fixed.
    Clear,
    /// They found something.
    MustFix,
    /// There is nothing to judge, or it is being worked out.
    Open,
}

/// What lies behind the line that says how a job stands.
pub fn standing(mood: Mood, dark: bool) -> Color32 {
    match (mood, dark) {
        (Mood::Clear, false) => Color32::from_rgb(0xe4, 0xf1, 0xe4),
        (Mood::Clear, true) => Color32::from_rgb(0x1c, 0x35, 0x22),
        (Mood::MustFix, false) => Color32::from_rgb(0xfb, 0xe9, 0xe6),
        (Mood::MustFix, true) => Color32::from_rgb(0x42, 0x22, 0x1e),
        (Mood::Open, false) => Color32::from_rgb(0xe9, 0xec, 0xed),
        (Mood::Open, true) => Color32::from_rgb(0x2b, 0x31, 0x34),
    }
}

/// The first words of that line.
pub fn standing_words(mood: Mood, dark: bool) -> Color32 {
    match (mood, dark) {
        (Mood::Clear, false) => Color32::from_rgb(0x1d, 0x66, 0x2c),
        (Mood::Clear, true) => Color32::from_rgb(0x9b, 0xdf, 0xa6),
        (Mood::MustFix, dark) => warning(dark),
        (Mood::Open, false) => Color32::from_rgb(0x1d, 0x23, 0x26),
        (Mood::Open, true) => Color32::from_rgb(0xe6, 0xe9, 0xea),
    }
}

/// Behind pipe that is over its capacity.
pub const OVER: Color32 = Color32::from_rgb(0xf0, 0xa8, 0xa0);
/// Behind pipe that is near its capacity.
pub const NEAR: Color32 = Color32::from_rgb(0xf2, 0xcf, 0x8a);
/// Behind pipe that is not judged.
pub const NOT_JUDGED: Color32 = Color32::from_rgb(0xb4, 0xbe, 0xc4);

/// The colour of words that warn, readable (4.5:1) on the panels of the theme.
pub fn warning(dark: bool) -> Color32 {
    if dark {
        Color32::from_rgb(0xff, 0x9d, 0x8f)
    } else {
        REFUSED
    }
}

/// What lies around a sheet.
pub fn desk(dark: bool) -> Color32 {
    if dark {
        Color32::from_rgb(0x2b, 0x2f, 0x31)
    } else {
        Color32::from_rgb(0xd9, 0xdc, 0xdd)
    }
}

/// How much of its light paper loses where it is dimmed.
const DIMMED: u8 = 64;

/// Dims paper and all that is drawn on it alike, so that nothing is read worse against the rest.
pub fn dim(ui: &egui::Ui, area: egui::Rect, is_dim: bool) {
    if is_dim {
        ui.painter_at(area)
            .rect_filled(area, 0.0, Color32::from_black_alpha(DIMMED));
    }
}

/// Sets themes, font and spacing.
pub fn set(ctx: &egui::Context) {
    ctx.set_fonts(fonts());
    // Where the system does not say.
    ctx.options_mut(|options| options.fallback_theme = Theme::Light);
    ctx.set_visuals_of(Theme::Light, light());
    ctx.set_visuals_of(Theme::Dark, dark());
    ctx.all_styles_mut(|style| {
        style.spacing.item_spacing = egui::vec2(8.0, 5.0);
        style.spacing.button_padding = egui::vec2(7.0, 3.0);
        style.spacing.menu_margin = egui::Margin::same(6);
        for (text, size) in [
            (TextStyle::Small, 12.0),
            (TextStyle::Body, 14.5),
            (TextStyle::Button, 14.5),
            (TextStyle::Monospace, 13.5),
            (TextStyle::Heading, 18.0),
        ] {
            if let Some(font) = style.text_styles.get_mut(&text) {
                font.size = size;
            }
        }
    });
}

/// The drawing font for all words, and egui's own behind it for what it lacks.
fn fonts() -> FontDefinitions {
    let mut fonts = FontDefinitions::default();
    for (name, face) in [("drawing", Face::Regular), ("drawing bold", Face::Strong)] {
        let data = FontData::from_static(face.file());
        fonts.font_data.insert(name.to_owned(), Arc::new(data));
    }
    let behind = fonts
        .families
        .get(&FontFamily::Proportional)
        .cloned()
        .unwrap_or_default();
    let first = |name: &str| {
        std::iter::once(name.to_owned())
            .chain(behind.clone())
            .collect::<Vec<_>>()
    };
    fonts.families.insert(FontFamily::Proportional, first("drawing"));
    fonts.families.insert(bold(), first("drawing bold"));
    fonts
}

/// The family of headings and of what matters.
pub fn bold() -> FontFamily {
    FontFamily::Name("bold".into())
}

/// Words in the heavier face.
pub fn strong(words: impl Into<String>) -> egui::RichText {
    egui::RichText::new(words).family(bold())
}

fn light() -> Visuals {
    let mut visuals = Visuals::light();
    let ink = Color32::from_rgb(0x1d, 0x23, 0x26);
    visuals.panel_fill = Color32::from_rgb(0xf3, 0xf4, 0xf4);
    visuals.window_fill = Color32::from_rgb(0xfa, 0xfa, 0xfa);
    visuals.extreme_bg_color = Color32::WHITE;
    visuals.faint_bg_color = Color32::from_rgb(0xe9, 0xec, 0xed);
    visuals.weak_text_color = Some(Color32::from_rgb(0x4c, 0x55, 0x59));
    visuals.selection.bg_fill = Color32::from_rgb(0xc4, 0xdd, 0xf2);
    visuals.selection.stroke = Stroke::new(1.5, Color32::from_rgb(0x0b, 0x4a, 0x8c));
    visuals.hyperlink_color = CHOSEN;
    visuals.error_fg_color = warning(false);
    visuals.warn_fg_color = warning(false);
    visuals.widgets.noninteractive.fg_stroke.color = ink;
    visuals.widgets.inactive.fg_stroke.color = ink;
    visuals.widgets.inactive.weak_bg_fill = Color32::from_rgb(0xe2, 0xe6, 0xe8);
    visuals.widgets.inactive.bg_fill = Color32::from_rgb(0xd6, 0xdb, 0xde);
    ring(&mut visuals, ink, Color32::from_rgb(0xd9, 0xe6, 0xe8));
    square(&mut visuals);
    visuals
}

fn dark() -> Visuals {
    let mut visuals = Visuals::dark();
    let ink = Color32::from_rgb(0xe6, 0xe9, 0xea);
    visuals.panel_fill = Color32::from_rgb(0x20, 0x24, 0x26);
    visuals.window_fill = Color32::from_rgb(0x26, 0x2b, 0x2d);
    visuals.extreme_bg_color = Color32::from_rgb(0x16, 0x19, 0x1b);
    visuals.faint_bg_color = Color32::from_rgb(0x2b, 0x31, 0x34);
    visuals.weak_text_color = Some(Color32::from_rgb(0xb4, 0xbc, 0xc0));
    visuals.selection.bg_fill = Color32::from_rgb(0x1d, 0x4a, 0x75);
    visuals.selection.stroke = Stroke::new(1.5, Color32::from_rgb(0xbd, 0xdc, 0xff));
    visuals.hyperlink_color = Color32::from_rgb(0x8c, 0xc2, 0xff);
    visuals.error_fg_color = warning(true);
    visuals.warn_fg_color = warning(true);
    visuals.widgets.noninteractive.fg_stroke.color = ink;
    visuals.widgets.inactive.fg_stroke.color = ink;
    ring(&mut visuals, ink, Color32::from_rgb(0x35, 0x42, 0x47));
    square(&mut visuals);
    visuals
}

/// What has the keyboard, or is pressed, has a ring around it; its words stay as they are read.
fn ring(visuals: &mut Visuals, ink: Color32, fill: Color32) {
    let pen = Stroke::new(2.0, visuals.selection.stroke.color);
    let active = &mut visuals.widgets.active;
    (active.bg_fill, active.weak_bg_fill, active.bg_stroke) = (fill, fill, pen);
    active.fg_stroke.color = ink;
}

fn square(visuals: &mut Visuals) {
    let corner = CornerRadius::same(3);
    visuals.window_corner_radius = CornerRadius::same(5);
    visuals.menu_corner_radius = corner;
    let widgets = &mut visuals.widgets;
    for state in [
        &mut widgets.noninteractive,
        &mut widgets.inactive,
        &mut widgets.hovered,
        &mut widgets.active,
        &mut widgets.open,
    ] {
        state.corner_radius = corner;
    }
}

/// The choices of light and size, as lines of a menu.
pub fn choice(ui: &mut egui::Ui, settings: &mut Settings) {
    ui.separator();
    for (light, words) in [
        (Light::System, "Follow the system"),
        (Light::Day, "Light"),
        (Light::Night, "Dark"),
    ] {
        ui.radio_value(&mut settings.light, light, words);
    }
    ui.checkbox(&mut settings.dim_paper, "Dim paper when dark");
    ui.separator();
    ui.horizontal(|ui| {
        ui.label("Text and buttons");
        for (size, words) in [(0.85, "small"), (1.0, "normal"), (1.25, "large"), (1.6, "very large")] {
            ui.selectable_value(&mut settings.size, size, words);
        }
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Contrast of two colours, as WCAG 2.1 defines it (relative luminance of sRGB).
    fn contrast(a: Color32, b: Color32) -> f64 {
        let luminance = |color: Color32| {
            let part = |value: u8| {
                let value = f64::from(value) / 255.0;
                if value <= 0.04045 {
                    value / 12.92
                } else {
                    ((value + 0.055) / 1.055).powf(2.4)
                }
            };
            0.2126 * part(color.r()) + 0.7152 * part(color.g()) + 0.0722 * part(color.b())
        };
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    #[test]
    fn words_can_be_read_on_everything_that_lies_behind_them() {
        assert!((contrast(Color32::BLACK, Color32::WHITE) - 21.0).abs() < 1e-9);
        for (visuals, name) in [(light(), "light"), (dark(), "dark")] {
            let words = [
                visuals.widgets.noninteractive.fg_stroke.color,
                visuals.weak_text_color.unwrap_or_default(),
                warning(visuals.dark_mode),
            ];
            for back in [
                visuals.panel_fill,
                visuals.window_fill,
                visuals.extreme_bg_color,
                visuals.faint_bg_color,
            ] {
                for word in words {
                    assert!(
                        contrast(word, back) >= 4.5,
                        "{name}: {word:?} on {back:?}: {}",
                        contrast(word, back)
                    );
                }
            }
            let active = &visuals.widgets.active;
            assert!(
                contrast(active.fg_stroke.color, active.weak_bg_fill) >= 4.5,
                "{name}: what has the keyboard"
            );
            let (inactive, selection) = (&visuals.widgets.inactive, &visuals.selection);
            assert!(
                contrast(inactive.fg_stroke.color, inactive.weak_bg_fill) >= 4.5,
                "{name}: buttons"
            );
            assert!(
                contrast(selection.stroke.color, selection.bg_fill) >= 4.5,
                "{name}: what is chosen"
            );
            // A finding in the row that is chosen.
            assert!(
                contrast(warning(visuals.dark_mode), selection.bg_fill) >= 4.5,
                "{name}: a chosen finding"
            );
        }
        assert!(contrast(ON_ACCENT, ACCENT) >= 4.5, "the filled button");
        for (visuals, dark) in [(light(), false), (super::dark(), true)] {
            for mood in [Mood::Clear, Mood::MustFix, Mood::Open] {
                let ink = visuals.widgets.noninteractive.fg_stroke.color;
                for words in [standing_words(mood, dark), ink, visuals.hyperlink_color] {
                    let back = standing(mood, dark);
                    assert!(
                        contrast(words, back) >= 4.5,
                        "{mood:?}, dark {dark}: {words:?} on {back:?}"
                    );
                }
            }
        }
        for band in [OVER, NEAR, NOT_JUDGED] {
            assert!(contrast(STROKES, band) >= 4.5, "pipe on {band:?}");
        }
        let dimmed = |color: Color32| {
            let part = |value: u8| (u16::from(value) * u16::from(255 - DIMMED) / 255) as u8;
            Color32::from_rgb(part(color.r()), part(color.g()), part(color.b()))
        };
        for mark in [STROKES, CHOSEN, GHOST, REFUSED] {
            assert!(contrast(mark, PAPER) >= 4.5, "{mark:?} on paper");
            assert!(contrast(dimmed(mark), dimmed(PAPER)) >= 4.5, "{mark:?} on dim paper");
        }
    }
}
