//! The cut list: every piece of new pipe, how long it is cut and what it is made of.
//!
//! Cut length is centre to centre less the take-out of both ends. Nothing is kept that follows: lengths come from the
//! job, sizes from its study, take-outs from the codebook, so that one changed length changes every list.

mod words;

use super::JointNipple;
use crate::codebook::{Codebook, PipeKind, SizeNames, Threaded};
use crate::fittings::{End, Ends, Taken};
use crate::job::{Job, Joining, Material, Offset, State, Surroundings};
use crate::network::Survey;
use crate::study::Study;
use crate::units::{Length, NominalSize, UnitSystem};

/// All pieces of new pipe, in flow order; pipe that no gas reaches comes last.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CutList {
    /// The pieces.
    pub pieces: Vec<Piece>,
    /// By what names the sizes of pieces go.
    pub names: SizeNames,
    /// Nipples between fittings and devices that are drawn at one place, in the order of the joints.
    pub nipples: Vec<JointNipple>,
}

/// A piece of new pipe between two fittings, devices or ends.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// Its mark on list and drawing: "P1".
    pub mark: String,
    /// Its runs, positions in `job.runs`, in flow order: more than one only where tubing goes through.
    pub runs: Vec<usize>,
    /// Its material.
    pub material: Material,
    /// Its size, when it is known.
    pub size: Option<NominalSize>,
    /// True length from centre to centre.
    pub centre_to_centre: Length,
    /// What stands at its ends; upstream first.
    pub ends: [End; 2],
    /// How it is made.
    pub making: Making,
    /// What is cut: one part, or more where the piece is longer than a stick; none where there is nothing to cut.
    pub parts: Vec<Part>,
    /// What each coupling between two parts adds to their lengths; `None` where its length is not known, or there is none.
    pub coupling: Option<Length>,
    /// The offset that it makes, where it slopes between square lines.
    pub offset: Option<Offset>,
}

/// What is cut in one go.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// The piece's mark, with its number where there are more: "P3.2".
    pub mark: String,
    /// Its length by reckoning.
    pub exact: Length,
    /// Its length by the rule: to 1/16 in, or to 1 mm.
    pub length: Length,
}

/// How a piece is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Making {
    /// Cut from stock lengths.
    Cut,
    /// Bought as a nipple of a standard length, the nearest one.
    Nipple(Length),
    /// Laid from a coil, as measured.
    Coil,
    /// No pipe: a street elbow is screwed straight in.
    Direct,
    /// Too short to exist: the shortest that can, from centre to centre.
    TooShort(Length),
    /// Too long to be planned.
    TooLong,
    /// Its size is not known.
    NoSize,
}

/// Up to this cut length a piece of threaded pipe is a nipple, whatever its length; common practice, no source.
const ALWAYS_NIPPLE: f64 = 6.0;
/// A longer piece is a nipple when one of a standard length is so near, inches; common practice, no source.
const NEAR_NIPPLE: f64 = 0.125;
/// More parts than this in one piece are a slip of the pen.
const MOST_PARTS: i64 = 1000;

impl CutList {
    /// The pieces of a job.
    pub fn of(job: &Job, study: &Study, book: &Codebook) -> CutList {
        let profile = book.profile(&study.profile).unwrap_or(book.default_profile());
        let survey = Survey::of(job, book, profile);
        let ends = Ends {
            survey: &survey,
            fittings: &study.fittings,
            joints: &study.assemblies,
        };
        let pipe = Pipe { ends, study };
        let mut pieces: Vec<Draft> = Vec::new();
        let mut piece_of: Vec<Option<usize>> = vec![None; job.runs.len()];
        for (run, [from, to]) in in_flow_order(&survey) {
            if survey.states[run] != State::New || study.runs[run].is_hose {
                continue;
            }
            let before = survey.network.feed[from].filter(|&feed| feed != run);
            let on = before.filter(|&feed| pipe.goes_through(from, feed, run));
            let piece = match on.and_then(|feed| piece_of[feed]) {
                Some(piece) => piece,
                None => {
                    pieces.push(Draft {
                        runs: Vec::new(),
                        from,
                        to,
                    });
                    pieces.len() - 1
                }
            };
            piece_of[run] = Some(piece);
            pieces[piece].runs.push(run);
            pieces[piece].to = to;
        }
        let made = pieces.into_iter().enumerate();
        CutList {
            pieces: made.map(|(at, draft)| draft.made(at + 1, &pipe)).collect(),
            names: study.names,
            nipples: JointNipple::all(job, study, book),
        }
    }

