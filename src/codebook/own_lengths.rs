//! Lengths of a person's own valves, regulators, couplings and fittings, measured once for all jobs.

use super::Codebook;
use crate::job::DeviceKind;
use crate::units::{Length, NominalSize, Parse};

/// The lengths that a person wrote down, and what is wrong with the rest.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OwnLengths {
    lines: Vec<OwnLength>,
    /// Lines that are no length: their numbers, from 1, and what to do.
    pub faults: Vec<(usize, String)>,
}

/// One line of them.
#[derive(Clone, Debug, PartialEq)]
struct OwnLength {
    number: usize,
    what: String,
    sizes: Vec<NominalSize>,
    takes: Length,
}

/// Fittings that a line may name, as take-off and cut list call them.
const FITTINGS: [&str; 12] = [
    "90° elbow",
    "45° elbow",
    "tee",
    "cross",
    "side-outlet elbow",
    "side-outlet tee",
    "coupling",
    "reducing coupling",
    "tubing fitting",
    "copper adapter",
    "transition fitting",
    "anodeless riser",
];

/// What a line may name: devices, then fittings.
pub fn parts() -> impl Iterator<Item = &'static str> {
    let devices = DeviceKind::ALL.into_iter().flat_map(|kind| kind.nature().own_lengths);
    devices.chain(&FITTINGS).copied()
}

/// The longest thing that stands in a line of pipe, in feet: more is a slip of the pen.
const LONGEST: f64 = 20.0;

/// The most bytes of a list of one's own: 1 MB.
pub const LONGEST_LIST: usize = 1 << 20;
/// So many faults of a list of one's own are told; after them nobody reads on.
pub const MOST_FAULTS: usize = 20;

/// The beginning of what a person wrote.
fn shortened(words: &str) -> String {
    words.chars().take(40).collect()
}

/// What is wrong with a list of one's own as a whole, told of its first line.
pub fn list_fault(text: &str) -> Option<(usize, String)> {
    let fault = || {
        (
            1,
            "the list is larger than 1 MB: keep only lines that the job needs".to_owned(),
        )
    };
    (text.len() > LONGEST_LIST).then(fault)
}

/// Notes a fault of a line; whether further ones are still told.
pub fn note_fault(faults: &mut Vec<(usize, String)>, number: usize, fault: String) -> bool {
    faults.push((number, fault));
    let goes_on = faults.len() < MOST_FAULTS;
    if !goes_on {
        faults.push((
            number,
            "lines after this one were not read: correct those above first".to_owned(),
        ));
    }
    goes_on
}

impl OwnLengths {
    /// Reads lines of `what; size; length`, parted by semicolons or tabs: `ball valve; 1/2; 2-1/8 in`. Empty lines and lines
    /// that begin with `#` say nothing.
    ///
    /// The length is that from end to end; of what turns or branches (elbow, tee, cross) from the center to the end of the
    /// size named first, where it turns to a size named behind it: `tee; 1 x 3/4; 1-3/8 in`. The end of a thread is that of
    /// the thread or face, the end of a socket or nut is where the tube stops in it: `tubing fitting; EHD 23 x 1/2; 41 mm`.
    pub fn read(text: &str) -> OwnLengths {
        let mut own = OwnLengths::default();
        if let Some(fault) = list_fault(text) {
            own.faults.push(fault);
            return own;
        }
        for (number, line) in text.trim_start_matches('\u{feff}').lines().enumerate() {
            let (number, line) = (number + 1, line.trim());
            if line.is_empty() || line.starts_with('#') {
                continue;
            }
            let fault = match OwnLengths::line(number, line) {
                Ok(read) => match own.find(&read.what, &read.sizes) {
                    Some(first) => format!("names the same as line {}: remove one of them", first.number),
                    None => {
                        own.lines.push(read);
                        continue;
                    }
                },
                // The first line may be the heads of the columns: no figure stands there.
                Err(_) if number == 1 && !line.contains(|letter: char| letter.is_ascii_digit()) => continue,
                Err(fault) => fault,
            };
            if !note_fault(&mut own.faults, number, fault) {
                break;
            }
        }
        own
    }

    fn line(number: usize, line: &str) -> Result<OwnLength, String> {
        let cells: Vec<&str> = line
            .split([';', '\t'])
            .map(|cell| cell.trim().trim_matches('\''))
            .collect();
        let [what, sizes, takes] = cells.as_slice() else {
            return Err(
                "write what it is, its size and its length, with semicolons between: ball valve; 1/2; 2-1/8 in"
                    .to_owned(),
            );
        };
        let known = parts().find(|part| plain(part) == plain(what));
        let what = known.ok_or_else(|| {
            format!(
                "`{}` is not a part of a line here: write one of {}",
                shortened(what),
                parts().collect::<Vec<_>>().join(", ")
            )
        })?;
        let size = |text: &str| NominalSize::parse(text.trim()).map_err(|error| error.to_string());
        let sizes: Result<Vec<NominalSize>, String> = sizes.split(['x', '×']).map(size).collect();
        let takes = Length::parse(takes).map_err(|error| error.to_string())?;
        if takes <= Length::ZERO || takes > Length::from_feet(LONGEST) {
            return Err(
                "its length must be more than zero and not over 20 ft: write it as `2-1/8 in` or `54 mm`".to_owned(),
            );
        }
        Ok(OwnLength {
            number,
            what: plain(what),
            sizes: sizes?,
            takes,
        })
    }

