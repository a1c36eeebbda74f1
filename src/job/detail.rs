//! What a person can say of a job, a run, a joint or a device, field by field: one name for each, wherever it is shown,
//! told as changed, or gone to.

use super::listed::listed;

listed! {
    /// A field of the details.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
    pub enum Detail {
        /// Pressure at the point of delivery.
        DeliveryPressure,
        /// The meter of a point of delivery.
        SupplyMeter,
        /// The regulator of a point of delivery.
        ServiceRegulator,
        /// What a line regulator holds.
        OutletPressure,
        /// Allowed drop of the piping behind a regulator.
        DropBehind,
        /// What a device is rated to carry.
        RatedFlow,
        /// What it loses at that flow.
        RatedDrop,
        /// Where the vent of a regulator goes.
        Vent,
        /// How a valve is built.
        ValveKind,
        /// Nipple below the tee of a sediment trap.
        DripLeg,
        /// Length of a connector.
        ConnectorLength,
        /// What an appliance is called.
        ApplianceName,
        /// Class of an appliance.
        Class,
        /// Heat that an appliance takes.
        Input,
        /// Least pressure of an appliance, by its rating plate.
        LeastInlet,
        /// Greatest pressure of an appliance, by its rating plate.
        GreatestInlet,
        /// When an appliance burns.
        Operates,
        /// What a cap is left for.
        FutureInput,
        /// How far a stub stands clear.
        StubProjection,
        /// Name of a joint.
        Name,
        /// New, existing or to be removed.
        State,
        /// Whether what goes is kept.
        Salvage,
        /// Size of a device's ends.
        EndSize,
        /// Measured length of a device.
        OwnLength,
        /// How a turn is made.
        Turn,
        /// Measured take-out of a fitting.
        FittingTakes,
        /// What a penetration goes through.
        Passes,
        /// What a wall or floor is built of.
        BuiltOf,
        /// Its thickness.
        Thickness,
        /// Whether pipe goes through in a sleeve.
        Sleeve,
        /// How the gap around pipe is closed.
        Seal,
        /// Words of a note.
        Says,
        /// Length of a run.
        Length,
        /// Material of a run, or of the job.
        Material,
        /// Size of a run.
        Size,
        /// Size of the pipe that goes so that this may come.
        Replaces,
        /// Where a run lies.
        Location,
        /// Cover of buried pipe.
        Cover,
        /// Whether pipe is protected.
        Coated,
        /// Whether a wire lies beside plastic pipe.
        Tracer,
        /// Whether corrugated tubing is bonded.
        Bonded,
        /// Whether its jacket is listed so.
        Jacketed,
        /// Measured rise of an offset.
        OffsetRise,
        /// Measured roll of an offset.
        OffsetRoll,
        /// Measured run of an offset.
        OffsetRun,
        /// Measured angle of an offset.
        OffsetAngle,
        /// Units of the drawing.
        Units,
        /// True length of a step of the grid.
        Step,
        /// Profile of local practice.
        Profile,
        /// How length for sizing is taken.
        Method,
        /// Allowed pressure drop of the piping.
        AllowedDrop,
        /// Height of the site above the sea.
        Altitude,
        /// What heights are counted from.
        HeightsFrom,
        /// Height of the zero of the grid.
        GridZero,
        /// Where north is.
        North,
        /// What burns.
        Fuel,
        /// Weight of the gas beside air.
        Gravity,
        /// Heat in a volume of gas.
        HeatingValue,
    }
}

