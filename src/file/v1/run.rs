//! Runs and their penetrations in the file.

use serde::{Deserialize, Serialize};

use super::text::{Text, known, written};
use super::words::{Barrier, Material, Seal, State, Surroundings};
use super::words_at::{self, WordsAt};
use super::{List, usual};
use crate::job::{self, JointId, RunId};
use crate::units::{Angle, Length, NominalSize};

/// `(id: 3, from: 1, to: 2, length: "12'-6", size: "3/4", lies: outdoors)`
#[derive(PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Run {
    pub id: u32,
    pub from: u32,
    pub to: u32,
    #[serde(default, skip_serializing_if = "usual")]
    length: Option<Text<Length>>,
    #[serde(default, skip_serializing_if = "usual")]
    offset: Option<Offset>,
    #[serde(default, skip_serializing_if = "usual")]
    size: Option<Text<NominalSize>>,
    #[serde(default, skip_serializing_if = "usual")]
    replaces: Option<Text<NominalSize>>,
    #[serde(default, skip_serializing_if = "usual")]
    material: Option<Material>,
    #[serde(default, skip_serializing_if = "usual")]
    state: State,
    #[serde(default, skip_serializing_if = "usual", alias = "lies")]
    location: Surroundings,
    #[serde(default, skip_serializing_if = "usual")]
    cover: Option<Text<Length>>,
    #[serde(default, skip_serializing_if = "usual")]
    coated: bool,
    #[serde(default, skip_serializing_if = "usual")]
    tracer: bool,
    #[serde(default, skip_serializing_if = "usual")]
    bonded: bool,
    #[serde(default, skip_serializing_if = "usual")]
    jacketed: bool,
    #[serde(default, skip_serializing_if = "usual")]
    salvaged: bool,
    #[serde(default, skip_serializing_if = "usual")]
    pub penetrations: List<Penetration>,
    #[serde(default, skip_serializing_if = "usual")]
    pub words_at: WordsAt,
}

/// `(rise: "8 in", roll: "12 in", angle: "45 deg")`
#[derive(PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Offset {
    #[serde(default, skip_serializing_if = "usual")]
    rise: Option<Text<Length>>,
    #[serde(default, skip_serializing_if = "usual")]
    roll: Option<Text<Length>>,
    #[serde(default, skip_serializing_if = "usual")]
    run: Option<Text<Length>>,
    #[serde(default, skip_serializing_if = "usual")]
    angle: Option<Text<Angle>>,
}

/// `(through: exterior_wall, at: "3'", construction: "2x6 frame", thickness: "7 in", sleeved: true)`
#[derive(PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Penetration {
    through: Barrier,
    #[serde(default, skip_serializing_if = "usual")]
    at: Option<Text<Length>>,
    #[serde(default, skip_serializing_if = "usual")]
    construction: Option<String>,
    #[serde(default, skip_serializing_if = "usual")]
    thickness: Option<Text<Length>>,
    #[serde(default, skip_serializing_if = "usual")]
    sleeved: bool,
    #[serde(default, skip_serializing_if = "usual")]
    seal: Seal,
    #[serde(default, skip_serializing_if = "usual")]
    pub words_at: WordsAt,
}

impl From<&job::Run> for Run {
    fn from(run: &job::Run) -> Run {
        Run {
            id: run.id.0,
            from: run.from.0,
            to: run.to.0,
            length: written(&run.length),
            offset: run.offset.as_ref().map(Offset::from),
            size: written(&run.size),
            replaces: written(&run.replaces),
            material: run.material.map(Material::from),
            state: run.state.into(),
            location: run.surroundings.into(),
            cover: written(&run.cover),
            coated: run.coated,
            tracer: run.tracer,
            bonded: run.bonded,
            jacketed: run.jacketed,
            salvaged: run.salvaged,
            penetrations: run.penetrations.iter().map(Penetration::from).collect(),
            words_at: words_at::written(run.words_at),
        }
    }
}

impl From<Run> for job::Run {
    fn from(run: Run) -> job::Run {
        job::Run {
            id: RunId(run.id),
            from: JointId(run.from),
            to: JointId(run.to),
            length: known(run.length),
            offset: run.offset.map(job::MeasuredOffset::from),
            material: run.material.map(job::Material::from),
            size: known(run.size),
            replaces: known(run.replaces),
            state: run.state.into(),
            surroundings: run.location.into(),
            cover: known(run.cover),
            coated: run.coated,
            tracer: run.tracer,
            bonded: run.bonded,
            jacketed: run.jacketed,
            salvaged: run.salvaged,
            penetrations: run.penetrations.0.into_iter().map(job::Penetration::from).collect(),
            words_at: words_at::known(run.words_at),
        }
    }
}

impl From<&job::MeasuredOffset> for Offset {
    fn from(offset: &job::MeasuredOffset) -> Offset {
        let side = |side: Length| written(&Some(side).filter(|side| *side != Length::ZERO));
        Offset {
            rise: side(offset.rise),
            roll: side(offset.roll),
            run: written(&offset.run),
            angle: written(&offset.angle),
        }
    }
}

impl From<Offset> for job::MeasuredOffset {
    fn from(offset: Offset) -> job::MeasuredOffset {
        job::MeasuredOffset {
            rise: known(offset.rise).unwrap_or_default(),
            roll: known(offset.roll).unwrap_or_default(),
            run: known(offset.run),
            angle: known(offset.angle),
        }
    }
}

impl From<&job::Penetration> for Penetration {
    fn from(penetration: &job::Penetration) -> Penetration {
        Penetration {
            through: penetration.barrier.into(),
            at: written(&penetration.at),
            construction: penetration.construction.clone(),
            thickness: written(&penetration.thickness),
            sleeved: penetration.sleeved,
            seal: penetration.seal.into(),
            words_at: words_at::written(penetration.words_at),
        }
    }
}

impl From<Penetration> for job::Penetration {
    fn from(penetration: Penetration) -> job::Penetration {
        job::Penetration {
            barrier: penetration.through.into(),
            at: known(penetration.at),
            construction: penetration.construction,
            thickness: known(penetration.thickness),
            sleeved: penetration.sleeved,
            seal: penetration.seal.into(),
            words_at: words_at::known(penetration.words_at),
        }
    }
}