    /// The parts of all pieces that are cut from stock lengths or laid from a coil.
    pub fn parts(&self) -> impl Iterator<Item = (&Piece, &Part)> {
        self.pieces
            .iter()
            .flat_map(|piece| piece.parts.iter().map(move |part| (piece, part)))
    }
}

/// What is asked again and again while a cut list is made.
struct Pipe<'s> {
    ends: Ends<'s>,
    study: &'s Study,
}

impl Pipe<'_> {
    /// The size on the drawing.
    fn size(&self, run: usize) -> Option<NominalSize> {
        self.study.size(self.ends.survey.job, run)
    }

    /// Whether two runs go through a joint as one piece.
    fn goes_through(&self, joint: usize, a: usize, b: usize) -> bool {
        let materials = &self.ends.survey.materials;
        self.study.assemblies[joint].through && materials[a] == materials[b]
    }

    /// Whether the male end of a street elbow stands in the place of a run.
    fn is_direct(&self, run: usize, [from, to]: [usize; 2]) -> bool {
        [from, to]
            .iter()
            .any(|&joint| self.study.assemblies[joint].direct == Some(run))
    }
}

/// Runs in flow order with their ends, upstream first; then those that no gas reaches.
fn in_flow_order(survey: &Survey) -> Vec<(usize, [usize; 2])> {
    let network = &survey.network;
    let fed = network.order.iter().filter_map(|&joint| network.feed[joint]);
    let fed = fed.filter_map(|run| network.ends[run].map(|(from, to)| (run, [from, to])));
    let others = (0..survey.lengths.len()).filter(|&run| network.ends[run].is_none());
    let others = others.filter_map(|run| network.joints_of[run].map(|(from, to)| (run, [from, to])));
    fed.chain(others).collect()
}

/// A piece of which only the runs are known.
struct Draft {
    runs: Vec<usize>,
    from: usize,
    to: usize,
}

impl Draft {
    fn made(self, number: usize, pipe: &Pipe) -> Piece {
        let survey = pipe.ends.survey;
        let first = self.runs.first().copied().unwrap_or_default();
        let last = self.runs.last().copied().unwrap_or_default();
        let length = |&run: &usize| survey.job.true_length(survey.job.runs.at(run));
        let offset = self.offset(survey);
        // Lines that lie as far apart as they are drawn: the travel is that of the elbows, not of the drawing.
        let centre_to_centre = match offset.filter(|offset| !offset.is_as_found()) {
            Some(offset) => offset.travel,
            None => self.runs.iter().map(length).sum(),
        };
        let mut piece = Piece {
            mark: format!("P{number}"),
            material: survey.materials[first],
            size: pipe.size(first),
            centre_to_centre,
            ends: [pipe.ends.at(first, self.from), pipe.ends.at(last, self.to)],
            making: Making::NoSize,
            parts: Vec::new(),
            coupling: None,
            offset,
            runs: self.runs,
        };
        piece.making = match pipe.is_direct(first, [self.from, self.to]) {
            true => Making::Direct,
            false => piece.make(survey),
        };
        if matches!(piece.making, Making::Cut | Making::Coil) {
            piece.part(survey);
        }
        piece
    }

