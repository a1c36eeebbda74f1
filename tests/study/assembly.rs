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
use stubout::work::{CutList, StockPlan, TakeOff};

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
        false => {
            let material = job.material(job.runs.at(run));
            (PortKind::of_pipe(material.joining()), study.size(job, run))
        }
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
            !line.remark.contains("the existing line again") && !line.remark.contains("of the drip leg")
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
