//! What stands around the entities of a DXF: the head, the tables of layers, dashes and letters, and the few objects
//! without which programs call a file of this version damaged.

use super::groups::{Groups, Handle};
use super::weight;
use crate::scene::{Dash, Layer, Pen, Point, Scene};
use std::collections::BTreeMap;

/// The style of upright lettering.
pub const REGULAR: &str = "REGULAR";
/// The style of strong lettering.
pub const STRONG: &str = "STRONG";

/// The name of a layer in the file.
pub fn layer_name(layer: Layer) -> String {
    let plain = |letter: char| {
        if letter.is_ascii_alphanumeric() {
            letter.to_ascii_uppercase()
        } else {
            '-'
        }
    };
    layer.name().chars().map(plain).collect()
}

/// The name of a pattern in the file.
pub const fn dash_name(dash: Dash) -> &'static str {
    match dash {
        Dash::Solid => "Continuous",
        Dash::Dashed => "DASHED",
        Dash::WideDashes => "WIDE-DASHES",
        Dash::Dotted => "DOTTED",
        Dash::DashDot => "DASH-DOT",
        Dash::DashDotDot => "DASH-DOT-DOT",
    }
}

/// Objects that others speak of.
mod own {
    use super::Handle;

    pub const VPORTS: Handle = Handle(0x01);
    pub const DASHES: Handle = Handle(0x02);
    pub const LAYERS: Handle = Handle(0x03);
    pub const STYLES: Handle = Handle(0x04);
    pub const VIEWS: Handle = Handle(0x05);
    pub const PLANES: Handle = Handle(0x06);
    pub const PROGRAMS: Handle = Handle(0x07);
    pub const DIMENSIONS: Handle = Handle(0x08);
    pub const BLOCKS: Handle = Handle(0x09);
    pub const ROOT: Handle = Handle(0x0a);
    pub const GROUPS: Handle = Handle(0x0b);
    pub const LAYOUTS: Handle = Handle(0x0c);
    pub const LINES: Handle = Handle(0x0d);
    pub const PLOT_STYLES: Handle = Handle(0x0e);
    pub const NORMAL: Handle = Handle(0x0f);
    pub const LINE_STYLE: Handle = Handle(0x10);
    pub const COVERS: Handle = Handle(0x11);
    pub const MODEL_LAYOUT: Handle = Handle(0x12);
    pub const PAPER_LAYOUT: Handle = Handle(0x13);
    /// The space of plotted paper, which stays empty.
    pub const PAPER: Handle = Handle(0x1b);
}

/// The whole file around its entities.
pub fn whole(scene: &Scene, layers: &BTreeMap<Layer, Pen>, entities: Groups) -> String {
    let mut rest = entities.beside();
    section(&mut rest, "CLASSES", classes);
    section(&mut rest, "TABLES", |out| tables(out, scene, layers));
    section(&mut rest, "BLOCKS", blocks);
    let mut last = rest.beside();
    section(&mut last, "OBJECTS", |out| objects(out, scene));
    last.text(0, "EOF");
    let mut head = last.beside();
    section(&mut head, "HEADER", |out| header(out, scene));
    let entities = format!("  0\nSECTION\n  2\nENTITIES\n{}  0\nENDSEC\n", entities.finish());
    [head.finish(), rest.finish(), entities, last.finish()].concat()
}

fn section(out: &mut Groups, name: &str, fill: impl FnOnce(&mut Groups)) {
    out.text(0, "SECTION");
    out.text(2, name);
    fill(out);
    out.text(0, "ENDSEC");
}

