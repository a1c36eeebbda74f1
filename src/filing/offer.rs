//! Work that was left behind, offered: of which job, how old, and what it looks like.

use super::place;
use super::question::{answers, is_left, window};
use super::recovery::Left;
use crate::codebook::Codebook;
use crate::disk::{Trouble, capital};
use crate::drawing::{Lettering, Options, isometric};
use crate::job::Job;
use crate::look;
use crate::scene::{Group, Point, Rect};
use crate::study::Study;
use crate::view::ink::{Glass, tessellated};
use egui::{Context, RichText, Role, Sense, Shape, Ui, WidgetInfo, vec2};

/// The paper of the picture, mm; on the screen a mm is two points.
const PAPER: [f64; 2] = [210.0, 100.0];
const SCALE: f64 = 2.0;
/// A job of more runs is not drawn here: it would take longer than a glance is worth.
const MOST_DRAWN: usize = 2_000;

/// A copy, with what is in it.
pub struct Offer {
    /// Where it lies.
    pub left: Left,
    /// Its job, or why it cannot be read.
    pub read: Result<Box<Job>, Trouble>,
    /// Pipe and symbols, where there are any.
    picture: Option<Group>,
}

/// What becomes of a copy.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wish {
    /// It goes on the desk.
    Recover,
    /// It is thrown away.
    Discard,
    /// It is offered at the next start.
    Later,
}

impl Offer {
    /// Looks into a copy.
    pub fn of(left: Left, book: &Codebook) -> Offer {
        let read = left.read();
        let picture = read.as_ref().ok().and_then(|job| picture(job, book));
        Offer {
            left,
            read: read.map(Box::new),
            picture,
        }
    }

    /// Shows it and asks; `more` others are asked about after it.
    pub fn ui(&self, ctx: &Context, more: usize) -> Option<Wish> {
        let (heading, answer) = match &self.read {
            Ok(_) => (
                "Unsaved work found",
                ["Recover", "Discard", "Ask again later"].as_slice(),
            ),
            Err(_) => (
                "A copy of unsaved work can't be read",
                ["Ask again later", "Discard"].as_slice(),
            ),
        };
        let window = window(ctx, "left behind", 460.0, heading, |ui| {
            self.words(ui, more);
            match answer {
                [recover, discard, later] => answers(ui, [recover, discard, later]),
                [later, discard] => answers(ui, [later, discard]).map(|at| 2 - at),
                _ => None,
            }
        });
        let left = is_left(&window).then_some(2);
        match window.inner.or(left)? {
            0 => Some(Wish::Recover),
            1 => Some(Wish::Discard),
            _ => Some(Wish::Later),
        }
    }

    fn words(&self, ui: &mut Ui, more: usize) {
        let name = (self.left.of.as_deref()).map_or("a job without a file".to_owned(), place::shown_name);
        ui.label(format!(
            "Work on {name} was not saved. The copy was made {}.",
            self.left.age()
        ));
        if let Some(of) = &self.left.of {
            ui.label(of.display().to_string());
        }
        match &self.read {
            Ok(job) => {
                ui.label(told(job));
                self.show(ui);
            }
            Err(trouble) => {
                let color = look::warning(ui.visuals().dark_mode);
                ui.label(RichText::new(capital(&trouble.what)).color(color));
                ui.label(format!("The copy: {}", self.left.copy.display()));
            }
        }
        if self.left.is_older {
            ui.label("Its file was written after that and may hold more than this copy.");
        }
        if more > 0 {
            ui.label(format!("{more} more to ask about after this."));
        }
    }

    fn show(&self, ui: &mut Ui) {
        let Some(picture) = &self.picture else { return };
        let paper = Rect::sized(Point::default(), PAPER[0], PAPER[1]);
        let scale = SCALE.min(f64::from(ui.available_width()) / PAPER[0]);
        let size = vec2((PAPER[0] * scale) as f32, (PAPER[1] * scale) as f32);
        let (room, response) = ui.allocate_exact_size(size, Sense::hover());
        response.widget_info(|| WidgetInfo::labeled(Role::Image, true, "Preview of the copy"));
        let glass = Glass {
            origin: room.min,
            scale,
            pixels: ui.pixels_per_point(),
        };
        ui.painter().rect_filled(room, 0.0, look::PAPER);
        let mesh = tessellated(picture, glass, paper);
        ui.painter().with_clip_rect(room).add(Shape::mesh(mesh));
    }
}

/// Which job it is, and how much is drawn.
fn told(job: &Job) -> String {
    let title = &job.title;
    let name = [&title.job, &title.site].map(|words| words.trim());
    let name: Vec<&str> = name.into_iter().filter(|words| !words.is_empty()).collect();
    let name = if name.is_empty() {
        "No name in the title block".to_owned()
    } else {
        name.join(", ")
    };
    let runs = job.runs.len();
    let plural = if runs == 1 { "" } else { "s" };
    format!("{name}: {runs} run{plural} of pipe")
}

fn picture(job: &Job, book: &Codebook) -> Option<Group> {
    if job.joints.is_empty() || job.runs.len() > MOST_DRAWN {
        return None;
    }
    let options = Options {
        lettering: Lettering::Nothing,
        ..Options::default()
    };
    let area = Rect::sized(Point::default(), PAPER[0], PAPER[1]);
    Some(isometric(job, &Study::of(job, book), area, options).group)
}
