//! Where else a branch could start: places by their distance from the point of delivery, each with a line, not judged.

use super::place::{self, Spot};
use super::{check, route};
use crate::advice::{NewBranch, NoTieIn, TieIn, TieInPlace, TieIns};
use crate::codebook::Codebook;
use crate::job::{Job, JointId};
use crate::study::Study;
use crate::units::Length;

impl TieIns {
    /// The wanted places for the branch at a head, nearest to the point of delivery first, each with its distance and a line that can be drawn: where
    /// the straight one is barred, one that is led beside it. Figures are those of an empty row.
    ///
    /// # Errors
    /// As for [`TieIns::find`].
    pub fn starts(
        job: &Job,
        book: &Codebook,
        head: JointId,
        wanted: impl Fn(TieInPlace) -> bool,
    ) -> Result<impl Iterator<Item = (Length, TieIn)>, NoTieIn> {
        let profile = book.profile(&job.settings.profile).unwrap_or(book.default_profile());
        let before = Study::under(job, book, profile);
        let branch = NewBranch {
            head,
            ..NewBranch::default()
        };
        check(job, &before, &branch)?;
        let places = place::all(job, &before, branch.offer);
        if places.spots.is_empty() {
            return Err(NoTieIn::NoPlace);
        }
        let ground = route::Ground::of(job, &branch);
        let spots = places
            .spots
            .into_iter()
            .filter(|spot| ground.is_away(spot) && wanted(spot.place));
        let mut spots: Vec<(Length, Spot)> = spots
            .filter_map(|spot| Some((distance(job, &before, spot.place)?, spot)))
            .collect();
        spots.sort_by_key(|(distance, spot)| (*distance, spot.place));
        Ok(spots.into_iter().filter_map(move |(distance, spot)| {
            let route = ground.clear_route(&spot)?;
            Some((distance, TieIn::unjudged(&spot, head, route, None)))
        }))
    }
}

/// True distance of a place from the point of delivery.
fn distance(job: &Job, before: &Study, place: TieInPlace) -> Option<Length> {
    let of = |joint| before.joints[job.joints.position(joint)?].distance;
    match place {
        TieInPlace::Joint(joint) => of(joint),
        TieInPlace::Run { run, along } => {
            let drawn = job.runs.get(run)?;
            let (from, to) = (of(drawn.from)?, of(drawn.to)?);
            Some(if from <= to { from + along } else { from - along })
        }
    }
}
