//! The window as it is: a real display, real OpenGL, a real mouse and keyboard (`xvfb`, `xdotool`).
//!
//! Ignored unless asked for, since a machine may have no display; `.ci/run` installs what it needs and asks.
#![cfg(feature = "window")]

#[path = "support/dice.rs"]
mod dice;
#[path = "real_window/kills.rs"]
mod kills;
#[path = "real_window/screen.rs"]
mod screen;

use screen::Screen;
use stubout::job::{Device, Job};

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
    screen.click(80, 126);
    screen.click(420, 400);
    screen.key("d");
    screen.click(420, 400);
    screen.point(560, 320);
    screen.text("12-6");
    screen.picture("real-2-typed");
    screen.key("Return");
    screen.key("Right");
    screen.text("8");
    screen.key("Return");
    screen.key("Prior");
    screen.text("3ft 6in");
    screen.key("Return");
    // The line ends; the appliance goes to its end, which is chosen now.
    screen.key("Escape");
    screen.click(80, 487);
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

/// A display that is there, but has no OpenGL: its drivers are nowhere.
#[test]
#[ignore = "needs a display of its own: Xvfb, and OpenGL as Mesa has it"]
fn without_opengl_it_says_so_and_draws_a_sample_job_not_in_the_real_window() {
    let screen = Screen::empty();
    for (arguments, code, expected) in [
        (&[][..], 0, "The sheets of a sample job, a patio kitchen, go to "),
        (&["job.ron"], 2, "`stubout draw job.ron`"),
    ] {
        std::fs::write(screen.file("job.ron"), "()").unwrap();
        let output = screen
            .call(arguments)
            .env("LIBGL_DRIVERS_PATH", "/nowhere")
            .output()
            .unwrap();
        let line = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(code), "{line}");
        assert!(
            line.starts_with("Can't open the window: this display has no OpenGL. ") && line.contains(expected),
            "{line}"
        );
        assert_eq!(line.lines().count(), 1, "{line}");
    }
    assert!(screen.file("stubout-patio-kitchen/patio-kitchen.pdf").is_file());
}
