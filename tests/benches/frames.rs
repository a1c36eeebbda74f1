//! How long a whole frame of a real window takes, painting by OpenGL included, with everything in view: `cargo bench
//! --bench frames`, on a display (`xvfb-run` gives one with software painting).
//!
//! Measured 2026-11-25, 1360 x 860, software OpenGL. Pointer moves: 100 runs 7.5 ms, 2,000 14 to 15 ms, 10,000 64 to 70 ms;
//! paper is dragged: 9.5, 15 to 17, 67 to 86 ms.

#[path = "../support/street.rs"]
mod street;

use eframe::egui;
use stubout::app::App;
use stubout::desk::settings::Settings;

const FRAMES: usize = 240;
/// The first is to warm up: the first frames of a window fill its caches.
const SIZES: [usize; 4] = [100, 100, 2_000, 10_000];

/// The window with a hand that moves over the paper, then drags it.
struct Measured {
    app: App,
    sizes: Vec<usize>,
    frame: usize,
    seconds: Vec<f32>,
}

impl Measured {
    fn next(&mut self, ctx: &egui::Context) {
        for (what, part) in [
            ("pointer moves", 20..FRAMES / 2),
            ("paper is dragged", FRAMES / 2 + 20..FRAMES),
        ] {
            let mut times = self.seconds[part].to_vec();
            times.sort_by(f32::total_cmp);
            let at = |share: f32| times[(times.len() as f32 * share) as usize] * 1e3;
            println!(
                "{:>6} runs, {what}: median {:.2} ms, slowest of twenty {:.2} ms",
                self.sizes[0],
                at(0.5),
                at(0.95)
            );
        }
        self.sizes.remove(0);
        match self.sizes.first() {
            Some(size) => self.app.open(street::street(*size)),
            None => ctx.send_viewport_cmd(egui::ViewportCommand::Close),
        }
        (self.frame, self.seconds) = (0, Vec::new());
    }
}

impl eframe::App for Measured {
    fn raw_input_hook(&mut self, _: &egui::Context, input: &mut egui::RawInput) {
        let way = (self.frame % 60) as f32 * 4.0;
        let at = egui::pos2(420.0 + way, 300.0 + way / 3.0);
        input.events.push(egui::Event::PointerMoved(at));
        if self.frame == FRAMES / 2 || self.frame == FRAMES - 1 {
            input.events.push(egui::Event::PointerButton {
                pos: at,
                button: egui::PointerButton::Middle,
                pressed: self.frame == FRAMES / 2,
                modifiers: egui::Modifiers::NONE,
            });
        }
    }

    fn ui(&mut self, ui: &mut egui::Ui, frame: &mut eframe::Frame) {
        self.app.ui(ui, frame);
        ui.ctx().request_repaint();
        // The time of the frame before.
        if let Some(seconds) = frame.info().cpu_usage
            && self.app.desk().is_current()
        {
            self.seconds.push(seconds);
            self.frame += 1;
        }
        if self.frame == FRAMES && !self.sizes.is_empty() {
            self.next(ui.ctx());
        }
    }
}

fn main() {
    if std::env::var_os("DISPLAY").is_none() && std::env::var_os("WAYLAND_DISPLAY").is_none() {
        println!("no display: nothing measured");
        return;
    }
    let mut options = eframe::NativeOptions {
        viewport: egui::ViewportBuilder::default().with_inner_size([1360.0, 860.0]),
        ..Default::default()
    };
    options.glow_options.vsync = false;
    let start = |cc: &eframe::CreationContext<'_>| {
        let mut app = App::with(cc, Settings::default());
        app.open(street::street(SIZES[0]));
        Measured {
            app,
            sizes: SIZES.to_vec(),
            frame: 0,
            seconds: Vec::new(),
        }
    };
    eframe::run_native("stubout frames", options, Box::new(|cc| Ok(Box::new(start(cc))))).expect("a window opens");
}
