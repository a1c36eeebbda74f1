//! Sizes every section.
//!
//! Fittings lengthen the way and the longer way may want larger pipe, whose fittings are longer: rounds are made until
//! nothing changes. Lengths and sizes only grow from round to round.

use super::carrier::{Carrier, Carriers, sentence};
use super::{Basis, DesignLength, LengthRule, Origin, Section, SizeCapacity, Sizing, Verdict, carries};
use crate::codebook::{Mark, SizeNames};
use crate::job::{Material, Method, State};
use crate::network::{Course, Ends, Stretch, Survey};
use crate::pressure::{Bores, Obstacles};
use crate::units::{Flow, Length, NominalSize, Show};

/// Rounds after which sizes that still change are taken as they are. Each round that changes anything makes a section
/// one size larger at least; in practice two rounds do.
const ROUNDS: usize = 12;

/// What tells capacities in every zone and material that pipe is in.
pub(crate) struct Capacities<'a>(Vec<Option<Carriers<'a>>>);

impl<'a> Capacities<'a> {
    pub(crate) fn of(survey: &Survey<'a>) -> Capacities<'a> {
        let mut carriers: Vec<Option<Carriers>> = Vec::new();
        carriers.resize_with(survey.zones.len() * Material::ALL.len(), || None);
        for stretch in &survey.stretches {
            if let Some(zone) = survey.zone_of(stretch) {
                let place = place(zone, stretch.material);
                if carriers[place].is_none() {
                    carriers[place] = Some(Carriers::of(survey, zone, stretch.material));
                }
            }
        }
        Capacities(carriers)
    }

    /// What tells the capacities of a stretch at a length.
    pub(crate) fn at<'c>(&'c self, survey: &'c Survey<'a>, stretch: &Stretch, length: Length) -> Carrier<'c, 'a> {
        let zone = survey.zone_of(stretch);
        match zone.and_then(|zone| self.0[place(zone, stretch.material)].as_ref()) {
            Some(carriers) => carriers.at(survey, length),
            None => Carrier::Nothing(""),
        }
    }
}

/// Sizes and the lengths that they were found by, for each section.
pub(crate) struct Settled {
    pub(crate) sizes: Vec<Option<NominalSize>>,
    pub(crate) designs: Vec<DesignLength>,
}

impl Settled {
    /// For each section the size on the drawing.
    pub(crate) fn drawn(&self, survey: &Survey) -> Vec<Option<NominalSize>> {
        let sized = survey.stretches.iter().zip(&self.sizes);
        sized.map(|(stretch, &found)| on_drawing(stretch, found).1).collect()
    }
}

/// Makes rounds until sizes and lengths agree.
pub(crate) fn settle(survey: &Survey, obstacles: &Obstacles, capacities: &Capacities) -> Settled {
    let given = |stretch: &Stretch| stretch.given.filter(|_| stretch.course == Course::Pipe);
    let mut sizes: Vec<Option<NominalSize>> = survey.stretches.iter().map(given).collect();
    let mut added = added(survey, obstacles, &sizes);
    let mut designs = self::designs(survey, &added);
    for _ in 0..ROUNDS {
        for ((stretch, size), design) in survey.stretches.iter().zip(&mut sizes).zip(&designs) {
            if stretch.given.is_none() && stretch.course == Course::Pipe {
                *size = found(survey, capacities, stretch, design.total()).max(*size);
            }
        }
        let longer = self::added(survey, obstacles, &sizes);
        if longer == added {
            break;
        }
        added = longer;
        designs = self::designs(survey, &added);
    }
    Settled { sizes, designs }
}

/// The sections with their lengths and sizes, judged by the loads that the survey holds.
pub(crate) fn judged(survey: &Survey, capacities: &Capacities, settled: Settled) -> Vec<Section> {
    let Settled { sizes, designs } = settled;
    let sized = survey.stretches.iter().zip(designs).zip(numbers(survey)).enumerate();
    sized
        .map(|(at, ((stretch, design), number))| {
            let sizing = match stretch.course {
                Course::Pipe => {
                    let carrier = capacities.at(survey, stretch, design.total());
                    judge(survey, stretch, &carrier, sizes[at], design.row.map(|row| row.mark))
                }
                Course::Connector => connector(),
            };
            let (first, count) = survey.served[stretch.to];
            Section {
                number,
                from: stretch.from,
                to: stretch.to,
                runs: survey.runs_of(stretch).to_vec(),
                fed_by: stretch.fed_by,
                zone: survey.zone_of(stretch).unwrap_or_default(),
                material: stretch.material,
                state: stretch.state,
                measured: stretch.measured,
                load: survey.load_of(stretch),
                serves: first..first + count,
                design,
                sizing,
            }
        })
        .collect()
}

/// The number of each section: pipe is counted first, so that the schedule on paper has no gaps.
fn numbers(survey: &Survey) -> impl Iterator<Item = usize> {
    let courses = || survey.stretches.iter().map(|stretch| stretch.course);
    let mut pipe = 1;
    let mut connector = 1 + courses().filter(|course| *course == Course::Pipe).count();
    courses().map(move |course| {
        let next = match course {
            Course::Pipe => &mut pipe,
            Course::Connector => &mut connector,
        };
        std::mem::replace(next, *next + 1)
    })
}

