//! The one account of what stands at joints: every end meets one port of its kind and size, and all lists read it.

use crate::random_job::random_job;
use crate::wild_job::wild_job;
use std::collections::HashSet;
use stubout::codebook::Codebook;
use stubout::fittings::{Fitting, FittingKind, Owner, Port, PortKind, Takes};
use stubout::job::*;
use stubout::rules::Findings;
use stubout::sizing::Origin;
use stubout::study::{Place, Study};
use stubout::units::NominalSize;
use stubout::work::{CutList, Quantity, StockPlan, TakeOff};

/// The ports of what stands at a joint once the work is done, each with its owner.
fn ports(study: &Study, joint: usize) -> Vec<(Owner, Port)> {
    let here = &study.assemblies[joint];
    let device = here.device.iter().map(|port| (Owner::Device, *port));
    let fittings = here
        .fittings
        .clone()
        .filter(|&at| study.fittings[at].state != State::Removed);
    let fittings = fittings.flat_map(|at| {
        study.fittings[at]
            .ports
            .iter()
            .map(move |port| (Owner::Fitting(at), *port))
    });
    device.chain(fittings).collect()
}

fn is_hose(study: &Study, run: usize) -> bool {
    let section = study.runs[run].section.map(|section| &study.sections[section]);
    section.is_some_and(|section| section.sizing.origin == Origin::Connector)
}

/// What the end of a run is, and its size.
fn end(job: &Job, study: &Study, run: usize) -> (PortKind, Option<NominalSize>) {
    match is_hose(study, run) {
        true => (PortKind::Connector, None),
        false => (PortKind::of_pipe(job.joining(job.runs.at(run))), study.size(job, run)),
    }
}

fn alike(one: Option<NominalSize>, other: Option<NominalSize>) -> bool {
    one.is_none() || other.is_none() || one == other
}

/// Every end of pipe meets one port of its kind and size; every port is taken by what it fits, or is an open end.
fn fits(job: &Job, seed: u64) {
    let book = Codebook::published();
    let study = Study::of(job, book);
    let findings = Findings::of(job, book, &study);
    for joint in 0..job.joints.len() {
        let at = format!(
            "seed {seed}, {}: {:#?}",
            job.joints.at(joint).id,
            study.assemblies[joint]
        );
        let here = ports(&study, joint);
        let legs: Vec<usize> = study
            .network
            .legs(joint)
            .filter(|&run| job.runs.at(run).state != State::Removed)
            .collect();
        let assembly = &study.assemblies[joint];
        for &run in &legs {
            let (kind, size) = end(job, &study, run);
            let met: Vec<&Port> = here
                .iter()
                .map(|(_, port)| port)
                .filter(|port| port.takes == Takes::Run(run))
                .collect();
            let open = legs.len() == 1 && job.joints.at(joint).device().is_none();
            match met.as_slice() {
                [] => assert!(open || assembly.through, "R{} meets nothing: {at}", run + 1),
                [port] if port.kind == kind.mate() => {
                    assert!(alike(port.size, size), "{port:?} takes {size:?}: {at}");
                    // A size is known of all but threads that lead to tubing, and where there is no such thread.
                    let threaded = size.is_some_and(|size| book.pipe(Material::Steel40, size).is_some());
                    assert!(
                        port.size.is_some() || !(kind == PortKind::MaleThread && threaded),
                        "{at}"
                    );
                }
                [port] => {
                    // The male end of a street elbow: straight into a female port at the other end, or found.
                    assert_eq!(port.kind, kind, "{at}");
                    let street = &study.fittings[assembly.fittings.start];
                    assert_eq!(street.kind, FittingKind::StreetElbow90, "{at}");
                    let run_of = job.runs.at(run);
                    let other = if run_of.from == job.joints.at(joint).id {
                        run_of.to
                    } else {
                        run_of.from
                    };
                    let other = job.joints.position(other).unwrap();
                    let beyond = study.port_of(run, other).map(|(_, port)| *port);
                    let straight =
                        beyond.is_some_and(|beyond| beyond.kind == port.kind.mate() && alike(beyond.size, port.size));
                    let place = Place::Joint(job.joints.at(joint).id);
                    let told = findings
                        .iter()
                        .any(|found| found.rule == "street-elbow-piped" && found.place == place);
                    match assembly.direct == Some(run) {
                        true => assert!(straight && !told, "{at}"),
                        false => assert!(told || street.state != State::New || street.sizes.is_empty(), "{at}"),
                    }
                }
                _ => panic!("R{} meets {met:?}: {at}", run + 1),
            }
        }
        for (owner, port) in &here {
            let back = match port.takes {
                Takes::Run(run) => {
                    assert!(legs.contains(&run), "{port:?}: {at}");
                    continue;
                }
                Takes::Nothing => {
                    let device = job.joints.at(joint).device();
                    assert!(
                        legs.len() < 2 && device.is_some(),
                        "{port:?} of {owner:?} is open: {at}"
                    );
                    continue;
                }
                Takes::Fitting(fitting) => Owner::Fitting(fitting),
                Takes::Device => Owner::Device,
            };
            let own = match owner {
                Owner::Fitting(fitting) => Takes::Fitting(*fitting),
                Owner::Device => Takes::Device,
            };
            let mates: Vec<&Port> = here
                .iter()
                .filter(|(it, port)| *it == back && port.takes == own)
                .map(|(_, port)| port)
                .collect();
            assert_eq!(mates.len(), 1, "{port:?}: {at}");
            assert_eq!(mates[0].kind, port.kind.mate(), "{at}");
            assert!(mates[0].size == port.size, "{port:?} and {:?}: {at}", mates[0]);
        }
        if let Some(device) = job.joints.at(joint).device()
            && legs.len() == 1
            && !is_hose(&study, legs[0])
        {
            // A trap is a tee, a cap a fitting: their ports are the fittings'.
            let among_fittings = matches!(device, Device::SedimentTrap(_) | Device::Cap(_));
            assert!(
                among_fittings != assembly.device.iter().any(|port| port.takes != Takes::Nothing),
                "{at}"
            );
        }
    }
}