    fn find(&self, what: &str, sizes: &[NominalSize]) -> Option<&OwnLength> {
        self.lines.iter().find(|line| line.what == what && line.sizes == sizes)
    }

    /// The length of a part of these sizes, of which a line names all in the same order.
    pub fn of(&self, what: &str, sizes: &[NominalSize]) -> Option<Length> {
        self.find(&plain(what), sizes).map(|found| found.takes)
    }

    /// The thread with which a person has the end fittings of a tubing: that of the only line, or of lines that agree.
    pub fn thread_of_tubing(&self, tubing: NominalSize) -> Option<NominalSize> {
        let fittings = self.lines.iter().filter(|line| line.what == plain("tubing fitting"));
        let mut threads = fittings.filter_map(|line| match line.sizes.as_slice() {
            &[own, thread] if own == tubing => Some(thread),
            _ => None,
        });
        let first = threads.next()?;
        threads.all(|other| other == first).then_some(first)
    }

    /// How many lengths there are.
    pub fn len(&self) -> usize {
        self.lines.len()
    }

    /// Whether nothing is written down.
    pub fn is_empty(&self) -> bool {
        self.lines.is_empty()
    }
}

/// A name without case, spaces, hyphens and the sign of degrees.
fn plain(name: &str) -> String {
    let letters = name.chars().filter(|letter| letter.is_alphanumeric());
    letters.flat_map(char::to_lowercase).collect()
}

impl Codebook {
    /// A copy with the lengths of a person's own parts.
    pub fn with_lengths(&self, lengths: OwnLengths) -> Codebook {
        Codebook {
            own_lengths: lengths,
            ..self.clone()
        }
    }

    /// The lengths of a person's own parts.
    pub fn own_lengths(&self) -> &OwnLengths {
        &self.own_lengths
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn size(text: &str) -> NominalSize {
        NominalSize::parse(text).unwrap()
    }

    #[test]
    fn parts_are_found_by_name_and_size() {
        let own = OwnLengths::read(
            "what; size; length\n# on the truck\nBall valve; 1/2; 2-1/8 in\ntubing fitting;EHD 23 x 1/2;41 mm\n\
             tubing fitting\tEHD 18\t1.5 in\n90 elbow; 3/4; 1-1/4 in\n",
        );
        assert_eq!(own.faults, []);
        assert_eq!(own.of("ball valve", &[size("1/2")]), Some(Length::from_inches(2.125)));
        assert_eq!(own.of("ball valve", &[size("3/4")]), None);
        assert_eq!(own.of("90° elbow", &[size("3/4")]), Some(Length::from_inches(1.25)));
        let tubing = |sizes: &[&str]| {
            let sizes: Vec<NominalSize> = sizes.iter().map(|text| size(text)).collect();
            own.of("tubing fitting", &sizes)
        };
        assert_eq!(tubing(&["EHD 23", "1/2"]), Some(Length::from_mm(41.0)));
        assert_eq!(tubing(&["EHD 23", "3/4"]), None);
        assert_eq!(tubing(&["EHD 18", "3/4"]), None);
        assert_eq!(tubing(&["EHD 18"]), Some(Length::from_inches(1.5)));
    }

    #[test]
    fn one_thread_is_told_of_a_tubing_and_not_two() {
        let own = OwnLengths::read(
            "tubing fitting; EHD 23 x 3/4; 41 mm\ntubing fitting; EHD 18 x 1/2; 38 mm\ntubing fitting; EHD 18 x 3/8; 38 mm\n\
             tubing fitting; EHD 30; 45 mm\n",
        );
        assert_eq!(own.faults, []);
        assert_eq!(own.thread_of_tubing(size("EHD 23")), Some(size("3/4")));
        for tubing in ["EHD 18", "EHD 30", "EHD 13"] {
            assert_eq!(own.thread_of_tubing(size(tubing)), None, "{tubing}");
        }
    }

    #[test]
    fn a_faulty_line_is_told_by_its_number_with_what_to_do() {
        let own = OwnLengths::read(
            "valve; half; long\nball valve; 1/2; 2 in\nbal valve; 1/2; 2 in\nball valve; 1/2\nball valve; 1/2; -2 in\n\
             ball valve; 0.5; 3 in\nball valve; half; 3 in\nunion; 1/2; 3 fathoms\nunion; 1/2; 40'\n",
        );
        let numbers: Vec<usize> = own.faults.iter().map(|fault| fault.0).collect();
        assert_eq!(numbers, [3, 4, 5, 6, 7, 8, 9], "{:?}", own.faults);
        assert!(
            own.faults[0].1.contains("ball valve, plug valve"),
            "{:?}",
            own.faults[0]
        );
        assert!(own.faults[3].1.contains("line 2"), "{:?}", own.faults[3]);
        assert!(!own.is_empty());
    }
}
