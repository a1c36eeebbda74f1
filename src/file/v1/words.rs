//! The words that may stand where a choice is to be made; the first of each is meant when the key is left out. What
//! stands behind a bar is the word of older files, which is read for ever (see `old.rs`).

use serde::{Deserialize, Serialize};

use crate::job;
use crate::units::UnitSystem;

macro_rules! words {
    (
        $name:ident, $model:ty:
        $first:ident $(| $first_old:literal)? = $first_model:ident
        $(, $word:ident $(| $old:literal)? = $word_model:ident)*
    ) => {
        // Words of the file are as long as they must be to be plain: `heating_season`.
        #[allow(clippy::enum_variant_names)]
        #[derive(Clone, Copy, Default, PartialEq, Serialize, Deserialize)]
        #[serde(rename_all = "snake_case")]
        // The words of a file are what they are.
        #[allow(clippy::enum_variant_names)]
        pub enum $name {
            #[default]
            $(#[serde(alias = $first_old)])?
            $first,
            $($(#[serde(alias = $old)])? $word,)*
        }

        impl From<$model> for $name {
            fn from(model: $model) -> $name {
                match model {
                    <$model>::$first_model => $name::$first,
                    $(<$model>::$word_model => $name::$word,)*
                }
            }
        }

        impl From<$name> for $model {
            fn from(word: $name) -> $model {
                match word {
                    $name::$first => <$model>::$first_model,
                    $($name::$word => <$model>::$word_model,)*
                }
            }
        }
    };
}

/// Us or metric; in which unit metric jobs tell pressures is for their profile to say.
#[derive(Clone, Copy, Default, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Units {
    #[default]
    Us,
    Metric,
}

impl From<UnitSystem> for Units {
    fn from(units: UnitSystem) -> Units {
        match units {
            UnitSystem::Us => Units::Us,
            UnitSystem::Metric | UnitSystem::MetricKpa => Units::Metric,
        }
    }
}

impl From<Units> for UnitSystem {
    fn from(word: Units) -> UnitSystem {
        match word {
            Units::Us => UnitSystem::Us,
            Units::Metric => UnitSystem::Metric,
        }
    }
}

words!(Fuel, job::Fuel: Natural = Natural, Propane = Propane);
words!(
    Material, job::Material:
    Steel = Steel40, CopperK = CopperK, CopperL = CopperL, Csst = Csst, Pe = Pe
);
words!(CopperJoints, job::CopperJoints: Brazed = Brazed, Flared = Flared);
words!(Method, job::Method: LongestLength = LongestLength, BranchLength = BranchLength);
words!(NorthAxis, job::NorthAxis: North = North, East = East, South = South, West = West);
words!(Status, job::Status: ForPermit = ForPermit, AsBuilt = AsBuilt, Exercise = Exercise, Study = Study);
words!(State, job::State: New = New, Existing = Existing, Removed = Removed);
words!(
    Turn, job::Turn:
    Elbow = Elbow, StreetElbow = StreetElbow, StreetElbowUpstream = StreetElbowUpstream,
    StreetElbowDownstream = StreetElbowDownstream
);
words!(
    Surroundings, job::Surroundings:
    ExposedIndoors | "indoors" = Indoors, Concealed = Concealed, Outdoors = Outdoors, Underground = Underground
);
words!(
    Barrier, job::Barrier:
    ExteriorWall = ExteriorWall, InteriorWall = InteriorWall, FoundationWall | "foundation" = Foundation, Floor = Floor, Roof = Roof,
    Slab = Slab, Grade | "ground" = Ground
);
words!(Seal, job::Seal: Open = Open, Outside = Outside, BothFaces = BothFaces);
words!(ValveKind, job::ValveKind: Ball = Ball, Plug = Plug, Gate = Gate, Globe = Globe, Key = Key);
words!(Vent, job::Vent: NotEntered | "not_said" = NotSaid, Outdoors = Outdoors, Limiter = Limiter);
words!(Season, job::Season: YearRound | "all_year" = AllYear, HeatingSeason | "heating" = Heating, CoolingSeason | "cooling" = Cooling);
