//! Pipe and tube against the standards, transcribed a second time.

use std::f64::consts::PI;
use stubout::codebook::{Codebook, Mark, PipeSize};
use stubout::job::Material;
use stubout::units::{NominalSize, Parse};

/// ASME B36.10M, Schedule 40, customary units: NPS, outside diameter, wall; in (from memory, and as `fluids` 1.3.1 has it
/// in rounded millimetres in the last column, bore).
const B36_10M: [(&str, f64, f64, Option<f64>); 13] = [
    ("1/4", 0.540, 0.088, None),
    ("3/8", 0.675, 0.091, Some(12.48)),
    ("1/2", 0.840, 0.109, Some(15.76)),
    ("3/4", 1.050, 0.113, Some(20.96)),
    ("1", 1.315, 0.133, Some(26.64)),
    ("1-1/4", 1.660, 0.140, Some(35.08)),
    ("1-1/2", 1.900, 0.145, Some(40.94)),
    ("2", 2.375, 0.154, Some(52.48)),
    ("2-1/2", 2.875, 0.203, Some(62.68)),
    ("3", 3.500, 0.216, Some(77.92)),
    ("3-1/2", 4.000, 0.226, Some(90.12)),
    ("4", 4.500, 0.237, Some(102.26)),
    ("5", 5.563, 0.258, None),
];

/// ASTM B88: nominal size, outside diameter (the size and 1/8 in), wall of type K and of type L; in (public web tables;
/// 1/4 and 5/8 from memory).
const B88: [(&str, f64, f64, f64); 11] = [
    ("1/4", 0.375, 0.035, 0.030),
    ("3/8", 0.500, 0.049, 0.035),
    ("1/2", 0.625, 0.049, 0.040),
    ("5/8", 0.750, 0.049, 0.042),
    ("3/4", 0.875, 0.065, 0.045),
    ("1", 1.125, 0.065, 0.050),
    ("1-1/4", 1.375, 0.065, 0.055),
    ("1-1/2", 1.625, 0.072, 0.060),
    ("2", 2.125, 0.083, 0.070),
    ("2-1/2", 2.625, 0.095, 0.080),
    ("3", 3.125, 0.109, 0.090),
];

fn sizes(material: Material) -> &'static [PipeSize] {
    Codebook::published().sizes(material)
}

fn size(text: &str) -> NominalSize {
    NominalSize::parse(text).unwrap()
}

/// A length is held to the eighth of a micrometre, 1/203,200 in.
const ROUNDED: f64 = 1.0 / 203_200.0;

/// Holds outside, wall and bore against the standard: bore = outside − 2 · wall.
#[track_caller]
fn check(material: Material, nps: &str, outside: f64, wall: f64) {
    let pipe = Codebook::published().pipe(material, size(nps)).unwrap();
    let bore = pipe.inside.unwrap().value.inches();
    assert!((bore - (outside - 2.0 * wall)).abs() < 5e-4, "{nps}: {bore}");
    assert!(
        (pipe.outside.unwrap().value.inches() - outside).abs() < ROUNDED,
        "{nps}"
    );
    assert!((pipe.wall.unwrap().value.inches() - wall).abs() < ROUNDED, "{nps}");
}

#[test]
fn steel_is_schedule_40_of_asme_b36_10m() {
    assert_eq!(sizes(Material::Steel40).len(), B36_10M.len());
    for (nps, outside, wall, bore_mm) in B36_10M {
        check(Material::Steel40, nps, outside, wall);
        let bore = Codebook::published()
            .inside_diameter(Material::Steel40, size(nps))
            .unwrap();
        // Table A.5.1 ends at 4 in.
        let mark = if nps == "5" { Mark::Memory } else { Mark::Found };
        assert_eq!(bore.mark, mark, "{nps}");
        if let Some(mm) = bore_mm {
            // The standard's millimetres are rounded: up to 0.34 % apart.
            assert!((bore.value.metres() * 1000.0 / mm - 1.0).abs() < 0.0035, "{nps}");
        }
    }
}

#[test]
fn copper_is_types_k_and_l_of_astm_b88() {
    assert_eq!(sizes(Material::CopperK).len(), B88.len());
    assert_eq!(sizes(Material::CopperL).len(), B88.len());
    for (nominal, outside, wall_k, wall_l) in B88 {
        check(Material::CopperK, nominal, outside, wall_k);
        check(Material::CopperL, nominal, outside, wall_l);
    }
}

#[test]
fn polyethylene_is_as_the_heads_of_its_tables_say() {
    let held: Vec<_> = sizes(Material::Pe)
        .iter()
        .map(|pipe| (pipe.size, pipe.sdr.unwrap().value, pipe.inside.unwrap().value.inches()))
        .collect();
    let heads =
        "1/2 9 .660, 3/4 11 .860, 1 11 1.077, 1-1/4 10 1.328, 1-1/2 11 1.554, 2 11 1.943, 3 11 2.864, 4 11 3.682";
    let printed: Vec<_> = heads
        .split(", ")
        .map(|head| {
            let [nominal, sdr, bore] = head.split(' ').collect::<Vec<_>>()[..] else {
                panic!("{head}")
            };
            (size(nominal), sdr.parse().unwrap(), bore.parse().unwrap())
        })
        .collect();
    assert_eq!(held, printed);
}

#[test]
fn sizes_ascend_and_every_column_of_a_table_is_a_size() {
    let book = Codebook::published();
    for material in Material::ALL {
        let sizes = book.sizes(material);
        assert!(sizes.is_sorted_by(|a, b| a.size < b.size), "{material:?}");
        let kind = stubout::codebook::PipeKind::of(material);
        for table in book.tables().iter().filter(|table| table.pipe == kind) {
            for size in table.sizes() {
                assert!(book.pipe(material, *size).is_some(), "{} {size:?}", table.id);
            }
        }
    }
}

/// Volume is `π/4 · d²`; weight is `10.69 (D − t) t` lb/ft within 1.3 % of what is printed.
#[test]
fn volumes_and_weights_follow_from_the_dimensions() {
    for material in [Material::Steel40, Material::CopperK, Material::CopperL, Material::Pe] {
        for pipe in sizes(material) {
            let bore = pipe.inside.unwrap().value.inches();
            let volume = pipe.cubic_feet_per_foot.unwrap().value;
            assert!(
                (volume - PI / 4.0 * bore * bore / 144.0).abs() < 1e-5,
                "{material:?} {:?}",
                pipe.size
            );
        }
    }
    for pipe in sizes(Material::Steel40) {
        let [outside, wall] = [pipe.outside, pipe.wall].map(|length| length.unwrap().value.inches());
        let weight = pipe.pounds_per_foot.unwrap().value;
        assert!(
            (weight / (10.69 * (outside - wall) * wall) - 1.0).abs() < 0.013,
            "{:?}",
            pipe.size
        );
    }
}
