//! How things look: pens, inks, dashes. Every colour and every pattern of the product's paper is named here once.
//!
//! A sheet must survive a photocopy, so nothing is told apart by colour alone and nearly everything is black.

/// The four line widths of the sheet (two drafting pairs, thick at least twice thin, as ISO 128 asks).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Pen {
    /// 0.25 mm: rules, hatching, leaders.
    Thin,
    /// 0.35 mm: existing pipe, symbols, lettering frames.
    Medium,
    /// 0.5 mm: frames.
    Wide,
    /// 0.7 mm: new pipe.
    Heavy,
}

impl Pen {
    /// The line width in mm.
    pub const fn mm(self) -> f64 {
        match self {
            Pen::Thin => 0.25,
            Pen::Medium => 0.35,
            Pen::Wide => 0.5,
            Pen::Heavy => 0.7,
        }
    }
}

/// The inks of the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Ink {
    /// Everything that matters.
    Black,
    /// Ruled lines of tables and captions: still there on a photocopy.
    Grey,
    /// Tints and guides that may vanish on a photocopy.
    Faint,
    /// Paper: covers what lies behind.
    White,
    /// What asks for attention; dark enough to copy as black.
    Accent,
}

impl Ink {
    /// Every ink.
    pub const ALL: [Ink; 5] = [Ink::Black, Ink::Grey, Ink::Faint, Ink::White, Ink::Accent];

    /// Red, green and blue, 0 to 255 each.
    pub const fn rgb(self) -> [u8; 3] {
        match self {
            Ink::Black => [0x11, 0x11, 0x11],
            Ink::Grey => [0x6b, 0x6b, 0x6b],
            Ink::Faint => [0xc8, 0xc8, 0xc8],
            Ink::White => [0xff, 0xff, 0xff],
            Ink::Accent => [0xa3, 0x1f, 0x1a],
        }
    }
}

/// The pattern of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Dash {
    /// Unbroken.
    Solid,
    /// Short dashes: hidden.
    Dashed,
    /// Long dashes: buried.
    WideDashes,
    /// Dots.
    Dotted,
    /// Long dash, dot.
    DashDot,
    /// Long dash, two dots.
    DashDotDot,
}

impl Dash {
    /// Every pattern.
    pub const ALL: [Dash; 6] = [
        Dash::Solid,
        Dash::Dashed,
        Dash::WideDashes,
        Dash::Dotted,
        Dash::DashDot,
        Dash::DashDotDot,
    ];

    /// Lengths of drawn piece, gap, drawn piece, gap … in mm; empty for an unbroken line. Always of even count.
    pub const fn pattern(self) -> &'static [f64] {
        match self {
            Dash::Solid => &[],
            Dash::Dashed => &[2.5, 1.0],
            Dash::WideDashes => &[6.0, 1.5],
            Dash::Dotted => &[0.5, 1.0],
            Dash::DashDot => &[6.0, 1.0, 0.5, 1.0],
            Dash::DashDotDot => &[6.0, 1.0, 0.5, 1.0, 0.5, 1.0],
        }
    }
}

/// How an open line ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Cap {
    /// Cut off at the end point.
    Butt,
    /// Half a disc beyond the end point.
    Round,
}

/// How a line turns a corner.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Join {
    /// To a point.
    Miter,
    /// Round.
    Round,
}

/// A drawn line: width, ink, pattern, ends and corners.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Stroke {
    /// Line width.
    pub width: Pen,
    /// Ink.
    pub ink: Ink,
    /// Pattern.
    pub dash: Dash,
    /// Ends, also of every dash.
    pub cap: Cap,
    /// Corners.
    pub join: Join,
}

impl Stroke {
    /// An unbroken black line with round ends and corners.
    pub const fn new(width: Pen) -> Self {
        Self {
            width,
            ink: Ink::Black,
            dash: Dash::Solid,
            cap: Cap::Round,
            join: Join::Round,
        }
    }

    /// The same line in another ink.
    pub const fn ink(self, ink: Ink) -> Self {
        Self { ink, ..self }
    }

    /// The same line in another pattern; a broken one is cut square so that its gaps keep their length.
    pub const fn dash(self, dash: Dash) -> Self {
        let cap = match dash {
            Dash::Solid => self.cap,
            Dash::Dashed | Dash::WideDashes | Dash::Dotted | Dash::DashDot | Dash::DashDotDot => Cap::Butt,
        };
        Self { dash, cap, ..self }
    }

    /// The same line with other ends.
    pub const fn cap(self, cap: Cap) -> Self {
        Self { cap, ..self }
    }

    /// The same line with other corners.
    pub const fn join(self, join: Join) -> Self {
        Self { join, ..self }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_dash_pattern_has_its_gaps_wider_than_the_widest_pen() {
        for dash in Dash::ALL {
            let pattern = dash.pattern();
            assert_eq!(pattern.len() % 2, 0, "{dash:?}");
            for gap in pattern.iter().skip(1).step_by(2) {
                assert!(*gap > Pen::Heavy.mm(), "{dash:?} closes up under the widest pen");
            }
        }
    }

    #[test]
    fn inks_that_matter_are_dark_enough_for_a_photocopy() {
        let luminance = |ink: Ink| {
            let [r, g, b] = ink.rgb().map(f64::from);
            (0.2126 * r + 0.7152 * g + 0.0722 * b) / 255.0
        };
        for ink in [Ink::Black, Ink::Grey, Ink::Accent] {
            assert!(luminance(ink) < 0.45, "{ink:?} would copy as white");
        }
        assert_eq!(Ink::White.rgb(), [255; 3], "paper covers without a trace");
    }
}
