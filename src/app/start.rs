//! The window comes, or it is said why not, in plain words: what libraries of the display and of OpenGL say meanwhile is
//! for those who build them, and some of them give up by a panic.

use super::App;
use eframe::{Error, NativeOptions};
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree};
use std::cell::Cell;
use std::env;
use std::panic::{self, AssertUnwindSafe, PanicHookInfo};
use std::path::PathBuf;
use std::process::ExitCode;

/// The name under which the system keeps what is remembered, and by which it knows whose window it is.
pub const NAME: &str = "stubout";
/// Exit code of a window that came and was lost.
const TROUBLE: u8 = 2;

/// Opens the window, with the job of a file if one is given, and returns when it is closed.
///
/// # Errors
/// When no window comes: why, as the end of a sentence.
pub fn run(file: Option<PathBuf>) -> Result<ExitCode, String> {
    let viewport = egui::ViewportBuilder::default()
        .with_title("Stubout")
        .with_app_id(NAME)
        .with_icon(icon().unwrap_or_default())
        // As large as the screen leaves room for; where nothing manages windows, no larger than a small laptop's screen.
        .with_inner_size([1280.0, 690.0])
        .with_maximized(true)
        .with_min_inner_size([760.0, 480.0]);
    let options = NativeOptions {
        viewport,
        ..Default::default()
    };
    let quiet = Cell::new(Some(Quiet::begin()));
    let is_there = Cell::new(false);
    let start = |cc: &eframe::CreationContext<'_>| {
        quiet.take();
        is_there.set(true);
        let mut app = App::new(cc);
        if let Some(file) = file {
            app.open_file(file);
        }
        app
    };
    let window = || eframe::run_native(NAME, options, Box::new(|cc| Ok(Box::new(start(cc)))));
    let ended = panic::catch_unwind(AssertUnwindSafe(window));
    quiet.take();
    match ended {
        Ok(Ok(())) => Ok(ExitCode::SUCCESS),
        Ok(Err(_)) if is_there.get() => {
            eprintln!(
                "The display was lost while the window was open. What was not saved is offered at the next start."
            );
            Ok(ExitCode::from(TROUBLE))
        }
        Err(fault) if is_there.get() => panic::resume_unwind(fault),
        Ok(Err(error)) => Err(why(&error)),
        Err(_) => Err("this display lacks a part that a window needs".to_owned()),
    }
}

/// The icon of the window, painted of the drawing from which those of the package are made.
fn icon() -> Option<egui::IconData> {
    const SIDE: u32 = 128;
    let tree = Tree::from_str(include_str!("../../assets/package/stubout.svg"), &Options::default()).ok()?;
    let mut picture = Pixmap::new(SIDE, SIDE)?;
    let scale = SIDE as f32 / tree.size().width();
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut picture.as_mut());
    let colors = picture.pixels().iter().map(|pixel| pixel.demultiply());
    let rgba = colors.flat_map(|color| [color.red(), color.green(), color.blue(), color.alpha()]);
    Some(egui::IconData {
        rgba: rgba.collect(),
        width: SIDE,
        height: SIDE,
    })
}

/// Why no window came.
fn why(error: &Error) -> String {
    match error {
        Error::WinitEventLoop(_) => {
            let named = ["WAYLAND_DISPLAY", "DISPLAY"].map(|name| env::var(name).unwrap_or_default());
            match named.iter().find(|name| !name.is_empty()) {
                Some(name) => format!("the display {name} can't be opened"),
                None => "there is no display".to_owned(),
            }
        }
        Error::Glutin(_) | Error::NoGlutinConfigs(..) | Error::OpenGL(_) => "this display has no OpenGL".to_owned(),
        Error::AppCreation(_) | Error::Winit(_) => "this display takes no window".to_owned(),
    }
}

type Hook = Box<dyn Fn(&PanicHookInfo<'_>) + Send + Sync>;

/// As long as this is kept nothing but our own words leaves the program by its standard error.
struct Quiet {
    hook: Option<Hook>,
    #[cfg(unix)]
    stderr: Option<std::os::fd::OwnedFd>,
}

impl Quiet {
    fn begin() -> Quiet {
        let hook = panic::take_hook();
        panic::set_hook(Box::new(|_| {}));
        Quiet {
            hook: Some(hook),
            #[cfg(unix)]
            stderr: muted(),
        }
    }
}

impl Drop for Quiet {
    fn drop(&mut self) {
        if let Some(hook) = self.hook.take() {
            panic::set_hook(hook);
        }
        #[cfg(unix)]
        if let Some(stderr) = self.stderr.take() {
            // Where it cannot be had back, nothing is left to say so.
            let _ = rustix::stdio::dup2_stderr(stderr);
        }
    }
}

/// Sends what is written to standard error nowhere; gives where it went before.
#[cfg(unix)]
fn muted() -> Option<std::os::fd::OwnedFd> {
    use std::os::fd::AsFd;
    let before = std::io::stderr().as_fd().try_clone_to_owned().ok()?;
    let nowhere = std::fs::OpenOptions::new().write(true).open("/dev/null").ok()?;
    rustix::stdio::dup2_stderr(nowhere).ok()?;
    Some(before)
}
