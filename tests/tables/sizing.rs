//! What own tables do to sizes.

use crate::{INVENTED, METRIC};
use stubout::codebook::{Codebook, Mark};
use stubout::job::{Job, OwnTable};
use stubout::rules::Checked;
use stubout::sizing::{Basis, Verdict};
use stubout::study::explain;
use stubout::units::{Designation, NominalSize};

/// 45 ft of tubing to a heater of 40,000 Btu/h, at 1,000 Btu/ft3: 40 cfh over the row for 50 ft.
const TUBE: &str = r#"(
    version: 1,
    settings: (step: "1'", material: csst),
    gas: (fuel: natural, heating_value: "1000 Btu/ft3"),
    joints: [
        (id: 1, at: (0, 0, 0), device: supply(pressure: "7 in w.c.")),
        (id: 2, at: (45, 0, 0), device: appliance(name: "Invented heater", input: "40,000 Btu/h")),
    ],
    runs: [(id: 1, from: 1, to: 2, bonded: true)],
)"#;

fn with(tables: &[&str]) -> (Codebook, Vec<OwnTable>) {
    let mut book = Codebook::published().clone();
    let named = tables
        .iter()
        .map(|text| book.add_table("own.tsv", text).unwrap())
        .collect();
    (book, named)
}

fn job(text: &str, tables: Vec<OwnTable>) -> Job {
    let mut job = stubout::file::read(text).unwrap();
    job.settings.tables = tables;
    job
}

fn told(checked: &Checked, rule: &str) -> usize {
    checked.findings.iter().filter(|finding| finding.rule == rule).count()
}

#[test]
fn the_makers_table_goes_before_the_codes() {
    // 402.4(15), row 50 ft: EHD 18 carries 38 cfh, EHD 19 43. The invented list: EHD 18 38, EHD 23 80.
    let code = Checked::of(&job(TUBE, Vec::new()), Codebook::published());
    assert_eq!(code.study.sections[0].sizing.size, Some(NominalSize::Ehd(19)));
    assert_eq!(told(&code, "csst-by-ehd"), 1);
    let (book, named) = with(&[INVENTED]);
    let job = job(TUBE, named);
    let own = Checked::of(&job, &book);
    let sizing = &own.study.sections[0].sizing;
    assert_eq!(sizing.size, Some(NominalSize::Ehd(23)));
    assert!(matches!(&sizing.basis, Basis::Table { table, row } if &**table == "Example CT 0.5" && row.feet() == 50.0));
    assert_eq!(
        sizing.capacity().map(|capacity| (capacity.flow.cfh(), capacity.mark)),
        Some((80.0, Mark::Local))
    );
    for rule in [
        "csst-by-ehd",
        "own-table-missing",
        "own-table-changed",
        "size-not-made",
        "no-published-figure",
    ] {
        assert_eq!(told(&own, rule), 0, "{rule}");
    }
    let said = explain(&job, &book, &own.study, 0).join("\n");
    assert!(
        said.contains("Table Example CT 0.5, invented tubing of nobody's")
            && said.contains("(your own table, from Invented tubing list, page 0, edition of no year)"),
        "{said}"
    );
    assert!(said.contains("EHD 23: capacity 80 cfh (L, "), "{said}");
    assert!(
        said.contains("Note to table Example CT 0.5: invented: four bends"),
        "{said}"
    );
    assert!(!said.contains("governs"), "{said}");
    let said = explain(&job, Codebook::published(), &code.study, 0).join("\n");
    assert!(
        said.contains("the tubing manufacturer's own table governs and may allow less"),
        "{said}"
    );
}

#[test]
fn a_table_that_the_job_does_not_name_sizes_nothing() {
    let (book, _) = with(&[INVENTED]);
    let (there, nobody) = (
        Checked::of(&job(TUBE, Vec::new()), &book),
        Checked::of(&job(TUBE, Vec::new()), Codebook::published()),
    );
    assert_eq!(
        there.study.sections[0].sizing.size,
        nobody.study.sections[0].sizing.size
    );
}

#[test]
fn a_table_that_is_not_at_hand_blocks() {
    let (_, named) = with(&[INVENTED]);
    let checked = Checked::of(&job(TUBE, named), Codebook::published());
    assert_eq!(told(&checked, "own-table-missing"), 1);
    assert!(!checked.is_clear());
}

#[test]
fn where_no_own_table_serves_the_published_one_is_taken_and_says_so() {
    let (book, named) = with(&[&INVENTED
        .replace("inlet\tunder 2 psi", "inlet\t2 psi")
        .replace("0.5 in w.c.\nunit", "1 psi\nunit")]);
    let checked = Checked::of(&job(TUBE, named), &book);
    let sizing = &checked.study.sections[0].sizing;
    assert!(matches!(&sizing.basis, Basis::Table { table, .. } if &**table == "402.4(15)"));
    let passed_over = "None of your own tables is for this inlet and drop (Example CT 0.5): the published one is used.";
    assert!(
        sizing.remarks.iter().any(|remark| remark == passed_over),
        "{:?}",
        sizing.remarks
    );
}

#[test]
fn past_its_last_row_an_own_table_is_not_gone_on_from() {
    let (book, named) = with(&[INVENTED]);
    let checked = Checked::of(&job(&TUBE.replace("(45, 0, 0)", "(200, 0, 0)"), named), &book);
    assert!(
        matches!(&checked.study.sections[0].sizing.basis, Basis::Nothing(why) if why.contains("past the last row that this program has of table Example CT 0.5"))
    );
    assert_eq!(told(&checked, "past-table"), 1);
}