fn header(out: &mut Groups, scene: &Scene) {
    let corner = Point::new(scene.width(), scene.height());
    let variable = |out: &mut Groups, name: &str| out.text(9, name);
    for (name, code, value) in [
        ("$ACADVER", 1, "AC1015"),
        ("$DWGCODEPAGE", 3, "ANSI_1252"),
        ("$CLAYER", 8, "0"),
        ("$CELTYPE", 6, "ByLayer"),
        ("$TEXTSTYLE", 7, REGULAR),
    ] {
        variable(out, name);
        out.text(code, value);
    }
    for (name, point) in [("$EXTMIN", Point::default()), ("$EXTMAX", corner)] {
        variable(out, name);
        out.point(10, point);
    }
    for (name, point) in [("$LIMMIN", Point::default()), ("$LIMMAX", corner)] {
        variable(out, name);
        out.flat(10, point);
    }
    for (name, code, value) in [
        ("$FILLMODE", 70, 1),
        ("$CECOLOR", 62, 256),
        ("$CELWEIGHT", 370, -1),
        // Millimetres, and metric patterns.
        ("$INSUNITS", 70, 4),
        ("$MEASUREMENT", 70, 1),
        ("$LUNITS", 70, 2),
        ("$LWDISPLAY", 290, 1),
        ("$PSLTSCALE", 70, 1),
        ("$TILEMODE", 70, 1),
    ] {
        variable(out, name);
        out.int(code, value);
    }
    for name in ["$LTSCALE", "$CELTSCALE"] {
        variable(out, name);
        out.real(40, 1.0);
    }
    variable(out, "$HANDSEED");
    let seed = out.seed();
    out.handle(5, seed);
}

fn classes(out: &mut Groups) {
    for (name, class, flags, is_entity) in [
        ("WIPEOUT", "AcDbWipeout", 127, 1),
        ("WIPEOUTVARIABLES", "AcDbWipeoutVariables", 0, 0),
    ] {
        out.text(0, "CLASS");
        out.text(1, name);
        out.text(2, class);
        out.text(3, "WipeOut");
        out.int(90, flags);
        out.int(280, 0);
        out.int(281, is_entity);
    }
}

fn tables(out: &mut Groups, scene: &Scene, layers: &BTreeMap<Layer, Pen>) {
    table(out, "VPORT", own::VPORTS, 1, |out| view(out, scene));
    let dashes: Vec<Dash> = Dash::ALL.into_iter().filter(|dash| *dash != Dash::Solid).collect();
    table(out, "LTYPE", own::DASHES, 3 + dashes.len(), |out| {
        for (name, words) in [("ByBlock", ""), ("ByLayer", ""), ("Continuous", "Solid line")] {
            pattern(out, name, words, &[]);
        }
        for dash in dashes {
            let lengths = dash.pattern();
            let words: Vec<String> = lengths.iter().map(f64::to_string).collect();
            pattern(out, dash_name(dash), &format!("{} mm", words.join(" ")), lengths);
        }
    });
    table(out, "LAYER", own::LAYERS, 1 + layers.len(), |out| {
        layer(out, "0", Pen::Thin);
        for (one, pen) in layers {
            layer(out, &layer_name(*one), *pen);
        }
    });
    table(out, "STYLE", own::STYLES, 3, |out| {
        style(out, "Standard", "txt");
        style(out, REGULAR, "arial.ttf");
        style(out, STRONG, "arialbd.ttf");
    });
    table(out, "VIEW", own::VIEWS, 0, |_| {});
    table(out, "UCS", own::PLANES, 0, |_| {});
    table(out, "APPID", own::PROGRAMS, 1, |out| {
        record(out, "APPID", own::PROGRAMS, "AcDbRegAppTableRecord", "ACAD");
    });
    table(out, "DIMSTYLE", own::DIMENSIONS, 1, |out| {
        let handle = out.next();
        out.text(0, "DIMSTYLE");
        out.handle(105, handle);
        out.handle(330, own::DIMENSIONS);
        named(out, "AcDbDimStyleTableRecord", "Standard");
    });
    table(out, "BLOCK_RECORD", own::BLOCKS, 2, |out| {
        for (handle, name, layout) in [
            (Handle::MODEL, "*Model_Space", own::MODEL_LAYOUT),
            (own::PAPER, "*Paper_Space", own::PAPER_LAYOUT),
        ] {
            out.object("BLOCK_RECORD", handle, own::BLOCKS);
            out.text(100, "AcDbSymbolTableRecord");
            out.text(100, "AcDbBlockTableRecord");
            out.text(2, name);
            out.handle(340, layout);
        }
    });
}

