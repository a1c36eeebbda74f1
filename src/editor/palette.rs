//! What can be placed on the drawing.

use crate::job::{
    Appliance, Barrier, Cap, Connector, Device, Meter, QuickCoupling, Regulator, SedimentTrap, Supply, Valve,
};

/// A thing that can be placed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Item {
    /// The point of delivery.
    Supply,
    /// A meter in the line.
    Meter,
    /// A line regulator.
    Regulator,
    /// A shutoff valve.
    Valve,
    /// A union.
    Union,
    /// A sediment trap.
    SedimentTrap,
    /// A flexible connector.
    Connector,
    /// A quick-disconnect coupling.
    QuickCoupling,
    /// A gas appliance.
    Appliance,
    /// A cap.
    Cap,
    /// A gauge for the pressure test.
    TestGauge,
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

const fn row(item: Item, name: &'static str, line: &'static str) -> PaletteRow {
    PaletteRow { item, name, line }
}

/// The palette, in the order in which gas comes to things.
pub const PALETTE: [PaletteRow; 19] = [
    row(
        Item::Supply,
        "Point of delivery",
        "Where house piping starts: meter set or tank regulator",
    ),
    row(Item::Meter, "Meter", "A further meter in the line"),
    row(
        Item::Regulator,
        "Line regulator",
        "Lowers the pressure; a new stretch starts behind it",
    ),
    row(Item::Valve, "Shutoff valve", "Closes the line by hand"),
    row(Item::Union, "Union", "Opens the line without turning pipe"),
    row(
        Item::SedimentTrap,
        "Sediment trap",
        "Tee and capped nipple that catch dirt before an appliance",
    ),
    row(Item::Connector, "Connector", "Flexible tube between pipe and appliance"),
    row(
        Item::QuickCoupling,
        "Quick-disconnect",
        "Hand coupling that shuts off when parted",
    ),
    row(Item::Appliance, "Appliance", "What burns gas; ends the line"),
    row(Item::Cap, "Cap", "Closes an end, perhaps left for an appliance to come"),
    row(Item::TestGauge, "Test gauge", "Where the pressure test is read"),
    row(
        Item::Passage(Barrier::ExteriorWall),
        "Outside wall",
        "Pipe passes from indoors to outdoors",
    ),
    row(
        Item::Passage(Barrier::InteriorWall),
        "Inside wall",
        "Pipe passes between rooms",
    ),
    row(
        Item::Passage(Barrier::Foundation),
        "Foundation wall",
        "Pipe passes through the foundation",
    ),
    row(
        Item::Passage(Barrier::Floor),
        "Floor",
        "Pipe passes from one floor to another",
    ),
    row(Item::Passage(Barrier::Roof), "Roof", "Pipe passes through the roof"),
    row(Item::Passage(Barrier::Slab), "Slab", "Pipe comes through concrete"),
    row(
        Item::Passage(Barrier::Ground),
        "Ground line",
        "Pipe enters or leaves the soil",
    ),
    row(Item::Note, "Note", "A text that points at a joint"),
];

impl Item {
    /// Its row of the palette.
    pub fn row(self) -> PaletteRow {
        let found = PALETTE.iter().copied().find(|row| row.item == self);
        found.unwrap_or(row(self, "", ""))
    }

    /// The device that it puts on a joint, of which nothing is said as yet: no pressure, no rating and no
    /// input is guessed.
    pub fn device(self) -> Option<Device> {
        Some(match self {
            Item::Supply => Device::Supply(Supply::default()),
            Item::Meter => Device::Meter(Meter::default()),
            Item::Regulator => Device::Regulator(Regulator::default()),
            Item::Valve => Device::Valve(Valve::default()),
            Item::Union => Device::Union,
            Item::SedimentTrap => Device::SedimentTrap(SedimentTrap::default()),
            Item::Connector => Device::Connector(Connector::default()),
            Item::QuickCoupling => Device::QuickCoupling(QuickCoupling::default()),
            Item::Appliance => Device::Appliance(Appliance::default()),
            Item::Cap => Device::Cap(Cap::default()),
            Item::TestGauge => Device::TestGauge,
            Item::Passage(_) | Item::Note => return None,
        })
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
