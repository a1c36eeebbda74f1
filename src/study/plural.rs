//! Names of things in the plural, and how many there are.

use crate::job::DeviceKind;

/// Nouns that are counted; the rest of a name stays as it is.
const NOUNS: [&str; 56] = [
    "adapter",
    "appliance",
    "bend",
    "bushing",
    "cap",
    "change",
    "check",
    "clamp",
    "coil",
    "connector",
    "coupling",
    "cross",
    "day",
    "device",
    "elbow",
    "finding",
    "fitting",
    "gap",
    "gauge",
    "hanger",
    "hose",
    "hour",
    "item",
    "joint",
    "label",
    "line",
    "meter",
    "minute",
    "nipple",
    "note",
    "opening",
    "outlet",
    "part",
    "penetration",
    "piece",
    "place",
    "plate",
    "plug",
    "point",
    "regulator",
    "riser",
    "run",
    "section",
    "sheet",
    "shutoff",
    "sleeve",
    "step",
    "strap",
    "tee",
    "time",
    "transition",
    "trap",
    "turn",
    "union",
    "valve",
    "worksheet",
];

/// A name in the plural: "hangers or straps", "threaded joints to be made up".
pub fn plural(name: &str) -> String {
    let mut devices = DeviceKind::ALL.into_iter().map(DeviceKind::nature);
    if let Some(device) = devices.find(|device| device.name == name) {
        return device.plural.to_owned();
    }
    let words: Vec<&str> = name.split(' ').collect();
    let is_noun = |word: &str| NOUNS.contains(&word.trim_end_matches(','));
    let mut said: Vec<String> = Vec::with_capacity(words.len());
    for (at, word) in words.iter().enumerate() {
        // "test gauge" has one plural, and "no fitting" none.
        let leads_on = words.get(at + 1).is_some_and(|next| is_noun(next)) && !word.ends_with(',');
        let counted =
            is_noun(word) && !leads_on && !matches!(at.checked_sub(1).map(|at| words[at]), Some("no" | "stock"));
        said.push(match (counted, word.strip_suffix(',')) {
            (false, _) => (*word).to_owned(),
            (true, None) if word.ends_with('s') => format!("{word}es"),
            (true, None) => format!("{word}s"),
            (true, Some(bare)) => format!("{bare}s,"),
        });
    }
    said.join(" ")
}

/// A number of things: "1 note", "3 notes", "2 points of delivery".
pub fn how_many(count: usize, name: &str) -> String {
    match count {
        1 => format!("1 {name}"),
        _ => format!("{count} {}", plural(name)),
    }
}

#[cfg(test)]
mod tests {
    use super::{how_many, plural};

    #[test]
    fn what_is_counted_is_in_the_plural() {
        for (one, many) in [
            ("90° elbow", "90° elbows"),
            ("cross", "crosses"),
            ("hanger or strap", "hangers or straps"),
            ("threaded joint to be made up", "threaded joints to be made up"),
            ("run that cannot be cut", "runs that cannot be cut"),
            (
                "side-outlet elbow, or tee and elbow",
                "side-outlet elbows, or tees and elbows",
            ),
            ("60° turn, no stock fitting", "60° turns, no stock fitting"),
            ("quick-disconnect coupling", "quick-disconnect couplings"),
            ("shutoff valve", "shutoff valves"),
            ("test gauge", "test gauges"),
            ("point of delivery", "points of delivery"),
            ("gap to be sealed", "gaps to be sealed"),
        ] {
            assert_eq!(plural(one), many);
        }
    }

    #[test]
    fn one_is_in_the_singular() {
        assert_eq!(how_many(0, "finding"), "0 findings");
        assert_eq!(how_many(1, "finding"), "1 finding");
        assert_eq!(how_many(2, "point of delivery"), "2 points of delivery");
    }
}