#[test]
fn every_end_meets_one_port_of_its_kind_and_size_on_random_jobs() {
    for seed in 0..500 {
        fits(&random_job(seed, 1 + seed as usize % 40), seed);
    }
}

/// A job with plugs for branches to come: a cap at every third joint of two or three runs where nothing stands.
fn plugged(seed: u64) -> Job {
    let mut job = random_job(seed, 1 + seed as usize % 40);
    let legs = |job: &Job, id: JointId| job.runs.iter().filter(|run| run.from == id || run.to == id).count();
    let ids: Vec<JointId> = job.joints.iter().map(|joint| joint.id).collect();
    for id in ids {
        let runs = legs(&job, id);
        let joint = job.joints.get_mut(id).unwrap();
        if joint.placed.is_none() && matches!(runs, 2 | 3) && u64::from(id.0) % 3 == seed % 3 {
            joint.placed = Some(Placed::new(Device::Cap(Cap::default())));
        }
    }
    job
}

#[test]
fn every_plug_closes_the_outlet_of_a_tee_on_random_jobs() {
    let mut plugs = 0;
    for seed in 0..300 {
        let job = plugged(seed);
        fits(&job, seed);
        lists_agree(&job, seed);
        let study = Study::of(&job, Codebook::published());
        let new = study.fittings.iter().filter(|it| it.state == State::New);
        plugs += new.filter(|it| it.kind == FittingKind::Plug).count();
    }
    assert!(plugs > 100, "{plugs}");
}

/// A job of which every part is new, with its copper flared and without street elbows, which have nuts of their own.
fn flared(seed: u64) -> Job {
    let mut job = random_job(seed, 1 + seed as usize % 40);
    job.settings.copper = CopperJoints::Flared;
    let runs: Vec<RunId> = job.runs.iter().map(|run| run.id).collect();
    for id in runs {
        job.runs.get_mut(id).unwrap().state = State::New;
    }
    let joints: Vec<JointId> = job.joints.iter().map(|joint| joint.id).collect();
    for id in joints {
        let joint = job.joints.get_mut(id).unwrap();
        joint.turn = Turn::Elbow;
        if let Some(placed) = &mut joint.placed {
            placed.state = State::New;
        }
    }
    job
}

/// Each end of flared tube that goes into something has one nut, each coupling within a run two more.
#[test]
fn there_are_as_many_flare_nuts_as_ends_of_flared_tube_on_random_jobs() {
    let book = Codebook::published();
    let mut all = 0;
    for seed in 0..300 {
        let job = flared(seed);
        let study = Study::of(&job, book);
        let cuts = CutList::of(&job, &study, book);
        let stock = StockPlan::of(&cuts, &study, book);
        let lines = TakeOff::of(&job, &study, book, &cuts, &stock).lines;
        let count = |what: &str| -> usize {
            let of_it = lines.iter().filter(|line| line.what == what);
            of_it
                .map(|line| match line.quantity {
                    Quantity::Count(count) => count,
                    _ => panic!("{line:?}"),
                })
                .sum()
        };
        let copper = |run: usize| matches!(job.material(job.runs.at(run)), Material::CopperK | Material::CopperL);
        let copper = |run: &usize| copper(*run) && !is_hose(&study, *run);
        let ends = (0..job.runs.len()).filter(copper).flat_map(|run| {
            let run = job.runs.at(run);
            [run.from, run.to]
        });
        let ends = ends.filter(|&end| {
            let joint = job.joints.position(end).unwrap();
            study.network.legs(joint).count() > 1 || job.joints.at(joint).device().is_some()
        });
        let inside = cuts
            .pieces
            .iter()
            .filter(|piece| matches!(piece.material, Material::CopperK | Material::CopperL));
        let nuts = ends.count() + inside.map(|piece| 2 * piece.couplings()).sum::<usize>();
        assert_eq!(count("flare nut"), nuts, "seed {seed}");
        // What reduces or leads to a thread has a nut of its own where it is put on a fitting.
        assert!(count("flared joint to be made up") >= nuts, "seed {seed}");
        assert_eq!(count("brazed joint to be made"), 0);
        all += nuts;
    }
    assert!(all > 1000, "{all}");
}

