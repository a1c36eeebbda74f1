//! The writing of DXF itself: pairs of a group code and a value, each on its own line, and handles.

use crate::scene::Point;
use std::fmt::Write;

/// The name by which one object of the file speaks of another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Handle(pub u32);

impl Handle {
    /// Nobody.
    pub const NONE: Handle = Handle(0);
    /// The space of the drawing.
    pub const MODEL: Handle = Handle(0x1f);
    /// The first that is given by counting; those below are given in `tables`.
    const FIRST: Handle = Handle(0x100);
}

/// Text of a DXF in the making.
#[derive(Debug)]
pub struct Groups {
    out: String,
    next: Handle,
}

impl Groups {
    /// Nothing yet.
    pub fn new() -> Groups {
        Groups {
            out: String::new(),
            next: Handle::FIRST,
        }
    }

    /// Another text, whose handles are counted on from this one's.
    pub fn beside(&self) -> Groups {
        Groups {
            out: String::new(),
            next: self.next,
        }
    }

    /// A handle that was not given before.
    pub fn next(&mut self) -> Handle {
        let next = self.next;
        // No scene has so many items.
        self.next = Handle(next.0.saturating_add(1));
        next
    }

    /// The handle that would be given next.
    pub fn seed(&self) -> Handle {
        self.next
    }

    /// What has been written.
    pub fn finish(self) -> String {
        self.out
    }

    /// A word, as it is.
    pub fn text(&mut self, code: u16, value: &str) {
        // Writing to a string has no way to fail.
        let _ = writeln!(self.out, "{code:>3}\n{value}");
    }

    /// A whole number.
    pub fn int(&mut self, code: u16, value: i64) {
        let _ = writeln!(self.out, "{code:>3}\n{value}");
    }

    /// How many.
    pub fn count(&mut self, code: u16, value: usize) {
        let _ = writeln!(self.out, "{code:>3}\n{value}");
    }

    /// A length, to a ten-thousandth.
    pub fn real(&mut self, code: u16, value: f64) {
        self.text(code, &number(value));
    }

    /// An angle in degrees, to a millionth.
    pub fn angle(&mut self, code: u16, value: f64) {
        self.text(code, &decimal(value, 6));
    }

    /// A point, in the three codes that begin with this one.
    pub fn point(&mut self, code: u16, point: Point) {
        self.flat(code, point);
        self.real(code + 20, 0.0);
    }

    /// A point in two codes.
    pub fn flat(&mut self, code: u16, point: Point) {
        self.real(code, point.x);
        self.real(code + 10, point.y);
    }

    /// The direction toward the viewer.
    pub fn upward(&mut self) {
        self.point(210, Point::default());
        self.out.truncate(self.out.len() - "0.0\n".len());
        self.out.push_str("1.0\n");
    }

    /// A handle.
    pub fn handle(&mut self, code: u16, handle: Handle) {
        let _ = writeln!(self.out, "{code:>3}\n{:X}", handle.0);
    }

    /// Begins an object with a handle, a kind and an owner.
    pub fn object(&mut self, kind: &str, own: Handle, owner: Handle) {
        self.text(0, kind);
        self.handle(5, own);
        self.handle(330, owner);
    }

    /// Begins an object with the next handle; gives the handle.
    pub fn entity(&mut self, kind: &str, owner: Handle) -> Handle {
        let own = self.next();
        self.object(kind, own, owner);
        own
    }
}

/// A number as a length is written: always with a point.
pub fn number(value: f64) -> String {
    decimal(value, 4)
}

fn decimal(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    let text = text.trim_end_matches('0');
    let text = if text.ends_with('.') {
        format!("{text}0")
    } else {
        text.to_owned()
    };
    if text == "-0.0" { "0.0".to_owned() } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short_and_have_a_point() {
        for (value, expected) in [
            (0.0, "0.0"),
            (-0.000_01, "0.0"),
            (12.0, "12.0"),
            (-3.25, "-3.25"),
            (1.0 / 3.0, "0.3333"),
            (1000.0, "1000.0"),
        ] {
            assert_eq!(number(value), expected);
        }
    }

    #[test]
    fn a_pair_takes_two_lines() {
        let mut groups = Groups::new();
        groups.object("LINE", Handle(0x1A), Handle::MODEL);
        groups.upward();
        let expected = "  0\nLINE\n  5\n1A\n330\n1F\n210\n0.0\n220\n0.0\n230\n1.0\n";
        assert_eq!(groups.finish(), expected);
    }
}
