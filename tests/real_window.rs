//! The window as it is: a real display, real OpenGL, a real mouse and keyboard (`xvfb`, `xdotool`).
//!
//! Ignored unless asked for, since a machine may have no display; `.ci/run` installs what it needs and asks.
#![cfg(feature = "window")]

use std::fs;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};
use stubout::job::{Device, Job};

/// The window's size; without a window manager it stands at the screen's corner.
const SCREEN: &str = "1360x860x24";

/// A display of its own and the program on it; both are gone when the test is.
struct Screen {
    display: String,
    server: Child,
    program: Option<Child>,
    home: tempfile::TempDir,
}

impl Drop for Screen {
    fn drop(&mut self) {
        for child in self.program.iter_mut().chain([&mut self.server]) {
            child.kill().ok();
            child.wait().ok();
        }
    }
}

impl Screen {
    fn open(arguments: &[&str]) -> Screen {
        // The server chooses a free number itself and tells it when it is ready, never before: a socket that is
        // there may not be listened to yet, or be left over from a server that is gone.
        let mut server = Command::new("Xvfb")
            .args(["-displayfd", "1", "-noreset", "-screen", "0", SCREEN])
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("Xvfb is installed");
        let mut number = String::new();
        BufReader::new(server.stdout.take().unwrap())
            .read_line(&mut number)
            .unwrap();
        let mut screen = Screen {
            display: format!(":{}", number.trim()),
            server,
            program: None,
            home: tempfile::tempdir().unwrap(),
        };
        assert!(screen.display.len() > 1, "Xvfb came to no display");
        let program = Command::new(env!("CARGO_BIN_EXE_stubout"))
            .args(arguments)
            .current_dir(screen.home.path())
            .env("DISPLAY", &screen.display)
            .env("HOME", screen.home.path())
            .env("XDG_DATA_HOME", screen.home.path().join("data"))
            .env_remove("WAYLAND_DISPLAY")
            // No dialog of the desktop on which the test is run.
            .env("DBUS_SESSION_BUS_ADDRESS", "disabled:")
            .spawn()
            .unwrap();
        screen.program = Some(program);
        let name = screen.tool(&["search", "--sync", "--onlyvisible", "--name", "Stubout"]);
        assert!(!name.trim().is_empty(), "no window came");
        screen.tool(&["search", "--onlyvisible", "--name", "Stubout", "windowfocus"]);
        screen.rest(1500);
        screen
    }

    /// Waits for something for half a minute at most: machines that build this are slow.
    #[track_caller]
    fn wait(&self, what: &str, mut is_there: impl FnMut() -> bool) {
        let start = Instant::now();
        while !is_there() {
            assert!(start.elapsed() < Duration::from_secs(30), "{what} did not come");
            std::thread::sleep(Duration::from_millis(50));
        }
    }

    fn rest(&self, ms: u64) {
        std::thread::sleep(Duration::from_millis(ms));
    }

    fn tool(&self, arguments: &[&str]) -> String {
        let output = Command::new("xdotool")
            .args(arguments)
            .env("DISPLAY", &self.display)
            .output()
            .expect("xdotool is installed");
        String::from_utf8_lossy(&output.stdout).into_owned()
    }

    fn key(&self, keys: &str) {
        self.tool(&["key", keys]);
        self.rest(120);
    }

    fn text(&self, text: &str) {
        self.tool(&["type", "--delay", "40", text]);
        self.rest(150);
    }

    /// Moves the mouse in a few steps, as a hand does.
    fn point(&self, x: i32, y: i32) {
        for away in [24, 9, 0] {
            let (x, y) = ((x - away).to_string(), (y - away / 2).to_string());
            self.tool(&["mousemove", &x, &y]);
            self.rest(60);
        }
    }

    fn click(&self, x: i32, y: i32) {
        self.point(x, y);
        self.tool(&["click", "1"]);
        self.rest(150);
    }

    /// A picture of the screen, where somebody wants to look at it.
    fn picture(&self, name: &str) {
        if let Ok(folder) = std::env::var("LOOK") {
            let file = Path::new(&folder).join(format!("{name}.png"));
            let screen = Command::new("import")
                .args(["-window", "root", &file.to_string_lossy()])
                .env("DISPLAY", &self.display)
                .status();
            assert!(screen.is_ok(), "imagemagick is installed");
        }
    }

    fn file(&self, name: &str) -> PathBuf {
        self.home.path().join(name)
    }

    fn job(&self, name: &str) -> Job {
        let text = fs::read_to_string(self.file(name)).unwrap();
        stubout::file::read(&text).unwrap()
    }
}

fn devices(job: &Job, what: fn(&Device) -> bool) -> usize {
    job.joints
        .iter()
        .filter_map(|joint| joint.device())
        .filter(|device| what(device))
        .count()
}

#[test]
#[ignore = "opens a window on a display of its own: needs Xvfb, xdotool and OpenGL"]
fn three_runs_and_an_appliance_are_drawn_saved_and_handed_over_in_the_real_window() {
    let screen = Screen::open(&[]);
    screen.picture("real-1-welcome");
    screen.key("Escape");
    // The point of delivery from the shelf onto the paper, then pipe from it: by mouse, then by keys.
    screen.click(80, 101);
    screen.click(420, 400);
    screen.key("F2");
    screen.click(420, 400);
    screen.point(560, 320);
    screen.text("12-6");
    screen.picture("real-2-typed");
    screen.key("Return");
    screen.key("Next");
    screen.text("8");
    screen.key("Return");
    screen.key("Up");
    screen.text("3ft 6in");
    screen.key("Return");
    // The line ends; the appliance goes to its end, which is chosen now.
    screen.key("Escape");
    screen.click(80, 344);
    screen.key("Return");
    screen.picture("real-3-drawn");
    screen.key("ctrl+s");
    screen.rest(400);
    screen.key("ctrl+a");
    screen.text(&screen.file("drawn.ron").to_string_lossy());
    screen.picture("real-4-save");
    screen.key("Return");
    screen.wait("the job file", || screen.file("drawn.ron").exists());
    let job = screen.job("drawn.ron");
    let lengths: Vec<f64> = job.runs.iter().map(|run| job.true_length(run).feet()).collect();
    assert_eq!(lengths, [12.5, 8.0, 3.5]);
    assert_eq!(devices(&job, |device| matches!(device, Device::Supply(_))), 1);
    assert_eq!(devices(&job, |device| matches!(device, Device::Appliance(_))), 1);
    screen.rest(400);
    screen.key("ctrl+e");
    screen.rest(400);
    screen.key("ctrl+a");
    screen.text(&screen.file("sheet.pdf").to_string_lossy());
    screen.picture("real-5-hand-over");
    screen.key("Return");
    screen.wait("the sheet", || screen.file("sheet.pdf").exists());
    screen.rest(400);
    screen.picture("real-6-handed-over");
    let sheet = lopdf::Document::load(screen.file("sheet.pdf")).unwrap();
    let pages: Vec<u32> = sheet.get_pages().keys().copied().collect();
    let words = sheet.extract_text(&pages).unwrap();
    for expected in ["12'-6", "8'-0", "3'-6", "GAS PIPING ISOMETRIC"] {
        assert!(words.contains(expected), "{expected} is not on the sheet: {words}");
    }
}