/// The length that sizes each section, with its fittings at given sizes.
pub(crate) fn lengths(survey: &Survey, obstacles: &Obstacles, sizes: &[Option<NominalSize>]) -> Vec<DesignLength> {
    designs(survey, &added(survey, obstacles, sizes))
}

/// The size that the method finds for a stretch at a length.
pub(crate) fn found(
    survey: &Survey,
    capacities: &Capacities,
    stretch: &Stretch,
    design: Length,
) -> Option<NominalSize> {
    let needed = least(survey, stretch, &capacities.at(survey, stretch, design));
    drawn(survey, stretch, needed)
}

const fn place(zone: usize, material: Material) -> usize {
    zone * Material::ALL.len() + material as usize
}

/// For each section what is added for fittings from the point of delivery to its end, at the sizes found so far.
fn added(survey: &Survey, obstacles: &Obstacles, sizes: &[Option<NominalSize>]) -> Vec<Length> {
    let bores = Bores::new(survey, sizes);
    let mut added = Vec::with_capacity(survey.stretches.len());
    for (section, stretch) in survey.stretches.iter().enumerate() {
        let before = stretch.fed_by.map_or(Length::ZERO, |before: usize| added[before]);
        added.push(before + obstacles.added(survey, &bores, section));
    }
    added
}

/// The length that sizes each section.
fn designs(survey: &Survey, added: &[Length]) -> Vec<DesignLength> {
    if added.iter().all(|added| *added == Length::ZERO) {
        return lead(survey, &survey.ends, &survey.distance);
    }
    // For each joint the way from the point of delivery with all that is added on it.
    let mut way = survey.distance.clone();
    for &joint in &survey.network.order {
        if let Some(section) = survey.network.feed[joint].and_then(|run| survey.section_of[run]) {
            way[joint] += added[section];
        }
    }
    lead(survey, &Ends::find(&survey.network, &survey.devices, &way), &way)
}

/// To which end each section leads, and how far by the `way` of each joint: up to the row of the profile, where it has
/// any, and then times its factor for fittings.
fn lead(survey: &Survey, ends: &Ends, way: &[Length]) -> Vec<DesignLength> {
    let factor = survey.profile.fittings.factor();
    let design = |stretch: &Stretch| {
        let zone = survey.zone_of(stretch).map(|zone| &survey.zones[zone]);
        let start = zone.map_or(stretch.from, |zone| zone.start);
        let farthest = ends.behind(start).unwrap_or(stretch.to);
        let to = match zone.map(|zone| zone.method) {
            Some(Method::LongestLength) => farthest,
            Some(Method::BranchLength) | None => ends.before(stretch.to),
        };
        let measured = survey.distance[to] - survey.distance[start];
        let way = way[to] - way[start];
        let row = survey.profile.row_for(way);
        let counted = row.map_or(way, |row| row.value);
        DesignLength {
            rule: if to == farthest {
                LengthRule::Longest
            } else {
                LengthRule::Branch
            },
            to,
            measured,
            fittings: (way - measured) + (counted.times(factor) - counted),
            row,
            rounding: counted - way,
        }
    };
    survey.stretches.iter().map(design).collect()
}

/// The least size that the method finds; none without a load.
fn least(survey: &Survey, stretch: &Stretch, carrier: &Carrier) -> Option<NominalSize> {
    let load = survey.load_of(stretch).flow;
    (load.cfh() > 0.0).then(|| carrier.least(load)).flatten()
}

/// The size to draw where the method decides: never under the profile's least.
fn drawn(survey: &Survey, stretch: &Stretch, needed: Option<NominalSize>) -> Option<NominalSize> {
    needed.map(|needed| least_allowed(survey, stretch).map_or(needed, |least| needed.max(least)))
}

/// The profile's least size, which is one of steel pipe; pipe that feeds an outlet of that size cannot be smaller.
fn least_allowed(survey: &Survey, stretch: &Stretch) -> Option<NominalSize> {
    let least = survey.profile.least_size?.value;
    stretch.material.is_rigid().then_some(least)
}

/// What is said of a flexible line to an appliance: it has no size of pipe.
fn connector() -> Sizing {
    Sizing {
        size: None,
        origin: Origin::Connector,
        needed: None,
        basis: Basis::Nothing("a hose or connector, judged by its own rating".to_owned()),
        capacities: Vec::new(),
        verdict: Verdict::Unknown,
        remarks: Vec::new(),
    }
}

/// The size on the drawing, and where it comes from; `found` is what the method finds.
fn on_drawing(stretch: &Stretch, found: Option<NominalSize>) -> (Origin, Option<NominalSize>) {
    match (stretch.course, stretch.state, stretch.given) {
        (Course::Connector, ..) => (Origin::Connector, None),
        (Course::Pipe, State::Existing, Some(size)) => (Origin::Known, Some(size)),
        (Course::Pipe, State::Existing, None) => (Origin::Unknown, None),
        (Course::Pipe, _, Some(size)) => (Origin::Fixed, Some(size)),
        (Course::Pipe, _, None) => (Origin::Found, found),
    }
}

