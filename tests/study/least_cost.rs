//! The cheapest sizes: held against every choice of sizes on small houses.

use crate::dice::Dice;
use crate::draft::Draft;
use crate::random_job::random_job;
use crate::small_tree::small_tree;
use crate::wild_job::wild_job;
use std::time::Instant;
use stubout::advice::{Exactness, LeastCost, NoAnswer};
use stubout::codebook::Codebook;
use stubout::job::*;
use stubout::study::Study;
use stubout::units::*;
use stubout::work::{Cost, Price, PriceLine};

const NONE: PressureDrop = PressureDrop::ZERO;

/// So many sizes at prices by chance, which mostly rise with the size.
fn list(dice: &mut Dice, material: Material, many: usize) -> Price {
    let sizes = Codebook::published().sizes(material);
    let first = match material {
        Material::Csst => dice.below(5),
        _ => 2 + dice.below(2),
    };
    let mut per_foot = 1.0;
    let lines = sizes[first..].iter().take(many).map(|pipe| {
        per_foot *= 0.95 + 0.9 * dice.fraction();
        PriceLine {
            material,
            size: pipe.size,
            per_foot,
        }
    });
    Price::List(lines.collect())
}

fn offered(price: &Price) -> Vec<NominalSize> {
    match price {
        Price::List(lines) => lines.iter().map(|line| line.size).collect(),
        Price::Length | Price::Weight => Vec::new(),
    }
}

/// The job with these sizes on its sections.
fn laid(job: &Job, study: &Study, sizes: &[NominalSize]) -> Job {
    let mut job = job.clone();
    for (section, size) in study.sections.iter().zip(sizes) {
        for &run in &section.runs {
            let id = job.runs.at(run).id;
            job.runs.get_mut(id).unwrap().size = Some(*size);
        }
    }
    job
}

/// Whether every outlet keeps its least pressure, or what its zone's drop leaves, by the study of the whole job.
fn enough(study: &Study) -> bool {
    study.outlets.iter().all(|outlet| {
        let zone = &study.zones[study.joints[outlet.joint].zone.unwrap()];
        let least = outlet.least.unwrap_or(zone.inlet.unwrap() - zone.allowed_drop.unwrap());
        outlet.pressure.is_some_and(|found| found.pa() >= least.pa() - 1e-6)
    })
}

fn cost(job: &Job, study: &Study, price: &Price, sizes: &[NominalSize]) -> Option<Cost> {
    let book = Codebook::published();
    let sections = study.sections.iter().zip(sizes);
    sections
        .map(|(section, size)| price.of(book, job.settings.material, *size, section.measured))
        .sum()
}

/// Every choice of sizes, by counting.
fn all_choices(sizes: &[NominalSize], sections: usize) -> impl Iterator<Item = Vec<NominalSize>> {
    let many = sizes.len();
    (0..many.pow(sections as u32)).map(move |number| {
        let digit = |section| sizes[number / many.pow(section as u32) % many];
        (0..sections).map(digit).collect()
    })
}

#[test]
fn no_choice_of_sizes_costs_less() {
    let book = Codebook::published();
    let (mut found, mut none, mut most) = (0, 0, 0);
    for seed in 0..300 {
        let mut dice = Dice::new(seed);
        // Nine sections of two sizes, or few of five: as many choices as can be tried.
        let (sections, many) = [(9, 2), (5, 4), (3, 5), (7, 2), (5, 3)][seed as usize % 5];
        let job = small_tree(seed, sections).job;
        let study = Study::under(&job, book, book.default_profile());
        if !study.network.loop_runs.is_empty() {
            continue;
        }
        let price = list(&mut dice, job.settings.material, many);
        let best = all_choices(&offered(&price), study.sections.len())
            .filter(|sizes| enough(&Study::under(&laid(&job, &study, sizes), book, book.default_profile())))
            .filter_map(|sizes| cost(&job, &study, &price, &sizes))
            .min();
        most = most.max(study.sections.len());
        match LeastCost::of(&job, book, &price, NONE) {
            Ok(ours) => {
                found += 1;
                let sizes: Vec<NominalSize> = ours.sections.iter().map(|section| section.size).collect();
                let laid = laid(&job, &study, &sizes);
                assert!(enough(&Study::of(&laid, book)), "seed {seed}: {ours:?}");
                assert_eq!(cost(&job, &study, &price, &sizes), Some(ours.cost), "seed {seed}");
                assert_eq!((Some(ours.cost), ours.exact), (best, Exactness::Exact), "seed {seed}");
            }
            Err(why) => {
                none += 1;
                assert_eq!((why, best), (NoAnswer::TooLittlePressure, None), "seed {seed}");
            }
        }
    }
    assert!(found > 100 && none > 10 && most >= 9, "{found} {none} {most}");
}