impl Detail {
    /// What it is called beside its field.
    pub const fn label(self) -> &'static str {
        match self {
            Detail::DeliveryPressure => "Delivery pressure",
            Detail::SupplyMeter => "Supplier's meter",
            Detail::ServiceRegulator => "Service regulator",
            Detail::OutletPressure => "Outlet pressure",
            Detail::DropBehind => "Allowed drop behind it",
            Detail::RatedFlow => "Rated flow",
            Detail::RatedDrop => "Drop at rated flow",
            Detail::Vent => "Vent",
            Detail::ValveKind => "Kind",
            Detail::DripLeg => "Drip-leg length",
            Detail::ConnectorLength => "Its length",
            Detail::ApplianceName => "What it is",
            Detail::Class => "Class",
            Detail::Input => "Input",
            Detail::LeastInlet => "Minimum inlet pressure",
            Detail::GreatestInlet => "Maximum inlet pressure",
            Detail::Operates => "Operates",
            Detail::FutureInput => "Future input",
            Detail::StubProjection => "Stub-out projection",
            Detail::Name => "Name",
            Detail::State => "State",
            Detail::Salvage => "Salvage for reuse",
            Detail::EndSize => "Size of its ends",
            Detail::OwnLength => "Length end to end",
            Detail::Turn => "A turn here",
            Detail::FittingTakes => "Fitting takes out",
            Detail::Passes => "Passes",
            Detail::BuiltOf => "Built of",
            Detail::Thickness => "Thickness",
            Detail::Sleeve => "In a sleeve",
            Detail::Seal => "Sealed",
            Detail::Says => "Says",
            Detail::Length => "True length",
            Detail::Material => "Material",
            Detail::Size => "Size",
            Detail::Replaces => "Replaces",
            Detail::Location => "Location",
            Detail::Cover => "Cover",
            Detail::Coated => "Painted, coated or wrapped",
            Detail::Tracer => "Tracer wire beside it",
            Detail::Bonded => "Tubing bonded",
            Detail::Jacketed => "Tubing listed with an arc-resistant jacket",
            Detail::OffsetRise => "Offset rise",
            Detail::OffsetRoll => "Offset roll",
            Detail::OffsetRun => "Offset run",
            Detail::OffsetAngle => "Offset angle",
            Detail::Units => "Units",
            Detail::Step => "One step is",
            Detail::Profile => "Profile",
            Detail::Method => "Method",
            Detail::AllowedDrop => "Allowed drop",
            Detail::Altitude => "Altitude",
            Detail::HeightsFrom => "Heights from",
            Detail::GridZero => "Lattice zero at",
            Detail::North => "North is",
            Detail::Fuel => "Fuel",
            Detail::Gravity => "Specific gravity",
            Detail::HeatingValue => "Heating value",
        }
    }

    /// What it is called within a sentence.
    pub fn in_sentence(self) -> String {
        let label = self.label();
        label[..1].to_lowercase() + &label[1..]
    }

    /// What holds while nothing is entered.
    pub const fn empty(self) -> &'static str {
        match self {
            Detail::DropBehind | Detail::AllowedDrop | Detail::Method => "as the profile",
            Detail::SupplyMeter | Detail::ServiceRegulator => "none",
            Detail::FutureInput | Detail::Replaces => "nothing",
            Detail::EndSize => "as the pipe",
            Detail::Size => "left to be found",
            Detail::Material => "as the job's",
            Detail::Gravity | Detail::HeatingValue => "the usual figure",
            Detail::RatedFlow
            | Detail::RatedDrop
            | Detail::OutletPressure
            | Detail::Input
            | Detail::LeastInlet
            | Detail::GreatestInlet => "not known",
            _ => "not said",
        }
    }

    /// What it means, where its name does not say it.
    pub const fn tip(self) -> Option<&'static str> {
        Some(match self {
            Detail::Vent => {
                "Where gas goes when the diaphragm leaks: to the outdoors, or a vent limiter that is listed with the regulator holds it back."
            }
            Detail::LeastInlet => "From the rating plate: with less the appliance does not burn as it should.",
            Detail::GreatestInlet => "From the rating plate: more than this the appliance must never get.",
            Detail::OwnLength => {
                "By a rule, from one end of the device to the other, threads and all: the cut list takes it out, less how far pipe enters."
            }
            Detail::FittingTakes => {
                "Measured from the center to the end of the pipe or tubing, where the cut list has a question mark: fittings of tubing, \
         copper and plastic."
            }
            Detail::Replaces => "The size of the old pipe that goes so that this may come in its place.",
            Detail::Step => {
                "The true length of one step of the lattice: a run without a typed length is as long as it is drawn."
            }
            Detail::Profile => {
                "Local practice: which code and tables sizes go by, allowed drops, the test, and which rules are asked."
            }
            Detail::Method => {
                "By which length pipe is sized: the longest of the system for every section, or each branch by its own farthest outlet."
            }
            Detail::AllowedDrop => {
                "Pressure that may be lost from the point of delivery, or from a regulator, to the farthest outlet."
            }
            Detail::Altitude => "Height of the site above the sea: thinner air weighs less and tests read otherwise.",
            Detail::HeightsFrom => "What heights on the drawing are counted from: a finished floor, a patio slab.",
            Detail::GridZero => "How high the zero of the lattice stands above what heights are counted from.",
            Detail::Gravity => {
                "Weight of the gas beside air. The letter is the mark of the usual figure: F read in print, C computed, D derived, M from \
         memory, L set locally."
            }
            Detail::HeatingValue => {
                "Heat in a cubic foot or metre of gas, of which the supplier tells. The letter is the mark of the usual figure: F read in \
         print, C computed, D derived, M from memory, L set locally."
            }
            _ => return None,
        })
    }
}
