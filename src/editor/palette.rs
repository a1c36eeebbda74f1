//! What can be placed on the drawing.

use crate::job::{Appliance, Barrier, Device, DeviceKind};

/// A thing that can be placed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Item {
    /// A device on a joint.
    Device(DeviceKind),
    /// An appliance of a usual kind, named and typed.
    Appliance(ApplianceKind),
    /// A passage through a part of the building or the ground.
    Passage(Barrier),
    /// A text that points at a joint.
    Note,
}

/// A usual kind of appliance; its input is for the rating plate to say.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ApplianceKind {
    /// A furnace.
    Furnace,
    /// A storage water heater.
    WaterHeater,
    /// A kitchen range.
    Range,
    /// A clothes dryer.
    Dryer,
    /// A fireplace.
    Fireplace,
    /// A grill that is built in.
    Grill,
    /// A fire pit.
    FirePit,
}

/// Where a thing lies on the shelf.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Group {
    /// What stands on pipe.
    OnPipe,
    /// What burns gas.
    Appliances,
    /// What pipe passes through.
    Building,
    /// What is written.
    Words,
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

const COUNT: usize = DeviceKind::ALL.len() + ApplianceKind::ALL.len() + Barrier::ALL.len() + 1;

/// The palette, group by group: devices in the order in which gas comes to them, appliances, what pipe passes through, and
/// words.
pub const PALETTE: [PaletteRow; COUNT] = {
    let mut rows = [Item::Note.row(); COUNT];
    let (mut at, mut kind) = (0, 0);
    while kind < DeviceKind::ALL.len() {
        if !matches!(DeviceKind::ALL[kind], DeviceKind::Appliance) {
            rows[at] = Item::Device(DeviceKind::ALL[kind]).row();
            at += 1;
        }
        kind += 1;
    }
    let mut kind = 0;
    while kind < ApplianceKind::ALL.len() {
        rows[at] = Item::Appliance(ApplianceKind::ALL[kind]).row();
        (at, kind) = (at + 1, kind + 1);
    }
    rows[at] = Item::Device(DeviceKind::Appliance).row();
    at += 1;
    let mut barrier = 0;
    while barrier < Barrier::ALL.len() {
        rows[at] = Item::Passage(Barrier::ALL[barrier]).row();
        (at, barrier) = (at + 1, barrier + 1);
    }
    rows
};

impl Group {
    /// Every group, in the order of the shelf.
    pub const ALL: [Group; 4] = [Group::OnPipe, Group::Appliances, Group::Building, Group::Words];

    /// Its name over its things.
    pub const fn name(self) -> &'static str {
        match self {
            Group::OnPipe => "On pipe",
            Group::Appliances => "Appliances",
            Group::Building => "Building",
            Group::Words => "Notes",
        }
    }
}

impl ApplianceKind {
    /// Every kind.
    pub const ALL: [ApplianceKind; 7] = [
        ApplianceKind::Furnace,
        ApplianceKind::WaterHeater,
        ApplianceKind::Range,
        ApplianceKind::Dryer,
        ApplianceKind::Fireplace,
        ApplianceKind::Grill,
        ApplianceKind::FirePit,
    ];

    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            ApplianceKind::Furnace => "Furnace",
            ApplianceKind::WaterHeater => "Water heater",
            ApplianceKind::Range => "Range",
            ApplianceKind::Dryer => "Clothes dryer",
            ApplianceKind::Fireplace => "Fireplace",
            ApplianceKind::Grill => "Grill",
            ApplianceKind::FirePit => "Fire pit",
        }
    }

    /// Its type in the codebook's list of appliances.
    pub const fn class(self) -> &'static str {
        match self {
            ApplianceKind::Furnace => "furnace or boiler, one family",
            ApplianceKind::WaterHeater => "storage water heater 30-40 gal",
            ApplianceKind::Range => "range",
            ApplianceKind::Dryer => "clothes dryer",
            ApplianceKind::Fireplace => "direct-vent fireplace",
            ApplianceKind::Grill => "built-in grill",
            ApplianceKind::FirePit => "fire pit",
        }
    }

    const fn line(self) -> &'static str {
        match self {
            ApplianceKind::Furnace => "A residential furnace or boiler",
            ApplianceKind::WaterHeater => "A storage water heater",
            ApplianceKind::Range => "A kitchen range",
            ApplianceKind::Dryer => "A clothes dryer",
            ApplianceKind::Fireplace => "A direct-vent fireplace",
            ApplianceKind::Grill => "A built-in outdoor grill",
            ApplianceKind::FirePit => "A fire pit or fire table",
        }
    }
}

impl Item {
    /// Its row of the palette.
    pub const fn row(self) -> PaletteRow {
        let (name, line) = match self {
            Item::Device(DeviceKind::Appliance) => ("Other appliance", DeviceKind::Appliance.nature().about),
            Item::Device(kind) => (kind.nature().shelf, kind.nature().about),
            Item::Appliance(kind) => (kind.name(), kind.line()),
            Item::Passage(barrier) => passage(barrier),
            Item::Note => ("Note", "A text that points at a joint"),
        };
        PaletteRow { item: self, name, line }
    }

    /// Where it lies on the shelf.
    pub const fn group(self) -> Group {
        match self {
            Item::Device(DeviceKind::Appliance) | Item::Appliance(_) => Group::Appliances,
            Item::Device(_) => Group::OnPipe,
            Item::Passage(_) => Group::Building,
            Item::Note => Group::Words,
        }
    }

    /// The device that it puts on a joint, of which nothing is said as yet but what it is.
    pub fn device(self) -> Option<Device> {
        match self {
            Item::Device(kind) => Some(Device::blank(kind)),
            Item::Appliance(kind) => Some(Device::Appliance(Appliance {
                name: kind.name().to_owned(),
                class: Some(kind.class().to_owned()),
                ..Appliance::default()
            })),
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
    use crate::codebook::Codebook;
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

    #[test]
    fn the_palette_goes_group_by_group() {
        let mut groups: Vec<Group> = PALETTE.iter().map(|row| row.item.group()).collect();
        groups.dedup();
        assert_eq!(groups, Group::ALL);
    }

    #[test]
    fn every_kind_of_appliance_is_on_the_list_of_the_codebook_and_has_no_input_until_one_is_read() {
        for kind in ApplianceKind::ALL {
            assert!(
                Codebook::published().appliance_class(kind.class()).is_some(),
                "{kind:?}"
            );
            match Item::Appliance(kind).device() {
                Some(Device::Appliance(appliance)) => assert_eq!(appliance.input, None),
                other => panic!("{other:?}"),
            }
        }
    }
}
