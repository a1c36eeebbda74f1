//! How the job stands, in one line: what must be fixed, what to check, the load, and the lowest margin of pressure; and
//! from there to the lists by their questions.

use super::lists::Question;
use crate::desk::{Desk, Shown};
use crate::job::Detail;
use crate::look::{self, Mood};
use crate::rules::Severity;
use crate::sheet::figures::{Figures, plain};
use crate::study::how_many;
use crate::units::{GaugePressure, UnitSystem};
use egui::{Align, Button, Frame, Label, Layout, Panel, Pos2, RichText, Sense, Shape, Stroke, Ui, WidgetInfo, vec2};

/// Height of the line, points.
pub const HEIGHT: f32 = 28.0;

/// So many letters of outlets are named; the others are counted.
const NAMED: usize = 3;

/// How a job stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Standing {
    /// Whether it is good.
    pub mood: Mood,
    /// What is said first.
    pub head: String,
    /// What is said of it further, each a few words.
    pub rest: Vec<String>,
}

impl Standing {
    /// How the job of the desk stands.
    pub fn of(desk: &Desk) -> Standing {
        let open = |head: &str| Standing {
            mood: Mood::Open,
            head: head.to_owned(),
            rest: Vec::new(),
        };
        match desk.is_current() {
            false => open("Updating…"),
            true if desk.job().joints.is_empty() => open("Nothing is drawn yet"),
            true => Standing::of_shown(desk.shown()),
        }
    }

    fn of_shown(shown: &Shown) -> Standing {
        let count = |severity| {
            let findings = shown.checked.findings.iter();
            findings.filter(|finding| finding.severity == severity).count()
        };
        let (mood, head) = match count(Severity::MustFix) {
            0 => (Mood::Clear, "No must-fix findings".to_owned()),
            many => (Mood::MustFix, how_many(many, "must-fix finding")),
        };
        let (checks, notes) = (count(Severity::Check), count(Severity::Note));
        let mut rest = Vec::new();
        rest.extend((checks > 0).then(|| how_many(checks, "check")));
        rest.extend((notes > 0).then(|| how_many(notes, "note")));
        rest.extend(load(shown));
        rest.extend(margin(shown));
        Standing { mood, head, rest }
    }

    /// What is said further, as one text.
    pub fn further(&self) -> String {
        self.rest.join(" · ")
    }
}

/// The load of all outlets, in the thousands in which it is spoken of.
fn load(shown: &Shown) -> Option<String> {
    let study = &shown.checked.study;
    (!study.outlets.is_empty()).then(|| match shown.job.settings.units {
        UnitSystem::Us => format!("{} MBH", plain(study.total.heat.btuh() / 1_000.0)),
        UnitSystem::Metric | UnitSystem::MetricKpa => format!("{} kW", plain(study.total.heat.kw())),
    })
}

/// The lowest margin of pressure, and the outlets of which none is known.
fn margin(shown: &Shown) -> Option<String> {
    let outlets = &shown.checked.study.outlets;
    let known = outlets.iter().filter_map(|outlet| Some((outlet.margin?, outlet)));
    let least = known.min_by(|(a, _), (b, _)| a.pa().total_cmp(&b.pa()));
    let unknown: Vec<_> = outlets
        .iter()
        .filter(|outlet| outlet.heat.is_some() && outlet.margin.is_none())
        .collect();
    let tags: Vec<&str> = unknown.iter().map(|outlet| outlet.tag.as_str()).collect();
    // What is missing is said for all of them at once.
    let why = match unknown.iter().all(|outlet| outlet.pressure.is_some()) {
        true => Detail::LeastInlet.in_sentence() + " not entered",
        false => "no pressure there yet".to_owned(),
    };
    let missing = match tags.len() {
        0 => None,
        few if few <= NAMED => Some(format!("margin not known at {} ({why})", tags.join(", "))),
        many => Some(format!("margin not known at {many} outlets ({why})")),
    };
    let said = least.map(|(margin, outlet)| {
        let largest = outlet.pressure.map_or(0.0, GaugePressure::pa);
        let unit = Figures::of(shown.checked.study.names.units()).pressure(GaugePressure::from_pa(largest));
        format!(
            "lowest margin {} {} at {}",
            unit.figure(margin),
            unit.head(),
            outlet.tag
        )
    });
    match (said, missing) {
        (Some(said), Some(missing)) => Some(format!("{said}, {missing}")),
        (said, missing) => said.or(missing),
    }
}

/// Shows the line; gives the question whose lists are asked for. `open` is the question whose lists lie open.
pub fn ui(ui: &mut Ui, desk: &Desk, open: Option<Question>) -> Option<Question> {
    let standing = Standing::of(desk);
    let back = look::standing(standing.mood, ui.visuals().dark_mode);
    let frame = Frame::new().fill(back).inner_margin(egui::Margin::symmetric(10, 0));
    Panel::bottom("standing")
        .exact_size(HEIGHT)
        .resizable(false)
        .frame(frame)
        .show(ui, |ui| {
            let mut asked = None;
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                ui.spacing_mut().item_spacing.x = 2.0;
                for question in Question::ALL.into_iter().rev() {
                    if ask(ui, question, open == Some(question)) {
                        asked = Some(question);
                    }
                }
                ui.add_space(10.0);
                ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                    ui.spacing_mut().item_spacing.x = 6.0;
                    tell(ui, &standing);
                });
            });
            asked
        })
        .inner
}