fn table(out: &mut Groups, name: &str, handle: Handle, entries: usize, fill: impl FnOnce(&mut Groups)) {
    out.text(0, "TABLE");
    out.text(2, name);
    out.handle(5, handle);
    out.handle(330, Handle::NONE);
    out.text(100, "AcDbSymbolTable");
    out.count(70, entries);
    if handle == own::DIMENSIONS {
        out.text(100, "AcDbDimStyleTable");
    }
    fill(out);
    out.text(0, "ENDTAB");
}

fn named(out: &mut Groups, class: &str, name: &str) {
    out.text(100, "AcDbSymbolTableRecord");
    out.text(100, class);
    out.text(2, name);
    out.int(70, 0);
}

fn record(out: &mut Groups, kind: &str, table: Handle, class: &str, name: &str) {
    out.entity(kind, table);
    named(out, class, name);
}

/// The sheet fills the window when the file is opened.
fn view(out: &mut Groups, scene: &Scene) {
    record(out, "VPORT", own::VPORTS, "AcDbViewportTableRecord", "*Active");
    let middle = Point::new(scene.width() / 2.0, scene.height() / 2.0);
    out.flat(10, Point::default());
    out.flat(11, Point::new(1.0, 1.0));
    out.flat(12, middle);
    for (code, every) in [(13, 0.0), (14, 10.0), (15, 10.0)] {
        out.flat(code, Point::new(every, every));
    }
    // From above.
    for code in [16, 26, 36] {
        out.real(code, if code == 36 { 1.0 } else { 0.0 });
    }
    out.flat(17, Point::default());
    out.real(37, 0.0);
    out.real(40, scene.height() * 1.05);
    out.real(41, scene.width() / scene.height());
    out.real(42, 50.0);
}

fn pattern(out: &mut Groups, name: &str, words: &str, lengths: &[f64]) {
    record(out, "LTYPE", own::DASHES, "AcDbLinetypeTableRecord", name);
    out.text(3, words);
    out.int(72, 65);
    out.count(73, lengths.len());
    out.real(40, lengths.iter().sum());
    for (at, length) in lengths.iter().enumerate() {
        out.real(49, if at % 2 == 0 { *length } else { -*length });
        out.int(74, 0);
    }
}

fn layer(out: &mut Groups, name: &str, pen: Pen) {
    record(out, "LAYER", own::LAYERS, "AcDbLayerTableRecord", name);
    out.int(62, 7);
    out.text(6, dash_name(Dash::Solid));
    out.int(370, weight(pen));
    out.handle(390, own::NORMAL);
}

fn style(out: &mut Groups, name: &str, font: &str) {
    record(out, "STYLE", own::STYLES, "AcDbTextStyleTableRecord", name);
    out.real(40, 0.0);
    out.real(41, 1.0);
    out.real(50, 0.0);
    out.int(71, 0);
    out.real(42, 2.5);
    out.text(3, font);
    out.text(4, "");
}

fn blocks(out: &mut Groups) {
    for (space, name) in [(Handle::MODEL, "*Model_Space"), (own::PAPER, "*Paper_Space")] {
        let begin = |out: &mut Groups, kind: &str, class: &str| {
            out.entity(kind, space);
            out.text(100, "AcDbEntity");
            if space == own::PAPER {
                out.int(67, 1);
            }
            out.text(8, "0");
            out.text(100, class);
        };
        begin(out, "BLOCK", "AcDbBlockBegin");
        out.text(2, name);
        out.int(70, 0);
        out.point(10, Point::default());
        out.text(3, name);
        out.text(1, "");
        begin(out, "ENDBLK", "AcDbBlockEnd");
    }
}