    /// The offset that it makes: as measured, or else as drawn.
    fn offset(&self, survey: &Survey) -> Option<Offset> {
        let &[run] = self.runs.as_slice() else { return None };
        let (job, drawn) = (survey.job, survey.job.runs.at(run));
        match drawn.measured() {
            Some(Ok(offset)) => Some(offset),
            // Tubing has no elbows: it bends as it is laid.
            Some(Err(_)) | None if survey.materials[run].bends() => None,
            Some(Err(_)) | None => {
                let way = survey.places[self.to] - survey.places[self.from];
                Offset::drawn(way, survey.lines[run]?, job.settings.step, drawn.length)
            }
        }
    }
}

impl Piece {
    /// Cut length by reckoning: centre to centre less both take-outs.
    pub fn cut(&self) -> Length {
        self.centre_to_centre - self.ends[0].take_out() - self.ends[1].take_out()
    }

    /// What both ends take out by reckoning; unknown ones take nothing.
    pub fn taken_out(&self) -> Length {
        self.centre_to_centre - self.cut()
    }

    /// Whether nothing of it must be measured first: the take-outs of both ends are known, or there is no pipe.
    pub fn is_known(&self) -> bool {
        self.making == Making::Direct || self.ends.iter().all(End::is_known)
    }

    /// Whether it lies between two ends that nobody has measured: no length can be told before they are.
    pub fn must_be_measured(&self) -> bool {
        let is_made = matches!(self.making, Making::Cut | Making::Coil | Making::Nipple(_));
        is_made && self.ends.iter().all(|end| !end.is_known())
    }

    /// Whether it is drawn as pipe on the male end of a street elbow, where none goes.
    pub fn is_on_a_male_end(&self) -> bool {
        let male = self.ends.iter().any(|end| matches!(end.taken, Taken::Male(_)));
        male && !matches!(self.making, Making::Direct | Making::NoSize)
    }

    /// How many couplings join its parts.
    pub fn couplings(&self) -> usize {
        self.parts.len().saturating_sub(1)
    }

    fn make(&self, survey: &Survey) -> Making {
        let Some(size) = self.size else {
            return Making::NoSize;
        };
        let cut = self.cut();
        let taken = self.centre_to_centre - cut;
        let kind = PipeKind::of(self.material);
        if !self.material.is_threaded() {
            return match cut > Length::ZERO {
                true if self.material.is_coiled() || self.is_soft(survey, size) => Making::Coil,
                true => self.within_reason(survey, cut, kind),
                false => Making::TooShort(taken),
            };
        }
        let Some(nipples) = survey.book.nipples(size) else {
            return match cut > Length::ZERO {
                true => self.within_reason(survey, cut, kind),
                false => Making::TooShort(taken),
            };
        };
        let shortest = survey.book.shortest_nipple(survey.profile, size);
        let shortest = shortest.map(|length| length.value).unwrap_or_default();
        let longer = nipples.longer.iter().copied().filter(|length| *length > shortest);
        let standard = || std::iter::once(shortest).chain(longer.clone());
        // A list to 1/16 in does not tell a nipple from one that is half as much shorter.
        if cut + Length::from_inches(1.0 / 32.0) < shortest {
            return Making::TooShort(taken + shortest);
        }
        let nearest = standard().min_by_key(|length| (*length - cut).magnitude());
        match nearest {
            Some(nipple)
                if cut <= Length::from_inches(ALWAYS_NIPPLE)
                    || (nipple - cut).magnitude() <= Length::from_inches(NEAR_NIPPLE) =>
            {
                Making::Nipple(nipple)
            }
            _ => self.within_reason(survey, cut, kind),
        }
    }

    /// Whether it is copper from the coil, of a size and length that comes so: in the soil, where no joint should lie, and
    /// where it is flared, for hard tube cracks; common practice, no source.
    fn is_soft(&self, survey: &Survey, size: NominalSize) -> bool {
        let flared = survey.job.settings.copper.joining(self.material) == Joining::Flared;
        let mut runs = self.runs.iter().map(|&run| survey.job.runs.at(run).surroundings);
        let longest = survey.book.coils(PipeKind::of(self.material), size).pop();
        (flared || runs.all(|lies| lies == Surroundings::Underground))
            && longest.is_some_and(|coil| self.cut() <= coil.value)
    }

