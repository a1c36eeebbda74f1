//! What to bring: tools for the ways in which the new pipe is joined, and the holes that it needs.

use super::take_off::sleeve;
use super::{CutList, Making, TestSheet};
use crate::codebook::{Codebook, SizeNames};
use crate::job::{Barrier, CopperJoints, Job, Joining, Material, RunId, State};
use crate::study::Study;
use crate::units::{Length, NominalSize, Show};
use std::collections::BTreeSet;

/// On what the list stands, in words for sheets.
pub const TOOLS: &str = "Tools by the ways in which the new pipe is joined; holes by the outside diameter of what goes through, rounded up to {1/8 in} \
 (common practice, no source). Look for studs, wires and pipes before you drill, and bore only where the structure allows it.";

/// Tools and holes of a job.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Tools {
    /// What to bring, a line for each thing.
    pub bring: Vec<String>,
    /// Holes for new pipe, in the order of the runs.
    pub holes: Vec<Hole>,
}

/// A hole.
#[derive(Clone, Debug, PartialEq)]
pub struct Hole {
    /// The run that goes through.
    pub run: RunId,
    /// Through what.
    pub barrier: Barrier,
    /// How thick that is, where it was entered.
    pub thickness: Option<Length>,
    /// What goes through, by name: `3/4" steel`, `sleeve 1-1/4"`.
    pub through: String,
    /// The least diameter; `None` where no outside diameter is known.
    pub least: Option<Length>,
}

impl Tools {
    /// The tools and holes of a job.
    pub fn of(job: &Job, study: &Study, book: &Codebook, cuts: &CutList, test: &TestSheet) -> Tools {
        let sizes = |of: &dyn Fn(Material) -> bool, threaded: bool| -> Vec<String> {
            let pieces = cuts.pieces.iter().filter(|piece| of(piece.material));
            let pieces = pieces.filter(|piece| !threaded || matches!(piece.making, Making::Cut));
            let all: BTreeSet<(NominalSize, Material)> =
                pieces.filter_map(|piece| Some((piece.size?, piece.material))).collect();
            all.into_iter()
                .map(|(size, material)| study.names.show(material, size))
                .collect()
        };
        let mut bring = Vec::new();
        let steel = |material: Material| material.is_threaded();
        let (cut, all) = (sizes(&steel, true), sizes(&steel, false));
        if !cut.is_empty() {
            bring.push(format!(
                "Threader with dies for {}, pipe cutter, reamer, cutting oil",
                cut.join(", ")
            ));
        }
        if !all.is_empty() {
            bring.push("Two pipe wrenches, thread sealant for gas".to_owned());
        }
        let copper = sizes(&|material| material.is_copper(), false);
        if !copper.is_empty() {
            let joins = match job.settings.copper {
                CopperJoints::Brazed => "brazing outfit, fire blanket and extinguisher",
                CopperJoints::Flared => "45° flaring tool and two wrenches",
            };
            bring.push(format!(
                "Tube cutter, deburring tool, {joins} for {}",
                copper.join(", ")
            ));
        }
        let tubing = sizes(&|material| material.is_corrugated(), false);
        if !tubing.is_empty() {
            bring.push(format!(
                "The manufacturer's cutter, and wrenches for fittings of {}",
                tubing.join(", ")
            ));
        }
        let plastic = sizes(&|material| material == Material::Pe, false);
        if !plastic.is_empty() {
            bring.push(format!(
                "Fusion or mechanical joining tools as qualified for {}",
                plastic.join(", ")
            ));
        }
        let holes = holes(job, study, book);
        if !holes.is_empty() {
            bring.push("Drill, hole saws or core bits for the holes listed here, sealant for the gaps".to_owned());
        }
        if let Some(demand) = test.demand.as_ref().filter(|_| !cuts.pieces.is_empty()) {
            bring.push(format!(
                "Test gauge with a range of at most {}, pump or cylinder of nitrogen, caps and plugs for each opening",
                demand.gauge_top.value.show(study.names.units())
            ));
        }
        if !cuts.pieces.is_empty() {
            bring.push(
                "Manometer for start-up, leak-detection solution or a gas detector, a watch to clock the meter"
                    .to_owned(),
            );
        }
        Tools { bring, holes }
    }
}

