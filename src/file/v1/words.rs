//! The words that may stand where a choice is to be made; the first of each is meant when the key is left out.

use serde::{Deserialize, Serialize};

use crate::job;
use crate::units::UnitSystem;

macro_rules! words {
    ($name:ident, $model:ty: $first:ident = $first_model:ident $(, $word:ident = $word_model:ident)*) => {
        #[derive(Clone, Copy, Default, PartialEq, Serialize, Deserialize)]
        #[serde(rename_all = "snake_case")]
        pub enum $name {
            #[default]
            $first,
            $($word,)*
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

words!(Units, UnitSystem: Us = Us, Metric = Metric);
words!(Fuel, job::Fuel: Natural = Natural, Propane = Propane);
words!(
    Material, job::Material:
    Steel = Steel40, CopperK = CopperK, CopperL = CopperL, Csst = Csst, Pe = Pe
);
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
    Indoors = Indoors, Concealed = Concealed, Outdoors = Outdoors, Underground = Underground
);
words!(
    Barrier, job::Barrier:
    ExteriorWall = ExteriorWall, InteriorWall = InteriorWall, Foundation = Foundation, Floor = Floor, Roof = Roof,
    Slab = Slab, Ground = Ground
);
words!(Seal, job::Seal: Open = Open, Outside = Outside, BothFaces = BothFaces);
words!(ValveKind, job::ValveKind: Ball = Ball, Plug = Plug, Gate = Gate, Globe = Globe);
words!(Vent, job::Vent: NotSaid = NotSaid, Outdoors = Outdoors, Limiter = Limiter);
words!(Season, job::Season: AllYear = AllYear, Heating = Heating, Cooling = Cooling);