    fn within_reason(&self, survey: &Survey, cut: Length, kind: PipeKind) -> Making {
        let stick = survey.book.stock_length(kind).map(|stick| stick.value.eighths_of_um());
        match stick {
            Some(stick) if cut.eighths_of_um() / MOST_PARTS > stick => Making::TooLong,
            _ => Making::Cut,
        }
    }

    /// Parts what is longer than a stick: whole sticks first, joined by couplings.
    fn part(&mut self, survey: &Survey) {
        let book = survey.book;
        let cut = self.cut();
        let stick = book.stock_length(PipeKind::of(self.material)).map(|stick| stick.value);
        let lengths = match stick {
            Some(stick) if stick > Length::ZERO && cut > stick && self.making == Making::Cut => {
                if let Some(size) = self.size.filter(|_| self.material.is_threaded())
                    && let Some(half) = book.centre_to_end(Threaded::Coupling, size, size)
                    && let Some(make_up) = book.make_up(&survey.profile.thread_make_up, size)
                {
                    self.coupling = Some((half.value - make_up.value).times(2.0));
                }
                let least = self.size.and_then(|size| survey.book.nipples(size));
                let least = least.map_or(Length::ZERO, |nipples| nipples.close.value);
                parted(cut, stick, self.coupling.unwrap_or_default(), least)
            }
            _ => vec![cut],
        };
        let many = lengths.len() > 1;
        let units = survey.job.settings.units;
        let part = |(at, exact): (usize, Length)| Part {
            mark: if many {
                format!("{}.{}", self.mark, at + 1)
            } else {
                self.mark.clone()
            },
            exact,
            length: rounded(exact, units),
        };
        self.parts = lengths.into_iter().enumerate().map(part).collect();
    }
}

/// Whole sticks and a rest, each coupling between them adding `gap`; a rest too short to be made takes from the stick before it.
fn parted(cut: Length, stick: Length, gap: Length, least: Length) -> Vec<Length> {
    let mut parts = Vec::new();
    let mut rest = cut;
    while rest > stick {
        parts.push(stick);
        rest = rest - stick - gap;
    }
    if rest < least
        && let Some(last) = parts.last_mut()
    {
        *last = *last + rest - least;
        rest = least;
    }
    parts.push(rest);
    parts
}

/// The finest mark of the rule that lengths are printed to.
fn mark(units: UnitSystem) -> Length {
    match units {
        UnitSystem::Us => Length::from_inches(1.0 / 16.0),
        UnitSystem::Metric | UnitSystem::MetricKpa => Length::from_mm(1.0),
    }
}

/// To the nearest 1/16 in, or to the nearest millimetre.
pub fn rounded(length: Length, units: UnitSystem) -> Length {
    let step = mark(units).eighths_of_um();
    let total = length.eighths_of_um();
    let half = step / 2 * total.signum();
    Length::from_eighths_of_um(total.saturating_add(half) / step * step)
}

#[cfg(test)]
mod tests {
    use super::super::cut::*;

    #[test]
    fn a_rest_too_short_to_be_threaded_takes_from_the_stick_before_it() {
        let feet = Length::from_feet;
        let gap = Length::from_inches(0.5);
        let close = Length::from_inches(1.5);
        assert_eq!(
            parted(feet(25.0), feet(21.0), gap, close),
            [feet(21.0), feet(4.0) - gap]
        );
        let short = parted(feet(21.0) + close, feet(21.0), gap, close);
        assert_eq!(short, [feet(21.0) - gap, close]);
        assert_eq!(parted(feet(63.0), feet(21.0), gap, close).len(), 3);
    }

    #[test]
    fn lengths_round_to_a_sixteenth_or_a_millimetre() {
        let inches = |inches: f64| rounded(Length::from_inches(inches), UnitSystem::Us).inches();
        assert_eq!((inches(1.04), inches(1.02), inches(-1.04)), (1.0625, 1.0, -1.0625));
        assert_eq!(
            rounded(Length::from_mm(12.6), UnitSystem::Metric),
            Length::from_mm(13.0)
        );
    }
}
