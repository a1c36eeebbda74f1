//! Different worksheets from one job: inputs and lengths varied by a seed, each with sizes that no small slip changes.

use super::dice::Dice;
use super::tie::ties;
use crate::codebook::Codebook;
use crate::job::{Device, Job, Run, State, Status};
use crate::pressure::RatingVerdict;
use crate::study::Study;
use crate::units::{HeatRate, Length, NominalSize, Show, UnitSystem};
use std::collections::HashSet;

/// By how much inputs vary, and lengths.
const INPUTS: (f64, f64) = (0.6, 1.4);
const LENGTHS: (f64, f64) = (0.7, 1.4);
/// Shorter runs keep their length, ft.
const SHORT: f64 = 2.0;
/// The most worksheets of a set.
pub const MOST: usize = 200;
/// How many beginnings are tried for a worksheet, and how many changes to each.
const TRIES: usize = 10;
const CHANGES: usize = 200;

/// So many different jobs from one, the same for the same seed.
///
/// Inputs are 60 to 140 % of those of the job, in steps of 1,000 Btu/h under 40,000 and 5,000 above (0.5 kW in metric
/// units); lengths of runs of 2 ft and more that are not measured offsets are 70 to 140 %, in steps of 6 in (100 mm). No
/// section is near a tie ([`super::tie`]), no device over its rating that was not, and no two have the same inputs and
/// lengths.
///
/// # Errors
/// When a section is sized by no printed table, or when no further worksheet was found: which section stands in the way.
pub fn class_set(job: &Job, book: &Codebook, wanted: usize, seed: u64) -> Result<Vec<Job>, String> {
    if wanted == 0 || wanted > MOST {
        return Err(format!("a set has 1 to {MOST} worksheets, not {wanted}"));
    }
    let over = faults(job, book, &Study::of(job, book)).1;
    let (mut seen, mut sizes) = (HashSet::new(), HashSet::new());
    let mut made: Vec<Job> = Vec::with_capacity(wanted);
    for number in 1..=wanted {
        let mut dice = Dice::new(seed, number);
        let mut in_the_way = String::new();
        let mut second = None;
        for _ in 0..TRIES {
            match settled(job, book, over, &mut dice) {
                Ok((one, answers)) => {
                    let is_new = seen.insert(givens(&one));
                    if is_new && sizes.insert(answers) {
                        second = Some(one);
                        break;
                    }
                    // Other answers are better, other inputs and lengths enough.
                    second = second.or(is_new.then_some(one));
                }
                Err(why) => in_the_way = why,
            }
        }
        let Some(mut one) = second else {
            return Err(format!(
                "only {} of {wanted} worksheets found: {in_the_way}. Change inputs, lengths or given sizes there, or ask \
                 for fewer",
                number - 1
            ));
        };
        name(&mut one, number, wanted);
        made.push(one);
    }
    Ok(made)
}

fn name(job: &mut Job, number: usize, of: usize) {
    let title = &mut job.title;
    title.status = Status::Exercise;
    title.drawing = match title.drawing.trim() {
        "" => format!("EX-1-{number:02}"),
        drawing => format!("{drawing}-{number:02}"),
    };
    title.job = format!("{}, {number} of {of}", title.job.trim())
        .trim_start_matches(", ")
        .to_owned();
}

/// What tells two worksheets apart.
fn givens(job: &Job) -> Vec<String> {
    let lengths = job.runs.iter().map(|run| job.true_length(run).exact());
    let inputs = job.joints.iter().filter_map(|joint| input(joint.device()?));
    lengths.chain(inputs.map(|input| input.exact())).collect()
}

fn input(device: &Device) -> Option<HeatRate> {
    match device {
        Device::Appliance(appliance) => appliance.input,
        Device::Cap(cap) => cap.future_input,
        _ => None,
    }
}

fn input_mut(device: &mut Device) -> Option<&mut HeatRate> {
    match device {
        Device::Appliance(appliance) => appliance.input.as_mut(),
        Device::Cap(cap) => cap.future_input.as_mut(),
        _ => None,
    }
}

/// A length that may be varied.
fn is_free(run: &Run, length: Length) -> bool {
    run.state != State::Removed && run.offset.is_none() && length.feet() >= SHORT
}