/// What is told of the job.
fn tell(ui: &mut Ui, standing: &Standing) {
    let color = look::standing_words(standing.mood, ui.visuals().dark_mode);
    let (rect, _) = ui.allocate_exact_size(vec2(14.0, 14.0), Sense::hover());
    let at = |x: f32, y: f32| rect.center() + vec2(x, y);
    match standing.mood {
        Mood::Clear => {
            let tick: Vec<Pos2> = vec![at(-5.0, 0.0), at(-1.5, 4.0), at(5.5, -5.0)];
            ui.painter().add(Shape::line(tick, Stroke::new(2.0, color)));
        }
        Mood::MustFix => {
            let square = egui::Rect::from_center_size(rect.center(), vec2(8.0, 8.0));
            ui.painter().rect_filled(square, 0.0, color);
        }
        Mood::Open => {}
    }
    let head = ui.add(Label::new(look::strong(&standing.head).color(color)).extend());
    if standing.mood == Mood::Clear {
        head.on_hover_text(
            "No findings from the rules that must be fixed. What the rules do not look at is not checked.",
        );
    }
    if !standing.rest.is_empty() {
        ui.add(Label::new(RichText::new(format!("· {}", standing.further()))).truncate());
    }
}

/// The way to the lists of a question; the mark beside it points up while they are closed.
fn ask(ui: &mut Ui, question: Question, is_open: bool) -> bool {
    let color = ui.visuals().hyperlink_color;
    let words = egui::WidgetText::from(look::strong(question.words()).color(color));
    let galley = words
        .clone()
        .into_galley(ui, None, f32::INFINITY, egui::TextStyle::Button);
    let size = vec2(galley.size().x + 40.0, 0.0);
    let response = ui.add(
        Button::new(words)
            .min_size(size)
            .frame_when_inactive(false)
            .selected(is_open),
    );
    response.widget_info(|| WidgetInfo::selected(egui::Role::Button, true, is_open, question.words()));
    let middle = response.rect.right_center() - vec2(12.0, 0.0);
    let tip = if is_open { 3.0 } else { -3.0 };
    let corners = [vec2(-4.0, -tip), vec2(4.0, -tip), vec2(0.0, tip)].map(|corner| middle + corner);
    let mark = Shape::convex_polygon(corners.to_vec(), color, Stroke::NONE);
    ui.painter().add(mark);
    response.on_hover_text(question.tip()).clicked()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{Device, Job};

    fn desk(job: Job) -> Desk {
        Desk::new(job, || {})
    }

    fn patio() -> Job {
        crate::file::read(include_str!("../../examples/patio-kitchen.ron")).unwrap()
    }

    #[test]
    fn an_empty_job_is_neither_good_nor_bad() {
        let standing = Standing::of(&desk(Job::default()));
        assert_eq!((standing.mood, standing.rest.len()), (Mood::Open, 0));
    }

    #[test]
    fn a_job_in_which_nothing_must_be_fixed_says_so_with_its_load_and_least_margin() {
        let desk = desk(patio());
        let standing = Standing::of(&desk);
        assert_eq!(
            (standing.mood, standing.head.as_str()),
            (Mood::Clear, "No must-fix findings")
        );
        let words = standing.further();
        // 80 and 40 stand there, 75, 50 and 35 MBH come: the inputs of the job file.
        assert!(words.contains("280 MBH"), "{words}");
        let outlets = &desk.shown().checked.study.outlets;
        let least = outlets
            .iter()
            .filter_map(|outlet| outlet.margin)
            .fold(f64::INFINITY, |least, margin| least.min(margin.inches_wc()));
        assert!(
            words.contains(&format!("lowest margin {least:.2} in w.c. at ")),
            "{words}"
        );
    }

    #[test]
    fn what_must_be_fixed_is_counted_and_a_margin_that_is_not_known_is_said() {
        let mut job = patio();
        let ids: Vec<_> = job.joints.iter().map(|joint| joint.id).collect();
        for id in ids {
            let placed = job.joints.get_mut(id).and_then(|joint| joint.placed.as_mut());
            if let Some(Device::Supply(supply)) = placed.map(|placed| &mut placed.device) {
                supply.pressure = None;
            }
        }
        let desk = desk(job);
        let standing = Standing::of(&desk);
        let count = desk.shown().checked.must_fix().count();
        assert!(count > 0);
        assert_eq!(
            (standing.mood, standing.head),
            (Mood::MustFix, how_many(count, "must-fix finding"))
        );
        let words = standing.rest.join(" ");
        assert!(
            words.contains("margin not known at") && !words.contains("lowest margin"),
            "{words}"
        );
    }
}
