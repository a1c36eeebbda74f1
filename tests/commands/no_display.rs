//! The program called for its window where none can be: one plain line, and what it can do all the same. What it says
//! where a display has no OpenGL is asked in `tests/real_window.rs`.

use super::{Desk, complained, said};
use std::fs;
use std::process::{Command, Output};

/// Calls without a display, and with displays at which nobody answers.
const DISPLAYS: [(&str, &str); 3] = [
    ("", "there is no display"),
    ("DISPLAY", "the display :64321 can't be opened"),
    ("WAYLAND_DISPLAY", "the display :64321 can't be opened"),
];

fn call(desk: &Desk, display: &str, arguments: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_stubout"));
    command.args(arguments).current_dir(desk.folder.path());
    for name in ["DISPLAY", "WAYLAND_DISPLAY", "WAYLAND_SOCKET"] {
        command.env_remove(name);
    }
    if !display.is_empty() {
        command.env(display, ":64321");
    }
    command.output().unwrap()
}

/// What a stranger reads is one line of plain words: no panic, no source file, no library and nothing of a programmer's.
#[track_caller]
fn one_plain_line(desk: &Desk, output: &Output) -> String {
    let line = complained(output);
    assert_eq!(line.lines().count(), 1, "{line}");
    let here = desk.folder.path().canonicalize().unwrap();
    let words = line.replace(here.to_str().unwrap(), "");
    for foreign in [
        "panic", ".rs", ".so", "lib", "winit", "glutin", "os error", "Error", "{", "unwrap",
    ] {
        assert!(!words.contains(foreign), "{foreign}: {line}");
    }
    line
}

#[cfg(all(unix, not(target_os = "macos")))]
#[test]
fn without_a_display_a_sample_job_is_drawn_into_a_folder_that_is_named() {
    for (display, why) in DISPLAYS {
        let desk = Desk::new();
        // Again, over its own sheets.
        for _ in 0..2 {
            let output = call(&desk, display, &[]);
            assert_eq!(output.status.code(), Some(0), "{}", complained(&output));
            let line = one_plain_line(&desk, &output);
            let folder = desk.folder.path().canonicalize().unwrap().join("stubout-patio-kitchen");
            assert!(line.contains(why) && line.contains(folder.to_str().unwrap()), "{line}");
            let mut names: Vec<String> = fs::read_dir(&folder)
                .unwrap()
                .map(|entry| entry.unwrap().file_name().into_string().unwrap())
                .collect();
            names.sort();
            assert!(names.contains(&"patio-kitchen.pdf".to_owned()), "{names:?}");
            assert!(names.iter().any(|name| name.ends_with(".svg")), "{names:?}");
            for name in &names {
                assert!(
                    said(&output).contains(&format!("wrote {}", folder.join(name).display())),
                    "{names:?}"
                );
            }
            assert!(said(&output).contains("Gas work is for licensed people."));
            assert_eq!(desk.names(), ["stubout-patio-kitchen"]);
            // The sheet carries the job, so whoever sees it can go on with it.
            let first = names.iter().find(|name| name.ends_with(".svg")).unwrap();
            let carried = fs::read(folder.join(first)).unwrap();
            let kitchen = stubout::file::read(include_str!("../../examples/patio-kitchen.ron")).unwrap();
            assert_eq!(stubout::file::read_bytes(&carried).unwrap(), kitchen);
        }
    }
}

#[cfg(all(unix, not(target_os = "macos")))]
#[test]
fn without_a_display_a_job_is_left_alone_and_the_command_that_draws_it_is_named() {
    for (display, why) in DISPLAYS {
        let desk = Desk::new();
        desk.example("patio-kitchen.ron");
        desk.put("my job.ron", "()");
        for (job, command) in [
            ("patio-kitchen.ron", "`stubout draw patio-kitchen.ron`"),
            ("my job.ron", "`stubout draw \"my job.ron\"`"),
        ] {
            let output = call(&desk, display, &[job]);
            assert_eq!(output.status.code(), Some(2));
            let line = one_plain_line(&desk, &output);
            assert!(line.contains(why) && line.contains(command), "{line}");
            assert!(output.stdout.is_empty(), "{}", said(&output));
        }
        assert_eq!(desk.names(), ["my job.ron", "patio-kitchen.ron"]);
        let output = call(&desk, display, &["nowhere.ron"]);
        assert_eq!(output.status.code(), Some(2));
        assert!(
            complained(&output).contains("nowhere.ron: there is no such file"),
            "{}",
            complained(&output)
        );
    }
}

#[cfg(all(unix, not(target_os = "macos")))]
#[test]
fn without_a_display_files_of_others_are_not_written_over() {
    let desk = Desk::new();
    fs::create_dir(desk.folder.path().join("stubout-patio-kitchen")).unwrap();
    let theirs = desk.put("stubout-patio-kitchen/patio-kitchen.pdf", "a letter");
    let output = call(&desk, "", &[]);
    assert_eq!(output.status.code(), Some(2));
    assert!(complained(&output).contains("did not write"), "{}", complained(&output));
    assert_eq!(fs::read_to_string(theirs).unwrap(), "a letter");
    // Where the folder's name is taken it goes elsewhere, and says where.
    let taken = Desk::new();
    taken.put("stubout-patio-kitchen", "a letter");
    let elsewhere = Desk::new();
    let output = Command::new(env!("CARGO_BIN_EXE_stubout"))
        .current_dir(taken.folder.path())
        .env_remove("DISPLAY")
        .env_remove("WAYLAND_DISPLAY")
        .env("TMPDIR", elsewhere.folder.path())
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(0), "{}", complained(&output));
    let folder = elsewhere.folder.path().join("stubout-patio-kitchen");
    assert!(
        complained(&output).contains(folder.to_str().unwrap()),
        "{}",
        complained(&output)
    );
    assert!(folder.join("patio-kitchen.pdf").is_file());
}
