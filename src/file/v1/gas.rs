//! What burns, in the file.

use serde::{Deserialize, Serialize};

use super::text::{Text, known, written};
use super::usual;
use super::words::Fuel;
use crate::job;
use crate::units::HeatingValue;

/// `gas: (fuel: propane, specific_gravity: 1.5, heating_value: "2,490 Btu/ft3")`
#[derive(Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Gas {
    fuel: Fuel,
    #[serde(skip_serializing_if = "usual")]
    pub specific_gravity: Option<f64>,
    #[serde(skip_serializing_if = "usual")]
    heating_value: Option<Text<HeatingValue>>,
}

impl From<&job::Gas> for Gas {
    fn from(gas: &job::Gas) -> Gas {
        Gas {
            fuel: gas.fuel.into(),
            specific_gravity: gas.specific_gravity,
            heating_value: written(&gas.heating_value),
        }
    }
}

impl From<Gas> for job::Gas {
    fn from(gas: Gas) -> job::Gas {
        job::Gas {
            fuel: gas.fuel.into(),
            specific_gravity: gas.specific_gravity,
            heating_value: known(gas.heating_value),
        }
    }
}
