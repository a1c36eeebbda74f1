//! A display of its own with the program on it (`Xvfb`, `xdotool`).

use std::fs;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};
use stubout::job::Job;

/// The window's size; without a window manager it stands at the screen's corner.
const SCREEN: &str = "1360x860x24";

/// A display of its own and the program on it; both are gone when the test is.
pub struct Screen {
    display: String,
    server: Child,
    pub program: Option<Child>,
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
    /// A display without anything on it.
    pub fn empty() -> Screen {
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
        let screen = Screen {
            display: format!(":{}", number.trim()),
            server,
            program: None,
            home: tempfile::tempdir().unwrap(),
        };
        assert!(screen.display.len() > 1, "Xvfb came to no display");
        screen
    }

    /// A display with the window on it, which has the keyboard.
    pub fn open(arguments: &[&str]) -> Screen {
        let mut screen = Screen::empty();
        screen.start(arguments);
        screen
    }

    /// Starts the program and gives its window the keyboard.
    pub fn start(&mut self, arguments: &[&str]) {
        self.program = Some(self.call(arguments).spawn().unwrap());
        let name = self.tool(&["search", "--sync", "--onlyvisible", "--name", "Stubout"]);
        assert!(!name.trim().is_empty(), "no window came");
        self.tool(&["search", "--onlyvisible", "--name", "Stubout", "windowfocus"]);
        self.rest(1500);
    }

    /// For how long threads of the program and of its display were ready and had no processor, all together: a key that is
    /// sent meanwhile comes later. Known on Linux; elsewhere none.
    pub fn starved(&self) -> Duration {
        let of = |process: u32| {
            let threads = fs::read_dir(format!("/proc/{process}/task"))
                .into_iter()
                .flatten()
                .flatten();
            let told = threads.filter_map(|thread| fs::read_to_string(thread.path().join("schedstat")).ok());
            let waited = told.filter_map(|told| told.split_whitespace().nth(1)?.parse::<u64>().ok());
            Duration::from_nanos(waited.sum())
        };
        let processes = self.program.iter().chain([&self.server]);
        processes.map(|process| of(process.id())).sum()
    }

    /// Ends the program as a power cut does, so that it can do nothing about it.
    pub fn kill(&mut self) {
        if let Some(mut program) = self.program.take() {
            program.kill().unwrap();
            program.wait().unwrap();
        }
    }

    /// The program as it is called on this display, with a home of its own.
    pub fn call(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_stubout"));
        command
            .args(arguments)
            .current_dir(self.home.path())
            .env("DISPLAY", &self.display)
            .env("HOME", self.home.path())
            .env("XDG_DATA_HOME", self.home.path().join("data"))
            .env_remove("WAYLAND_DISPLAY")
            // No dialog of the desktop on which the test is run.
            .env("DBUS_SESSION_BUS_ADDRESS", "disabled:");
        command
    }

    /// Waits for something for half a minute at most: machines that build this are slow.
    #[track_caller]
    pub fn wait(&self, what: &str, mut is_there: impl FnMut() -> bool) {
        let start = Instant::now();
        while !is_there() {
            assert!(start.elapsed() < Duration::from_secs(30), "{what} did not come");
            std::thread::sleep(Duration::from_millis(50));
        }
    }

    pub fn rest(&self, ms: u64) {
        std::thread::sleep(Duration::from_millis(ms));
    }

    pub fn tool(&self, arguments: &[&str]) -> String {
        let output = Command::new("xdotool")
            .args(arguments)
            .env("DISPLAY", &self.display)
            .output()
            .expect("xdotool is installed");
        String::from_utf8_lossy(&output.stdout).into_owned()
    }

    pub fn key(&self, keys: &str) {
        self.tool(&["key", keys]);
        self.rest(120);
    }

    pub fn text(&self, text: &str) {
        self.tool(&["type", "--delay", "40", text]);
        self.rest(150);
    }

    /// Moves the mouse in a few steps, as a hand does.
    pub fn point(&self, x: i32, y: i32) {
        for away in [24, 9, 0] {
            let (x, y) = ((x - away).to_string(), (y - away / 2).to_string());
            self.tool(&["mousemove", &x, &y]);
            self.rest(60);
        }
    }

    pub fn click(&self, x: i32, y: i32) {
        self.point(x, y);
        self.tool(&["click", "1"]);
        self.rest(150);
    }

    /// A picture of the screen, where somebody wants to look at it.
    pub fn picture(&self, name: &str) {
        if let Ok(folder) = std::env::var("LOOK") {
            let file = Path::new(&folder).join(format!("{name}.png"));
            let screen = Command::new("import")
                .args(["-window", "root", &file.to_string_lossy()])
                .env("DISPLAY", &self.display)
                .status();
            assert!(screen.is_ok(), "imagemagick is installed");
        }
    }

    pub fn file(&self, name: &str) -> PathBuf {
        self.home.path().join(name)
    }

    pub fn job(&self, name: &str) -> Job {
        let text = fs::read_to_string(self.file(name)).unwrap();
        stubout::file::read(&text).unwrap()
    }
}