#[test]
fn a_maker_names_sizes_as_it_likes() {
    let table = INVENTED.replace(
        "EHD 13\tEHD 18\tEHD 23\tEHD 30\tEHD 37\tEHD 46",
        "type 3/8\ttype 1/2\ttype 3/4\ttype 1\ttype 1-1/4\ttype 1-1/2",
    );
    let (book, named) = with(&[&table]);
    let checked = Checked::of(&job(TUBE, named.clone()), &book);
    let size = NominalSize::Named(Designation::new("3/4").unwrap());
    let section = &checked.study.sections[0];
    assert_eq!(
        (section.sizing.size, section.sizing.verdict),
        (Some(size), Verdict::Carries)
    );
    // 80 cfh lose 0.5 in w.c. over 50 ft of it; 40 cfh lose less over 45 ft, and more than nothing.
    let lost = checked.study.outlets[0]
        .pressure
        .map(|pressure| 7.0 - pressure.inches_wc());
    assert!(lost.is_some_and(|lost| lost > 0.05 && lost < 0.45), "{lost:?}");
    assert_eq!(told(&checked, "size-not-made"), 0);
    let existing = TUBE.replace("bonded: true", "state: existing, size: \"type 3/8\"");
    let checked = Checked::of(&job(&existing, named), &book);
    assert_eq!(checked.study.sections[0].sizing.verdict, Verdict::TooSmall);
    let nobody = Checked::of(&job(&existing, Vec::new()), Codebook::published());
    assert_eq!(told(&nobody, "size-not-made"), 1);
}

#[test]
fn metric_tables_size_metric_jobs() {
    // 10.5 kW at 37.26 MJ/m3 (1,000 Btu/ft3) are 1.01 m3/h: over 18 m, the row for 20 m carries 1.0 in 20 mm, 2.0 in 25 mm.
    let text = TUBE
        .replace("material: csst", "material: pe, units: metric")
        .replace("\"1'\"", "\"400 mm\"")
        .replace("7 in w.c.", "20 mbar")
        .replace("40,000 Btu/h", "10.5 kW");
    let (book, named) = with(&[METRIC]);
    let job = job(&text, named);
    let checked = Checked::of(&job, &book);
    let sizing = &checked.study.sections[0].sizing;
    assert_eq!(sizing.size, Some(NominalSize::Millimeter(250)), "{sizing:?}");
    let capacity = sizing.capacity().unwrap();
    assert!(
        (capacity.flow.m3h() - 2.0).abs() < 1e-9 && capacity.mark == Mark::Found,
        "{capacity:?}"
    );
    // No bore is known, so no pressure is made up.
    assert_eq!(checked.study.outlets[0].pressure, None);
    let read = stubout::file::read(&stubout::file::write(&job)).unwrap();
    assert_eq!(read, job);
}

/// A maker's table for 50 mbar says nothing of 20 mbar, whatever it would carry there.
#[test]
fn an_own_table_serves_nothing_below_its_inlet() {
    let higher = METRIC
        .replace("20 mbar", "50 mbar")
        .replace("Example PE 1 mbar", "Example PE 50");
    let text = TUBE
        .replace("material: csst", "material: pe, units: metric")
        .replace("\"1'\"", "\"400 mm\"")
        .replace("40,000 Btu/h", "10.5 kW");
    for (inlet, named_table) in [("20 mbar", "Example PE 1 mbar"), ("50 mbar", "Example PE 50")] {
        let (book, named) = with(&[METRIC, &higher]);
        let checked = Checked::of(&job(&text.replace("7 in w.c.", inlet), named), &book);
        let basis = &checked.study.sections[0].sizing.basis;
        assert!(
            matches!(basis, Basis::Table { table, .. } if &**table == named_table),
            "{inlet}: {basis:?}"
        );
    }
    let (book, named) = with(&[&higher]);
    let checked = Checked::of(&job(&text.replace("7 in w.c.", "20 mbar"), named), &book);
    let basis = &checked.study.sections[0].sizing.basis;
    assert!(
        !matches!(basis, Basis::Table { table, .. } if &**table == "Example PE 50"),
        "{basis:?}"
    );
}

/// Where a profile lets an equation size everything, a table of one's own still goes first.
#[test]
fn an_own_table_goes_before_an_equation() {
    let own = "id\tOffice steel\ntitle\tinvented\nfuel\tnatural\npipe\tsteel\ninlet\tunder 2 psi\ndrop\t0.5 in w.c.\nunit\tcfh\n\
               document\tinvented\n\nlength_ft\t1/2\t3/4\t1\n10\t20\t39\t41\n100\t20\t39\t41\n";
    let (book, named) = with(&[own]);
    let text = TUBE.replace(
        "material: csst",
        "material: steel, profile: \"metric-equation\", allowed_drop: \"0.5 in w.c.\"",
    );
    let equation = Checked::of(&job(&text, Vec::new()), &book);
    assert!(matches!(
        &equation.study.sections[0].sizing.basis,
        Basis::Equation { .. }
    ));
    let checked = Checked::of(&job(&text, named), &book);
    assert_eq!(checked.study.sections[0].sizing.size, Some(NominalSize::Inch(16)));
    assert!(
        matches!(&checked.study.sections[0].sizing.basis, Basis::Table { table, .. } if &**table == "Office steel")
    );
}