fn objects(out: &mut Groups, scene: &Scene) {
    dictionary(
        out,
        own::ROOT,
        Handle::NONE,
        &[
            ("ACAD_GROUP", own::GROUPS),
            ("ACAD_LAYOUT", own::LAYOUTS),
            ("ACAD_MLINESTYLE", own::LINES),
            ("ACAD_PLOTSTYLENAME", own::PLOT_STYLES),
            ("ACAD_WIPEOUT_VARS", own::COVERS),
        ],
    );
    dictionary(out, own::GROUPS, own::ROOT, &[]);
    let layouts = [("Model", own::MODEL_LAYOUT), ("Layout1", own::PAPER_LAYOUT)];
    dictionary(out, own::LAYOUTS, own::ROOT, &layouts);
    dictionary(out, own::LINES, own::ROOT, &[("Standard", own::LINE_STYLE)]);
    out.object("ACDBDICTIONARYWDFLT", own::PLOT_STYLES, own::ROOT);
    entries(out, &[("Normal", own::NORMAL)]);
    out.text(100, "AcDbDictionaryWithDefault");
    out.handle(340, own::NORMAL);
    out.object("ACDBPLACEHOLDER", own::NORMAL, own::PLOT_STYLES);
    out.object("MLINESTYLE", own::LINE_STYLE, own::LINES);
    out.text(100, "AcDbMlineStyle");
    out.text(2, "Standard");
    out.int(70, 0);
    out.text(3, "");
    out.int(62, 256);
    out.real(51, 90.0);
    out.real(52, 90.0);
    out.int(71, 2);
    for offset in [0.5, -0.5] {
        out.real(49, offset);
        out.int(62, 256);
        out.text(6, "BYLAYER");
    }
    // What covers is not framed.
    out.object("WIPEOUTVARIABLES", own::COVERS, own::ROOT);
    out.text(100, "AcDbWipeoutVariables");
    out.int(70, 0);
    layout(out, scene, ("Model", 0), own::MODEL_LAYOUT, Handle::MODEL);
    layout(out, scene, ("Layout1", 1), own::PAPER_LAYOUT, own::PAPER);
}

fn dictionary(out: &mut Groups, handle: Handle, owner: Handle, held: &[(&str, Handle)]) {
    out.object("DICTIONARY", handle, owner);
    entries(out, held);
}

fn entries(out: &mut Groups, held: &[(&str, Handle)]) {
    out.text(100, "AcDbDictionary");
    out.int(281, 1);
    for (name, handle) in held {
        out.text(3, name);
        out.handle(350, *handle);
    }
}

/// A space with its paper: the sheet, in true size and without margins.
fn layout(out: &mut Groups, scene: &Scene, (name, number): (&str, i64), handle: Handle, space: Handle) {
    out.object("LAYOUT", handle, own::LAYOUTS);
    out.text(100, "AcDbPlotSettings");
    out.text(1, "");
    out.text(4, "");
    out.text(6, "");
    for code in [40, 41, 42, 43] {
        out.real(code, 0.0);
    }
    out.real(44, scene.width());
    out.real(45, scene.height());
    for code in [46, 47, 48, 49, 140, 141] {
        out.real(code, 0.0);
    }
    out.real(142, 1.0);
    out.real(143, 1.0);
    // Whether it is the space of the drawing; millimetres; not turned; plotted to its limits.
    out.int(70, if number == 0 { 1024 } else { 0 });
    out.int(72, 1);
    out.int(73, 0);
    out.int(74, if number == 0 { 2 } else { 5 });
    out.text(7, "");
    out.int(75, 16);
    out.real(147, 1.0);
    out.real(148, 0.0);
    out.real(149, 0.0);
    let corner = Point::new(scene.width(), scene.height());
    out.text(100, "AcDbLayout");
    out.text(1, name);
    out.int(70, 1);
    out.int(71, number);
    out.flat(10, Point::default());
    out.flat(11, corner);
    out.point(12, Point::default());
    out.point(14, Point::default());
    out.point(15, corner);
    out.real(146, 0.0);
    out.point(13, Point::default());
    out.point(16, Point::new(1.0, 0.0));
    out.point(17, Point::new(0.0, 1.0));
    out.int(76, 0);
    out.handle(330, space);
}
