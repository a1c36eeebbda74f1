//! What holds for the whole job, in the file.

use serde::{Deserialize, Serialize};

use super::text::{Text, known, written};
use super::words::{CopperJoints, Material, Method, NorthAxis, Units};
use super::{List, usual};
use crate::job;
use crate::units::{Length, PressureDrop};

/// `settings: (units: us, step: "1'", …)`
#[derive(PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Settings {
    #[serde(skip_serializing_if = "usual")]
    units: Units,
    /// Always written: lengths follow from it.
    #[serde(alias = "step")]
    grid_spacing: Text<Length>,
    #[serde(skip_serializing_if = "usual")]
    material: Material,
    #[serde(skip_serializing_if = "usual")]
    copper: CopperJoints,
    /// Always written: what is right follows from it.
    profile: String,
    #[serde(skip_serializing_if = "usual")]
    tables: List<OwnTable>,
    #[serde(skip_serializing_if = "usual")]
    method: Option<Method>,
    #[serde(skip_serializing_if = "usual", alias = "allowed_drop")]
    allowable_drop: Option<Text<PressureDrop>>,
    #[serde(skip_serializing_if = "usual")]
    altitude: Option<Text<Length>>,
    #[serde(skip_serializing_if = "no_length", alias = "datum")]
    grid_zero_elevation: Text<Length>,
    #[serde(skip_serializing_if = "usual_datum", alias = "datum_name")]
    elevations_from: String,
    #[serde(skip_serializing_if = "usual")]
    north: NorthAxis,
}

/// `(id: "…", figures: "…")`
#[derive(PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct OwnTable {
    id: String,
    figures: String,
}

const DATUM: &str = "finished floor";

fn no_length(length: &Text<Length>) -> bool {
    length.0 == Length::ZERO
}

fn usual_datum(name: &str) -> bool {
    name == DATUM
}

impl Default for Settings {
    fn default() -> Settings {
        Settings {
            units: Units::default(),
            grid_spacing: Text(Length::from_feet(1.0)),
            material: Material::default(),
            copper: CopperJoints::default(),
            profile: "us-ifgc".to_owned(),
            tables: List::default(),
            method: None,
            allowable_drop: None,
            altitude: None,
            grid_zero_elevation: Text(Length::ZERO),
            elevations_from: DATUM.to_owned(),
            north: NorthAxis::default(),
        }
    }
}

impl From<&job::Settings> for Settings {
    fn from(settings: &job::Settings) -> Settings {
        Settings {
            units: settings.units.into(),
            grid_spacing: Text(settings.step),
            material: settings.material.into(),
            copper: settings.copper.into(),
            profile: settings.profile.clone(),
            tables: settings.tables.iter().map(OwnTable::from).collect(),
            method: settings.method.map(Method::from),
            allowable_drop: written(&settings.allowed_drop),
            altitude: written(&settings.altitude),
            grid_zero_elevation: Text(settings.datum),
            elevations_from: settings.datum_name.clone(),
            north: settings.north.into(),
        }
    }
}

impl From<Settings> for job::Settings {
    fn from(settings: Settings) -> job::Settings {
        job::Settings {
            units: settings.units.into(),
            step: settings.grid_spacing.0,
            material: settings.material.into(),
            copper: settings.copper.into(),
            profile: settings.profile,
            tables: settings.tables.0.into_iter().map(job::OwnTable::from).collect(),
            method: settings.method.map(job::Method::from),
            allowed_drop: known(settings.allowable_drop),
            altitude: known(settings.altitude),
            datum: settings.grid_zero_elevation.0,
            datum_name: settings.elevations_from,
            north: settings.north.into(),
        }
    }
}

impl From<&job::OwnTable> for OwnTable {
    fn from(table: &job::OwnTable) -> OwnTable {
        let job::OwnTable { id, figures } = table.clone();
        OwnTable { id, figures }
    }
}

impl From<OwnTable> for job::OwnTable {
    fn from(OwnTable { id, figures }: OwnTable) -> job::OwnTable {
        job::OwnTable { id, figures }
    }
}
