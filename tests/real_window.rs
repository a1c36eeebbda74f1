//! The window as it is: a real display, real OpenGL, a real mouse and keyboard (`xvfb`, `xdotool`).
//!
//! Ignored unless asked for, since a machine may have no display; `.ci/run` installs what it needs and asks.
#![cfg(feature = "window")]

use std::fs;
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
        let display = format!(":{}", 200 + std::process::id() % 700);
        let server = Command::new("Xvfb")
            .args([&display, "-screen", "0", SCREEN])
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("Xvfb is installed");
        let mut screen = Screen {
            display,
            server,
            program: None,
            home: tempfile::tempdir().unwrap(),
        };
        let socket = PathBuf::from(format!("/tmp/.X11-unix/X{}", &screen.display[1..]));
        screen.wait("the display", || socket.exists());
        let program = Command::new(env!("CARGO_BIN_EXE_stubout"))
            .args(arguments)
            .current_dir(screen.home.path())
            .env("DISPLAY", &screen.display)
            .env("HOME", screen.home.path())
            .env("XDG_DATA_HOME", screen.home.path().join("data"))
            .env_remove("WAYLAND_DISPLAY")
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