/// 40 ft of steel with 100 cfh: by the study of each size 3/4 in loses 0.197 in w.c. and 1 in 0.063. Of 0.5 in w.c. that
/// may be lost a margin of 0.3 leaves 0.2, one of 0.31 too little for 3/4 in.
#[test]
fn one_pipe_takes_the_least_size_that_serves() {
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    let (from, to) = (draft.at(0, 0, 0), draft.at(8, 0, 0));
    let run = draft.run(from, to, 40.0);
    draft.burner(to, "Grill", 100e3).least_inlet = Some(GaugePressure::from_inches_wc(6.5));
    let book = Codebook::published();
    let lost = |draft: &mut Draft, size: u16| {
        draft.run_mut(run).size = Some(NominalSize::Inch(size));
        Study::of(&draft.job, book).outlets[0].zone_drop.unwrap().inches_wc()
    };
    let [three_quarters, one] = [12, 16].map(|size| lost(&mut draft, size));
    assert!(
        three_quarters > 0.19 && three_quarters < 0.2 && one < 0.07,
        "{three_quarters} {one}"
    );
    draft.run_mut(run).size = None;
    let size = |margin: f64| {
        let found = LeastCost::of(&draft.job, book, &Price::Weight, PressureDrop::from_inches_wc(margin)).unwrap();
        (found.sections[0].size, found.cost.amount())
    };
    // 1.13 lb/ft and 1.68 lb/ft.
    assert_eq!(size(0.0), (NominalSize::Inch(12), 45.2));
    assert_eq!(size(0.3), (NominalSize::Inch(12), 45.2));
    assert_eq!(size(0.31), (NominalSize::Inch(16), 67.2));
}

#[test]
fn what_is_missing_is_named() {
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    let (from, to) = (draft.at(0, 0, 0), draft.at(8, 0, 0));
    let run = draft.run(from, to, 40.0);
    let book = Codebook::published();
    let ask = |draft: &Draft, price: &Price| LeastCost::of(&draft.job, book, price, NONE).unwrap_err();
    assert_eq!(ask(&draft, &Price::Weight), NoAnswer::NoOutlet);
    draft.burner(to, "Grill", 100e3);
    assert_eq!(ask(&draft, &Price::List(Vec::new())), NoAnswer::NoPrice(0));
    draft.run_mut(run).state = State::Existing;
    assert_eq!(ask(&draft, &Price::Weight), NoAnswer::SizeUnknown(0));
    draft.run_mut(run).size = Some(NominalSize::Inch(4));
    assert_eq!(ask(&draft, &Price::Weight), NoAnswer::TooLittlePressure);
}

#[test]
fn any_job_has_an_answer_or_a_reason() {
    let book = Codebook::published();
    for seed in 0..600 {
        let mut dice = Dice::new(seed);
        let size = 1 + dice.below(40);
        let job = if seed % 2 == 0 {
            wild_job(seed, size)
        } else {
            random_job(seed, size)
        };
        if let Ok(found) = LeastCost::of(&job, book, &Price::Length, NONE) {
            assert!(found.cost.amount() >= 0.0, "seed {seed}");
        }
    }
}

#[test]
fn a_street_is_sized_while_one_waits() {
    let book = Codebook::published();
    for runs in [60, 120] {
        let mut job = crate::street::street(runs);
        if let Some(Device::Supply(supply)) = job
            .joints
            .get_mut(JointId(1))
            .unwrap()
            .placed
            .as_mut()
            .map(|placed| &mut placed.device)
        {
            supply.pressure = Some(GaugePressure::from_inches_wc(9.0));
        }
        let start = Instant::now();
        let found = LeastCost::of(&job, book, &Price::Weight, NONE).unwrap();
        println!(
            "{runs} runs: {:?}, {:?}, {} lb for {:?} lb",
            start.elapsed(),
            found.exact,
            found.cost.amount(),
            found.by_method.map(Cost::amount)
        );
        assert!(start.elapsed().as_secs() < 60);
        assert!(
            found
                .by_method
                .is_none_or(|method| found.cost <= method || found.exact == Exactness::Thinned)
        );
    }
}