fn holes(job: &Job, study: &Study, book: &Codebook) -> Vec<Hole> {
    let mut holes = Vec::new();
    for (at, run) in job.runs.iter().enumerate() {
        if run.state != State::New || study.runs[at].is_hose {
            continue;
        }
        let material = job.material(run);
        let section = study.runs[at].section.map(|section| &study.sections[section]);
        let size = section.map_or(run.size, |section| section.sizing.size);
        for penetration in &run.penetrations {
            // What no hole is drilled for.
            if penetration.barrier == Barrier::Ground {
                continue;
            }
            let (through, outside) = passing(book, study.names, (material, size), penetration.sleeved);
            holes.push(Hole {
                run: run.id,
                barrier: penetration.barrier,
                thickness: penetration.thickness,
                through,
                least: outside.map(up_to_an_eighth),
            });
        }
    }
    holes
}

/// What goes through a hole, by name, and its outside diameter.
fn passing(
    book: &Codebook,
    names: SizeNames,
    (material, size): (Material, Option<NominalSize>),
    sleeved: bool,
) -> (String, Option<Length>) {
    let Some(size) = size else {
        return ("pipe of a size not known".to_owned(), None);
    };
    let outside = |material, size| Some(book.pipe(material, size)?.outside?.value);
    let named = format!("{} {}", names.show(material, size), material.name());
    if !sleeved {
        return (named, outside(material, size));
    }
    match sleeve(book, material, size) {
        Some(sleeve) => {
            let pipe = Joining::Threaded.material();
            (
                format!("sleeve {} for {named}", names.show(pipe, sleeve)),
                outside(pipe, sleeve),
            )
        }
        None => (format!("sleeve for {named}"), None),
    }
}

/// A length rounded up to a whole eighth of an inch.
fn up_to_an_eighth(length: Length) -> Length {
    Length::from_inches((length.inches() * 8.0 - 1e-9).ceil() / 8.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tools(change: impl Fn(&mut Job)) -> Tools {
        let mut job = crate::file::read(include_str!("../../examples/patio-kitchen.ron")).unwrap();
        change(&mut job);
        let book = Codebook::published();
        let study = Study::of(&job, book);
        let cuts = CutList::of(&job, &study, book);
        let test = TestSheet::of(&job, &study, book);
        Tools::of(&job, &study, book, &cuts, &test)
    }

    /// Outside diameters of ASME B36.10M (from memory): 1-1/4 in pipe 1.660 in, 2 in pipe 2.375 in.
    #[test]
    fn a_hole_is_as_wide_as_what_goes_through() {
        let Hole {
            through,
            least,
            thickness,
            ..
        } = tools(|_| {}).holes.remove(0);
        assert!(through.starts_with("sleeve "), "{through}");
        assert_eq!(thickness, Some(Length::from_inches(7.0)));
        let bare = tools(|job| {
            for id in job.runs.iter().map(|run| run.id).collect::<Vec<_>>() {
                let run = job.runs.get_mut(id).unwrap();
                run.penetrations.iter_mut().for_each(|passage| passage.sleeved = false);
                run.size = Some(NominalSize::Inch(20));
            }
        });
        assert_eq!(bare.holes[0].least, Some(Length::from_inches(1.75)));
        assert!(
            least > bare.holes[0].least,
            "a sleeve for what is laid is wider than 1-1/4 in pipe"
        );
        assert_eq!(up_to_an_eighth(Length::from_inches(2.375)), Length::from_inches(2.375));
    }

    #[test]
    fn tools_follow_from_how_pipe_is_joined() {
        let steel = tools(|_| {}).bring.join("\n");
        assert!(
            steel.contains("Threader") && steel.contains("Manometer") && !steel.contains("brazing"),
            "{steel}"
        );
        let copper = tools(|job| job.settings.material = Material::CopperL).bring.join("\n");
        assert!(copper.contains("brazing") && !copper.contains("Threader"), "{copper}");
        assert_eq!(
            tools(|job| job.runs.retain(|run| run.state != State::New)),
            Tools::default()
        );
    }
}
