//! Keys and words of older files: read for ever, beside those that are written today, and offered to nobody.

/// Keys by their names of old and of today.
const KEYS: [(&str, &str); 18] = [
    ("site", "job_address"),
    ("firm", "contractor"),
    ("licence_holder", "license_holder"),
    ("licence", "license"),
    ("step", "grid_spacing"),
    ("allowed_drop", "allowable_drop"),
    ("datum", "grid_zero_elevation"),
    ("datum_name", "elevations_from"),
    ("lies", "location"),
    ("takes", "take_out"),
    ("fitting_takes", "fitting_take_out"),
    ("depth", "drip_leg"),
    ("class", "type"),
    ("least_inlet", "min_inlet"),
    ("greatest_inlet", "max_inlet"),
    ("season", "operates"),
    ("order", "work_steps"),
    ("vented", "vent"),
];

/// Words of choices that older files have.
const WORDS: [&str; 7] = [
    "indoors",
    "foundation",
    "ground",
    "not_said",
    "all_year",
    "heating",
    "cooling",
];

/// The shape of the file in which `step` is a key of today: the id of a work step.
const WORK_STEP: &str = "OwnStep";

/// Whether a key of a shape, or a word of a choice, is one of older files alone.
pub fn is_old(shape: Option<&str>, name: &str) -> bool {
    let is_key = KEYS.iter().any(|(old, _)| *old == name);
    (is_key && shape != Some(WORK_STEP)) || WORDS.contains(&name)
}

/// Whether a key that is written in a file means the key `today`.
pub fn means(written: &str, today: &str) -> bool {
    written == today || KEYS.contains(&(written, today))
}
