//! What can be placed on the drawing.

use crate::job::{Barrier, Device, DeviceKind};

/// A thing that can be placed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Item {
    /// A device on a joint.
    Device(DeviceKind),
    /// A passage through a part of the building or the ground.
    Passage(Barrier),
    /// A text that points at a joint.
    Note,
}

/// A row of the palette.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PaletteRow {
    /// What it places.
    pub item: Item,
    /// Its name.
    pub name: &'static str,
    /// What it is, in one line.
    pub line: &'static str,
}

/// The palette: devices in the order in which gas comes to them, what pipe passes through, and words.
pub const PALETTE: [PaletteRow; DeviceKind::ALL.len() + Barrier::ALL.len() + 1] = {
    let mut rows = [Item::Note.row(); DeviceKind::ALL.len() + Barrier::ALL.len() + 1];
    let mut at = 0;
    while at < DeviceKind::ALL.len() {
        rows[at] = Item::Device(DeviceKind::ALL[at]).row();
        at += 1;
    }
    let mut barrier = 0;
    while barrier < Barrier::ALL.len() {
        rows[at + barrier] = Item::Passage(Barrier::ALL[barrier]).row();
        barrier += 1;
    }
    rows
};

impl Item {
    /// Its row of the palette.
    pub const fn row(self) -> PaletteRow {
        let (name, line) = match self {
            Item::Device(kind) => (kind.nature().shelf, kind.nature().about),
            Item::Passage(barrier) => passage(barrier),
            Item::Note => ("Note", "A text that points at a joint"),
        };
        PaletteRow { item: self, name, line }
    }

    /// The device that it puts on a joint, of which nothing is said as yet.
    pub fn device(self) -> Option<Device> {
        match self {
            Item::Device(kind) => Some(Device::blank(kind)),
            Item::Passage(_) | Item::Note => None,
        }
    }
}

/// What a passage is called on the shelf, and what it is.
const fn passage(barrier: Barrier) -> (&'static str, &'static str) {
    match barrier {
        Barrier::ExteriorWall => (barrier.title(), "Pipe passes from indoors to outdoors"),
        Barrier::InteriorWall => (barrier.title(), "Pipe passes between rooms"),
        Barrier::Foundation => (barrier.title(), "Pipe passes through the foundation"),
        Barrier::Floor => (barrier.title(), "Pipe passes from one floor to another"),
        Barrier::Roof => (barrier.title(), "Pipe passes through the roof"),
        Barrier::Slab => (barrier.title(), "Pipe comes through concrete"),
        Barrier::Ground => (barrier.title(), "Pipe goes below grade or comes up"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_row_places_something_and_says_what() {
        for row in PALETTE {
            assert_eq!(row.item.row(), row);
            assert!(!row.line.is_empty() && !row.line.ends_with('.'));
            let other = matches!(row.item, Item::Passage(_) | Item::Note);
            assert_eq!(row.item.device().is_none(), other);
        }
        assert_eq!(
            PALETTE.map(|row| row.name).iter().collect::<BTreeSet<_>>().len(),
            PALETTE.len()
        );
    }
}