/// The job with every input and length varied.
fn varied(job: &Job, dice: &mut Dice) -> Job {
    let mut made = job.clone();
    for at in 0..job.joints.len() {
        vary_input(job, &mut made, at, dice);
    }
    for at in 0..job.runs.len() {
        vary_length(job, &mut made, at, dice);
    }
    made
}

fn vary_input(job: &Job, made: &mut Job, joint: usize, dice: &mut Dice) {
    let joint = job.joints.at(joint);
    let placed = joint.placed.as_ref().filter(|placed| placed.state != State::Removed);
    let Some(usual) = placed
        .and_then(|placed| input(&placed.device))
        .filter(|heat| heat.btuh() > 0.0)
    else {
        return;
    };
    let wanted = usual.btuh() * dice.between(INPUTS.0, INPUTS.1);
    let varied = match job.settings.units {
        UnitSystem::Us => {
            let step = if wanted < 40_000.0 { 1_000.0 } else { 5_000.0 };
            HeatRate::from_btuh((wanted / step).round().max(1.0) * step)
        }
        UnitSystem::Metric | UnitSystem::MetricKpa => {
            HeatRate::from_kw((HeatRate::from_btuh(wanted).kw() / 0.5).round().max(1.0) * 0.5)
        }
    };
    let device = made.joints.get_mut(joint.id).and_then(|joint| joint.placed.as_mut());
    if let Some(input) = device.and_then(|placed| input_mut(&mut placed.device)) {
        *input = varied;
    }
}

fn vary_length(job: &Job, made: &mut Job, run: usize, dice: &mut Dice) {
    let run = job.runs.at(run);
    let usual = job.true_length(run);
    if !is_free(run, usual) {
        return;
    }
    let wanted = usual.feet() * dice.between(LENGTHS.0, LENGTHS.1);
    let step = match job.settings.units {
        UnitSystem::Us => Length::from_feet(0.5),
        UnitSystem::Metric | UnitSystem::MetricKpa => Length::from_metres(0.1),
    };
    let steps = (wanted / step.feet()).round().max(1.0);
    if let Some(run) = made.runs.get_mut(run.id) {
        run.length = Some(Length::from_feet(steps * step.feet()));
    }
}

/// Sections near a tie, and how many devices are over their rating.
fn faults(job: &Job, book: &Codebook, study: &Study) -> (Vec<(usize, String)>, usize) {
    let over = study
        .devices
        .iter()
        .filter(|device| device.verdict == RatingVerdict::Exceeded);
    (ties(job, book, study), over.count())
}

/// A job with inputs and lengths changed until nothing in it is near a tie.
///
/// # Errors
/// When that was not found: what stands in the way.
pub(super) fn settle(job: &Job, book: &Codebook, dice: &mut Dice) -> Result<Job, String> {
    settled(job, book, usize::MAX, dice).map(|settled| settled.0)
}

/// A job varied until nothing in it is near a tie, with its sizes.
fn settled(
    usual: &Job,
    book: &Codebook,
    over: usize,
    dice: &mut Dice,
) -> Result<(Job, Vec<Option<NominalSize>>), String> {
    let mut job = varied(usual, dice);
    let mut study = Study::of(&job, book);
    let mut known = faults(&job, book, &study);
    for _ in 0..CHANGES {
        let (near, exceeded) = &known;
        if near.is_empty() && *exceeded <= over {
            let sizes = study.sections.iter().map(|section| section.sizing.size).collect();
            return Ok((job, sizes));
        }
        let mut tried = job.clone();
        let section = dice.pick(near).and_then(|(at, _)| study.sections.get(*at));
        let outlets = section.map_or(0..study.outlets.len(), |section| section.serves.clone());
        if dice.percent(70) || outlets.is_empty() {
            let at = outlets.start + dice.below(outlets.len());
            if let Some(outlet) = study.outlets.get(at) {
                vary_input(usual, &mut tried, outlet.joint, dice);
            }
        } else {
            let run = dice.below(usual.runs.len());
            vary_length(usual, &mut tried, run, dice);
        }
        let then = Study::of(&tried, book);
        let found = faults(&tried, book, &then);
        if found.0.len() + found.1 <= known.0.len() + known.1 {
            (job, study, known) = (tried, then, found);
        }
    }
    Err(match known.0.first() {
        Some((_, why)) => why.clone(),
        None => "a meter or regulator is over its rating".to_owned(),
    })
}
