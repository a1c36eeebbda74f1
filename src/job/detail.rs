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
        /// Delivery pressure before the work, where the supplier changes it.
        PressureBefore,
        /// The meter that the supplier takes away.
        MeterBefore,
        /// The service regulator that the supplier takes away.
        RegulatorBefore,
        /// What a line regulator holds.
        OutletPressure,
        /// Allowed drop of the piping behind a regulator.
        DropBehind,
        /// What a device is rated to carry.
        RatedFlow,
        /// What it loses at that flow.
        RatedDrop,
        /// The flow at which an excess-flow valve shuts.
        TripFlow,
        /// A flow at which its loss is known.
        LossFlow,
        /// What it loses there.
        Loss,
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
        /// Inlet pressure measured with nothing burning.
        StaticPressure,
        /// Inlet pressure measured with everything burning.
        WorkingPressure,
        /// Inlet pressure measured after all burners were shut off.
        LockUpPressure,
        /// What the meter passed in a time while only this appliance burned.
        ClockedInput,
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
        /// How copper tube is joined.
        CopperJoints,
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
        /// Weight of the gas relative to air.
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
            Detail::PressureBefore => "Delivery pressure before this work",
            Detail::MeterBefore => "Meter before this work",
            Detail::RegulatorBefore => "Service regulator before this work",
            Detail::OutletPressure => "Outlet pressure",
            Detail::DropBehind => "Allowable pressure drop downstream",
            Detail::RatedFlow => "Rated flow",
            Detail::RatedDrop => "Drop at rated flow",
            Detail::TripFlow => "Trips at",
            Detail::LossFlow => "Flow of the stated loss",
            Detail::Loss => "Pressure loss at it",
            Detail::Vent => "Vent",
            Detail::ValveKind => "Kind",
            Detail::DripLeg => "Drip-leg length",
            Detail::ConnectorLength => "Length",
            Detail::ApplianceName => "Appliance",
            Detail::Class => "Appliance type",
            Detail::Input => "Input",
            Detail::LeastInlet => "Minimum inlet pressure",
            Detail::GreatestInlet => "Maximum inlet pressure",
            Detail::Operates => "Operates",
            Detail::StaticPressure => "Static pressure read",
            Detail::WorkingPressure => "Working pressure read",
            Detail::LockUpPressure => "Lock-up pressure read",
            Detail::ClockedInput => "Clocked at the meter",
            Detail::FutureInput => "Future input",
            Detail::StubProjection => "Stub-out projection",
            Detail::Name => "Joint label",
            Detail::State => "State",
            Detail::Salvage => "Salvage for reuse",
            Detail::EndSize => "Size of its ends",
            Detail::OwnLength => "Length end to end",
            Detail::Turn => "Turn here",
            Detail::FittingTakes => "Fitting take-out",
            Detail::Passes => "Passes through",
            Detail::BuiltOf => "Construction",
            Detail::Thickness => "Thickness",
            Detail::Sleeve => "Sleeved",
            Detail::Seal => "Sealed",
            Detail::Says => "Text",
            Detail::Length => "True length",
            Detail::Material => "Material",
            Detail::CopperJoints => "Joints of copper tube",
            Detail::Size => "Size",
            Detail::Replaces => "Replaces",
            Detail::Location => "Location",
            Detail::Cover => "Cover",
            Detail::Coated => "Painted, coated or wrapped",
            Detail::Tracer => "Tracer wire",
            Detail::Bonded => "CSST bonded",
            Detail::Jacketed => "CSST with a listed arc-resistant jacket",
            Detail::OffsetRise => "Offset rise",
            Detail::OffsetRoll => "Offset roll",
            Detail::OffsetRun => "Offset run",
            Detail::OffsetAngle => "Offset angle",
            Detail::Units => "Units",
            Detail::Step => "Grid spacing",
            Detail::Profile => "Profile",
            Detail::Method => "Method",
            Detail::AllowedDrop => "Allowable pressure drop",
            Detail::Altitude => "Elevation above sea level",
            Detail::HeightsFrom => "Elevations measured from",
            Detail::GridZero => "Elevation of grid zero",
            Detail::North => "North arrow",
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
            Detail::DropBehind | Detail::AllowedDrop | Detail::Method => "per profile",
            Detail::SupplyMeter | Detail::ServiceRegulator => "none",
            Detail::FutureInput | Detail::Replaces => "none",
            Detail::PressureBefore | Detail::MeterBefore | Detail::RegulatorBefore => "unchanged",
            Detail::EndSize => "as the pipe",
            Detail::Size => "to be sized",
            Detail::Material => "per job",
            Detail::Gravity | Detail::HeatingValue => "the usual figure",
            Detail::RatedFlow
            | Detail::RatedDrop
            | Detail::OutletPressure
            | Detail::Input
            | Detail::LeastInlet
            | Detail::GreatestInlet => "not entered",
            Detail::StaticPressure | Detail::WorkingPressure | Detail::LockUpPressure => "not measured",
            Detail::ClockedInput => "not clocked",
            _ => "not entered",
        }
    }

    /// What it means, where its name does not say it.
    pub const fn tip(self) -> Option<&'static str> {
        Some(match self {
            Detail::Vent => {
                "Where gas goes if the diaphragm leaks: to the outdoors, or held back by a vent limiter listed with the regulator."
            }
            Detail::LeastInlet => "From the rating plate: with less the appliance does not burn properly.",
            Detail::GreatestInlet => "From the rating plate: the appliance must never get more than this.",
            Detail::StaticPressure => "At its inlet with nothing burning anywhere.",
            Detail::WorkingPressure => {
                "At its inlet with every appliance burning at full input: compared with what the drawing gives."
            }
            Detail::LockUpPressure => "At its inlet a minute after all burners were shut off.",
            Detail::ClockedInput => {
                "What the meter passed in a time while only this appliance burned at full input: 2 ft3 in 58 s. Input is 3,600 x volume x heating value / \
         seconds."
            }
            Detail::OwnLength => {
                "Measured with a rule from one end of the device to the other, threads and all: the cut list takes it out, less how far pipe enters."
            }
            Detail::FittingTakes => {
                "Measured from the center to the end of the pipe or tubing, where the cut list has a question mark: fittings of tubing, \
         copper and plastic."
            }
            Detail::PressureBefore | Detail::MeterBefore | Detail::RegulatorBefore => {
                "Only where the supplier changes it with this work: what was there then counts in all figures for the time before this work."
            }
            Detail::Replaces => "The size of the existing pipe that this one replaces.",
            Detail::Step => {
                "The true length of one grid step: a run without an entered length is as long as it is drawn."
            }
            Detail::Profile => {
                "Local practice: which code and tables set the sizes, allowable drops, the test, and which rules apply."
            }
            Detail::CopperJoints => {
                "All copper of the job, existing tube too: brazed into sockets, or flared with nuts."
            }
            Detail::Method => {
                "The length that pipe is sized by: the longest of the system for every section, or each branch by its own farthest outlet."
            }
            Detail::AllowedDrop => {
                "Pressure that may be lost from the point of delivery, or from a regulator, to the farthest outlet."
            }
            Detail::Altitude => {
                "Elevation of the site above sea level: thinner air weighs less and gauges read differently."
            }
            Detail::HeightsFrom => "What elevations on the drawing are measured from: a finished floor, a patio slab.",
            Detail::GridZero => "How high the grid's zero is above what elevations are measured from.",
            Detail::Gravity => {
                "Weight of the gas relative to air. The letter is the mark of the usual figure: F read in print, C computed, D derived, M from \
         memory, L set locally."
            }
            Detail::HeatingValue => {
                "Heat in a cubic foot or meter of gas; ask the supplier. The letter is the mark of the usual figure: F read in \
         print, C computed, D derived, M from memory, L set locally."
            }
            Detail::TripFlow => {
                "From the manufacturer's sheet: at this flow the valve shuts. The load behind it has to stay below."
            }
            Detail::LossFlow => {
                "From the manufacturer's sheet: a flow for which it gives the pressure loss of the valve."
            }
            _ => return None,
        })
    }
}
