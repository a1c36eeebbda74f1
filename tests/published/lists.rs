//! Fuels, supports, purging and appliances against a second transcription.

use stubout::codebook::{Codebook, Mark, Spacing, Trap, Way};
use stubout::job::{Fuel, Material};
use stubout::units::{Length, NominalSize, Parse};

fn size(text: &str) -> NominalSize {
    NominalSize::parse(text).unwrap()
}

/// `Cr = 0.00354 S T (Z/S)^0.152`, T 519.67 °R (60 °F), Z 0.012 and 0.008 cP (IFGC A.4).
#[test]
fn the_factor_of_each_fuel_follows_from_gravity_and_viscosity() {
    for fuel in [Fuel::Natural, Fuel::Propane] {
        let facts = Codebook::published().fuel(fuel).unwrap();
        let (s, z) = (facts.specific_gravity.value, facts.viscosity_cp.value);
        let cr = 0.00354 * s * 519.67 * (z / s).powf(0.152);
        assert!((cr / facts.cr.value - 1.0).abs() < 0.005, "{fuel:?}: {cr}");
        assert!((0.99..1.0).contains(&facts.y.value));
    }
    let [natural, propane] = [Fuel::Natural, Fuel::Propane].map(|fuel| Codebook::published().fuel(fuel).unwrap());
    assert_eq!((natural.cr.value, natural.y.value), (0.6094, 0.9992));
    assert_eq!((propane.cr.value, propane.y.value), (1.2462, 0.9910));
    assert_eq!(natural.heating_value.value.btu_per_ft3(), 1000.0);
    assert_eq!(propane.heating_value.mark, Mark::Computed);
}

/// IFGC table 415.1, steel as in the codes of Cut Bank, Montana and Port Isabel, Texas. Its column of smooth-wall tubing
/// is headed in inches of outside diameter (from memory): 1/2 in 4 ft, 5/8 and 3/4 in 6 ft, 7/8 and 1 in level 8 ft, 1 in
/// and over plumb at every floor. Copper tube is 1/8 in larger outside than its nominal size (ASTM B88).
#[test]
fn supports_are_as_far_apart_as_printed() {
    let book = Codebook::published();
    let spacing = |material, text, way| book.support_spacing(material, size(text), way).map(|found| found.value);
    let feet = |feet| Some(Spacing::AtMost(Length::from_feet(feet)));
    assert_eq!(spacing(Material::Steel40, "1/2", Way::Horizontal), feet(6.0));
    assert_eq!(spacing(Material::Steel40, "3/4", Way::Horizontal), feet(8.0));
    assert_eq!(spacing(Material::Steel40, "1", Way::Vertical), feet(8.0));
    assert_eq!(spacing(Material::Steel40, "1-1/4", Way::Horizontal), feet(10.0));
    assert_eq!(
        spacing(Material::Steel40, "2", Way::Vertical),
        Some(Spacing::EveryFloor)
    );
    let copper = [
        ("1/4", None),
        ("3/8", feet(4.0)),
        ("1/2", feet(6.0)),
        ("5/8", feet(6.0)),
        ("3/4", feet(8.0)),
    ];
    for (nominal, expected) in copper {
        for material in [Material::CopperK, Material::CopperL] {
            assert_eq!(spacing(material, nominal, Way::Horizontal), expected, "{nominal}");
        }
    }
    assert_eq!(spacing(Material::CopperL, "1/2", Way::Vertical), feet(6.0));
    assert_eq!(
        spacing(Material::CopperL, "1", Way::Vertical),
        Some(Spacing::EveryFloor)
    );
    // No row is printed for these: no farther apart than the nearest row on the safe side, and marked so.
    for (nominal, way) in [("2", Way::Horizontal), ("3/4", Way::Vertical)] {
        let found = book.support_spacing(Material::CopperL, size(nominal), way).unwrap();
        assert_eq!((Some(found.value), found.mark), (feet(8.0), Mark::Derived), "{nominal}");
    }
    assert_eq!(
        spacing(Material::Csst, "EHD 25", Way::Horizontal),
        Some(Spacing::AsMakerSays)
    );
    assert_eq!(spacing(Material::Pe, "1", Way::Horizontal), None);
}