/// How copper is joined changes parts and nothing else: lengths, sizes and pressures are the same.
#[test]
fn flared_and_brazed_copper_differ_in_parts_alone() {
    let book = Codebook::published();
    for seed in 0..200 {
        let studied = |copper: CopperJoints| {
            let mut job = random_job(seed, 1 + seed as usize % 40);
            job.settings.copper = copper;
            let study = Study::of(&job, book);
            let cuts = CutList::of(&job, &study, book);
            let cuts: Vec<_> = cuts
                .pieces
                .iter()
                .map(|piece| (piece.cut(), piece.is_known()))
                .collect();
            let kinds: Vec<_> = study.fittings.iter().map(|it| (it.kind, it.sizes.clone())).collect();
            (format!("{:?} {:?}", study.sections, study.outlets), cuts, kinds)
        };
        assert_eq!(
            studied(CopperJoints::Brazed),
            studied(CopperJoints::Flared),
            "seed {seed}"
        );
    }
}

/// Count, take-off, cut list and numbers of joints say the same of every joint.
fn lists_agree(job: &Job, seed: u64) {
    let book = Codebook::published();
    let study = Study::of(job, book);
    let cuts = CutList::of(job, &study, book);
    let stock = StockPlan::of(&cuts, &study, book);
    let take_off = TakeOff::of(job, &study, book, &cuts, &stock);
    let place = |joint: usize| Place::Joint(job.joints.at(joint).id);
    let told = |what: &str, state: State, joint: usize| {
        let lines = take_off
            .lines
            .iter()
            .filter(|line| line.what == what && line.state == state);
        // The cap of a drip leg is told beside its nipple.
        let lines = lines.filter(|line| {
            !line.remark.contains("the existing line up again") && !line.remark.contains("of the drip leg")
        });
        lines
            .flat_map(|line| &line.places)
            .filter(|&&at| at == place(joint))
            .count()
    };
    let mut seen = HashSet::new();
    for fitting in &study.fittings {
        if !seen.insert((fitting.kind, fitting.state, fitting.joint)) {
            continue;
        }
        let alike =
            |other: &&Fitting| (other.kind, other.state, other.joint) == (fitting.kind, fitting.state, fitting.joint);
        let count = study.fittings.iter().filter(alike).count();
        let names = match fitting.kind {
            FittingKind::TrapNipple => vec!["drip-leg nipple".to_owned()],
            FittingKind::Nipple => vec!["nipple".to_owned(), "close nipple".to_owned()],
            // A counter keeps end fittings with either thread.
            kind => vec![kind.name(), format!("{}, female thread", kind.name())],
        };
        let told = |name: &String| told(name, fitting.state, fitting.joint);
        let lines: usize = names.iter().map(told).sum();
        assert_eq!(lines, count, "seed {seed}: {fitting:?}");
    }
    for piece in &cuts.pieces {
        for (end, run) in piece.ends.iter().zip([piece.runs[0], piece.runs[piece.runs.len() - 1]]) {
            let name = match study.port_of(run, end.joint) {
                Some((Owner::Fitting(at), _)) => study.fittings[at].kind.name(),
                Some((Owner::Device, _)) => job.joints.at(end.joint).device().unwrap().name().to_owned(),
                None if study.assemblies[end.joint].through => "goes through".to_owned(),
                None => "open end".to_owned(),
            };
            assert!(
                end.what == name || end.what.starts_with(&format!("{name} on ")),
                "seed {seed}: {end:?}, not {name}"
            );
        }
    }
    let new_nipples = study
        .fittings
        .iter()
        .filter(|it| (it.kind, it.state) == (FittingKind::Nipple, State::New));
    assert_eq!(cuts.nipples.len(), new_nipples.count());
}

#[test]
fn no_two_lists_name_a_joint_differently_on_random_jobs() {
    for seed in 0..500 {
        lists_agree(&random_job(seed, 1 + seed as usize % 40), seed);
    }
}

#[test]
fn any_job_gives_an_account() {
    for seed in 0..300 {
        let job = wild_job(seed, 12);
        let study = Study::of(&job, Codebook::published());
        assert_eq!(study.assemblies.len(), job.joints.len());
    }
}
