//! What fields mean that do not say it by their name: told when the name is pointed at. Knows no widgets.

/// Names of fields with what they mean.
const TIPS: &[(&str, &str)] = &[
    (
        "One step is",
        "The true length of one step of the lattice: a run without a typed length is as long as it is drawn.",
    ),
    (
        "Profile",
        "Local practice: which code and tables sizes go by, allowed drops, the test, and which rules are asked.",
    ),
    (
        "Method",
        "By which length pipe is sized: the longest of the system for every section, or each branch by its own farthest outlet.",
    ),
    (
        "Allowed drop",
        "Pressure that may be lost from the point of delivery, or from a regulator, to the farthest outlet.",
    ),
    (
        "Altitude",
        "Height of the site above the sea: thinner air weighs less and tests read otherwise.",
    ),
    (
        "Heights from",
        "What heights on the drawing are counted from: a finished floor, a patio slab.",
    ),
    (
        "Lattice zero at",
        "How high the zero of the lattice stands above what heights are counted from.",
    ),
    (
        "Specific gravity",
        "Weight of the gas beside air. The letter is the mark of the usual figure: F read in print, C computed, D derived, M from \
         memory, L set locally.",
    ),
    (
        "Heating value",
        "Heat in a cubic foot or metre of gas, of which the supplier tells. The letter is the mark of the usual figure: F read in \
         print, C computed, D derived, M from memory, L set locally.",
    ),
    (
        "In place of",
        "The size of the old pipe that goes so that this may come in its place.",
    ),
    (
        "Vent",
        "Where gas goes when the diaphragm leaks: to the outdoors, or a vent limiter that is listed with the regulator holds it back.",
    ),
    (
        "Length end to end",
        "By a rule, from one end of the device to the other, threads and all: the cut list takes it out, less how far pipe enters.",
    ),
    (
        "Fitting takes out",
        "Measured from the center to the end of the pipe or tubing, where the cut list has a question mark: fittings of tubing, \
         copper and plastic.",
    ),
    (
        "Least inlet pressure",
        "From the rating plate: with less the appliance does not burn as it should.",
    ),
    (
        "Greatest inlet pressure",
        "From the rating plate: more than this the appliance must never get.",
    ),
];

/// What a field means, where its name does not say it.
pub fn of(name: &str) -> Option<&'static str> {
    TIPS.iter().find(|tip| tip.0 == name).map(|tip| tip.1)
}