/// NFPA 54-2012 table 8.3.1.
#[test]
fn long_large_pipe_is_purged_outdoors() {
    let over = |text| {
        Codebook::published()
            .purge_outdoors_over(size(text))
            .map(|found| found.value.feet())
    };
    assert_eq!(over("2"), None);
    assert_eq!(over("2-1/2"), Some(50.0));
    assert_eq!(over("3"), Some(30.0));
    assert_eq!(over("3-1/2"), Some(30.0));
    assert_eq!(over("4"), Some(15.0));
    assert_eq!(over("6"), Some(10.0));
    assert_eq!(over("8"), Some(0.0));
    assert_eq!(over("EHD 62"), None);
}

/// CPC 2013 1211.8 names what needs no sediment trap: ranges, clothes dryers, illuminating appliances, gas fireplaces,
/// outdoor grills. All else needs one.
#[test]
fn only_the_named_appliances_need_no_sediment_trap() {
    let classes = Codebook::published().appliance_classes();
    assert_eq!(classes.len(), 23);
    let exempt = classes.iter().filter(|class| class.trap == Trap::Exempt);
    let names: Vec<_> = exempt.map(|class| class.name).collect();
    let expected = "range, clothes dryer, direct-vent fireplace, gas log, barbecue, gas light, built-in grill";
    assert_eq!(names, expected.split(", ").collect::<Vec<_>>());
}

#[test]
fn the_usual_input_lies_between_low_and_high() {
    for class in Codebook::published().appliance_classes() {
        assert!(class.low <= class.usual && class.usual <= class.high, "{}", class.name);
        assert!(class.low.btuh() >= 2500.0);
    }
    let book = Codebook::published();
    let usual = |name| book.appliance_class(name).map(|class| (class.usual.btuh(), class.mark));
    assert_eq!(usual("Range"), Some((65_000.0, Mark::Found)));
    // Read on a seller's page alone: no published standard.
    assert_eq!(usual("patio heater"), Some((40_000.0, Mark::Memory)));
    assert_eq!(usual("pizza oven"), Some((40_000.0, Mark::Memory)));
    assert_eq!(usual("teleporter"), None);
}

/// Only what stands in NFPA 54-2012 table 5.4.2.1 is marked as read.
#[test]
fn an_input_that_is_read_names_its_table() {
    for class in Codebook::published().appliance_classes() {
        let named = class.source.starts_with("NFPA 54-2012 table 5.4.2.1");
        assert_eq!(class.mark == Mark::Found, named, "{}", class.name);
        assert!(
            named
                || ["common practice, no standard", "from memory"]
                    .iter()
                    .any(|words| class.source.starts_with(words))
        );
    }
}

/// 23 requirements: 18 local, 2 of a state, 1 of a province, 1 of a Canadian municipality, 1 model code. Each item names
/// those that ask for it, as many as it says.
#[test]
fn every_permit_item_names_its_sources() {
    let book = Codebook::published();
    let read = book.permit_sources();
    assert!(read.iter().map(|source| source.number).eq(1..=23));
    let of = |start: &str| read.iter().filter(|source| source.name.starts_with(start)).count();
    let canadian = of("Province of ") + of("District of North Vancouver");
    assert_eq!((of("State of "), canadian, of("model code")), (2, 2, 1));
    for item in book.permit_items() {
        assert_eq!(item.asked_by.len(), item.asked as usize, "{}", item.ask.id());
        assert!(item.asked_by.is_sorted_by(|a, b| a < b), "{}", item.ask.id());
        assert_eq!(item.read as usize, read.len());
        assert!(
            item.asked_by
                .iter()
                .all(|number| read.iter().any(|source| source.number == *number))
        );
        assert_eq!(item.mark == Mark::Found, item.asked > 0, "{}", item.ask.id());
    }
}