/// A section against its load.
pub(crate) struct Held {
    /// What its size on the drawing is good for.
    pub(crate) capacity: Option<Flow>,
    pub(crate) verdict: Verdict,
}

/// Holds the size on the drawing against the load.
pub(crate) fn held(survey: &Survey, stretch: &Stretch, carrier: &Carrier, size: Option<NominalSize>) -> Held {
    let load = survey.load_of(stretch);
    let capacity = size.and_then(|size| carrier.capacity(size)).map(|carried| carried.flow);
    let verdict = match capacity {
        Some(capacity) if load.flow.cfh() > 0.0 && !carries(capacity, load.flow) => Verdict::TooSmall,
        Some(_) if load.flow.cfh() > 0.0 && load.unknown == 0 => Verdict::Carries,
        _ => Verdict::Unknown,
    };
    Held { capacity, verdict }
}

/// `row` is how sure the row is that the profile took the length to.
fn judge(
    survey: &Survey,
    stretch: &Stretch,
    carrier: &Carrier,
    found: Option<NominalSize>,
    row: Option<Mark>,
) -> Sizing {
    let needed = least(survey, stretch, carrier);
    let (origin, size) = on_drawing(stretch, found);
    let Held { capacity, verdict } = held(survey, stretch, carrier, size);
    let mut remarks = Vec::new();
    let mut remark = |text: &str| {
        if !remarks.iter().any(|old| old == text) {
            remarks.push(text.to_owned());
        }
    };
    for text in carrier.remarks() {
        remark(&sentence(text));
    }
    for text in [size, needed]
        .into_iter()
        .flatten()
        .filter_map(|size| carrier.cell_remark(size))
    {
        remark(&sentence(text));
    }
    say_what_is_missing(
        survey,
        stretch,
        carrier,
        (size, needed),
        capacity.is_some(),
        &mut remark,
    );
    Sizing {
        size,
        origin,
        needed,
        basis: carrier.basis(),
        capacities: beside(carrier, size, needed, row),
        verdict,
        remarks,
    }
}

fn say_what_is_missing(
    survey: &Survey,
    stretch: &Stretch,
    carrier: &Carrier,
    (size, needed): (Option<NominalSize>, Option<NominalSize>),
    has_capacity: bool,
    remark: &mut impl FnMut(&str),
) {
    let load = survey.load_of(stretch);
    let names = SizeNames::of(&survey.job.settings, survey.profile);
    let units = names.units();
    let named = |size| names.show(stretch.material, size);
    match load.unknown {
        0 => {}
        1 => remark("The input of one appliance is not entered: it adds nothing to this load."),
        many => remark(&format!(
            "The inputs of {many} appliances are not entered: they add nothing to this load."
        )),
    }
    let published = !matches!(carrier, Carrier::Past { .. } | Carrier::Nothing(_));
    if load.flow.cfh() <= 0.0 {
        remark("No load is known downstream, so no size is found.");
    } else if needed.is_none() && published {
        remark(&format!(
            "No published size has capacity for {} over this length.",
            load.flow.show(units)
        ));
    }
    if let (Some(size), false, true) = (size, has_capacity, published) {
        remark(&format!("No capacity is published for {} here.", named(size)));
    }
    if let (Some(size), Some(least)) = (size, least_allowed(survey, stretch)) {
        if stretch.given.is_none() && needed.is_some_and(|needed| needed < size) && size == least {
            remark(&format!(
                "{} would have capacity, but the profile allows nothing smaller than {}.",
                needed.map_or_else(|| "none".to_owned(), named),
                named(least)
            ));
        } else if size < least {
            remark(&format!("The profile allows nothing smaller than {}.", named(least)));
        }
    }
}

/// Capacities of the size on the drawing, of the size found, and of the neighbours of both, small to large; of the
/// largest where neither is known.
fn beside(
    carrier: &Carrier,
    size: Option<NominalSize>,
    needed: Option<NominalSize>,
    row: Option<Mark>,
) -> Vec<SizeCapacity> {
    let place = |size: Option<NominalSize>| size.and_then(|size| carrier.place(size));
    let shown: Vec<usize> = match (place(size), place(needed)) {
        (None, None) => carrier.sizes().checked_sub(1).into_iter().collect(),
        (own, needed) => {
            let mut places: Vec<usize> = Vec::with_capacity(6);
            for middle in [own, needed].into_iter().flatten() {
                places.extend(middle.saturating_sub(1)..=middle + 1);
            }
            places.sort_unstable();
            places.dedup();
            places
        }
    };
    let mut capacities = Vec::with_capacity(shown.len());
    for size in shown.into_iter().filter_map(|place| carrier.size(place)) {
        if let Some(carried) = carrier.capacity(size) {
            capacities.push(SizeCapacity {
                size,
                flow: carried.flow,
                mark: row.map_or(carried.mark, |row| row.max(carried.mark)),
            });
        }
    }
    capacities
}
