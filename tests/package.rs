//! The box that the program comes in: what `cargo deb` packs, held to the program and to what desktops ask for. Manual
//! pages, completions of shells and pictures of the icon are made here: `BLESS=1 cargo test --test package`.

#[path = "support/golden.rs"]
mod golden;

use clap_complete::Shell;
use golden::Golden;
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree};
use std::fs;
use std::path::Path;
use std::process::Command;

/// The files of the package that are written for desktops.
const DESKTOP: &str = include_str!("../assets/package/stubout.desktop");
const MIME: &str = include_str!("../assets/package/stubout.mime.xml");
const METAINFO: &str = include_str!("../assets/package/com.example.stubout.metainfo.xml");
const MANIFEST: &str = include_str!("../Cargo.toml");

/// A command line by itself, as pages are made of it.
fn command() -> clap::Command {
    stubout::cli::command().disable_help_subcommand(true)
}

#[test]
fn manual_pages_are_those_of_the_commands() {
    let mut golden = Golden::of("assets/package/man");
    let mut main = command();
    main.build();
    for sub in main.get_subcommands() {
        golden.text(&format!("stubout-{}.1", sub.get_name()), &page(sub));
    }
    golden.text("stubout.1", &page(&command()));
    golden.done();
}

fn page(command: &clap::Command) -> String {
    let man = clap_mangen::Man::new(command.clone().version(env!("CARGO_PKG_VERSION")));
    let mut page = Vec::new();
    man.render(&mut page).unwrap();
    let page = String::from_utf8(page).unwrap();
    assert!(
        page.contains("Gas work is for licensed people"),
        "a page without the caution"
    );
    page
}

#[test]
fn completions_are_those_of_the_commands() {
    let mut golden = Golden::of("assets/package/completions");
    for shell in [Shell::Bash, Shell::Zsh, Shell::Fish] {
        let mut text = Vec::new();
        clap_complete::generate(shell, &mut command(), "stubout", &mut text);
        let name = match shell {
            Shell::Zsh => "_stubout".to_owned(),
            _ => format!("stubout.{shell}"),
        };
        golden.text(&name, &String::from_utf8(text).unwrap());
    }
    golden.done();
}

#[test]
fn icons_are_pictures_of_the_one_drawing() {
    let tree = Tree::from_str(include_str!("../assets/package/stubout.svg"), &Options::default()).unwrap();
    for size in [32, 48, 64, 128, 256] {
        let mut picture = Pixmap::new(size, size).unwrap();
        let scale = Transform::from_scale(size as f32 / tree.size().width(), size as f32 / tree.size().height());
        resvg::render(&tree, scale, &mut picture.as_mut());
        let path = format!("assets/package/icons/{size}.png");
        if std::env::var_os("BLESS").is_some() {
            fs::write(&path, picture.encode_png().unwrap()).unwrap();
        }
        let kept = Pixmap::decode_png(&fs::read(&path).unwrap()).unwrap();
        let apart = kept
            .data()
            .iter()
            .zip(picture.data())
            .filter(|(a, b)| a.abs_diff(**b) > 24);
        assert_eq!((kept.width(), kept.height(), apart.count()), (size, size, 0), "{path}");
    }
}

#[test]
fn every_file_that_is_packed_is_there() {
    let list = MANIFEST
        .split("\nassets = [")
        .nth(1)
        .and_then(|rest| rest.split("\n]").next());
    let rows: Vec<Vec<&str>> = list
        .unwrap()
        .lines()
        .filter(|line| line.trim_start().starts_with('['))
        .map(|line| line.split('"').skip(1).step_by(2).collect())
        .collect();
    assert!(rows.len() > 15, "{rows:?}");
    for row in &rows {
        let [from, to, mode] = row[..] else { panic!("{row:?}") };
        assert_eq!(mode, if to == "usr/bin/" { "755" } else { "644" }, "{row:?}");
        if from.starts_with("target/") {
            continue;
        }
        let (folder, name) = from.rsplit_once('/').unwrap_or((".", from));
        let (before, after) = name.split_once('*').unwrap_or((name, ""));
        let there = fs::read_dir(folder).unwrap().flatten().any(|entry| {
            let found = entry.file_name().into_string().unwrap();
            found.starts_with(before) && found.ends_with(after) && (name.contains('*') || found == name)
        });
        assert!(there, "{from}");
    }
    // What the desktop's files speak of is among it.
    let all = rows.concat().join("\n");
    for name in [
        "applications/",
        "mime/packages/",
        "metainfo/",
        "scalable/apps/",
        "man1/",
        "third-party.txt",
        "README.md",
    ] {
        assert!(all.contains(name), "{name}");
    }
    // The guide shows pictures and names files beside itself.
    for (folder, packed) in [
        ("examples/", "examples/*.png"),
        ("assets/profiles", "assets/profiles/*"),
        ("assets/limits.md", "assets/*.md"),
        ("assets/job-file.md", "assets/*.md"),
    ] {
        assert!(
            include_str!("../README.md").contains(folder) && all.contains(packed),
            "{folder}"
        );
    }
}

#[test]
fn the_desktop_entry_says_how_a_job_is_opened() {
    let value = |key: &str| {
        let mut lines = DESKTOP
            .lines()
            .filter_map(|line| line.strip_prefix(key)?.strip_prefix('='));
        let value = lines.next().unwrap_or_else(|| panic!("{key}"));
        assert!(lines.next().is_none(), "{key} stands there twice");
        value
    };
    assert!(DESKTOP.starts_with("[Desktop Entry]\n"));
    let said = (
        value("Type"),
        value("Name"),
        value("Exec"),
        value("Icon"),
        value("Terminal"),
    );
    assert_eq!(said, ("Application", "Stubout", "stubout %f", "stubout", "false"));
    let mime = roxmltree::Document::parse(MIME).unwrap();
    let kind = mime
        .descendants()
        .find_map(|node| node.attribute("type").filter(|kind| kind.contains('/')));
    assert_eq!(value("MimeType"), format!("{};", kind.unwrap()));
    let info = roxmltree::Document::parse(METAINFO).unwrap();
    let text = |tag: &str| {
        info.descendants()
            .find(|node| node.has_tag_name(tag))
            .and_then(|node| node.text())
    };
    assert_eq!(text("mediatype"), kind);
    assert_eq!(text("launchable"), Some("stubout.desktop"));
    assert_eq!(text("summary"), Some(value("Comment")));
    let release = info.descendants().find(|node| node.has_tag_name("release")).unwrap();
    assert_eq!(release.attribute("version"), Some(env!("CARGO_PKG_VERSION")));
    let changelog = include_str!("../assets/package/changelog");
    assert!(changelog.starts_with(&format!("stubout ({}-", env!("CARGO_PKG_VERSION"))));
}

/// Whether a text is taken for a job by the marks that the package tells the desktop, as the desktop goes by them: one
/// row that matches, and one within it where there are any (shared MIME-info 0.21, section 2.7).
fn is_taken_for_a_job(text: &[u8]) -> bool {
    fn hits(row: roxmltree::Node<'_, '_>, text: &[u8]) -> bool {
        let offset = row.attribute("offset").unwrap();
        let (from, to) = offset.split_once(':').unwrap_or((offset, offset));
        let (from, to): (usize, usize) = (from.parse().unwrap(), to.parse().unwrap());
        let value = row.attribute("value").unwrap().as_bytes();
        let reach = &text[from.min(text.len())..(to + value.len()).min(text.len())];
        reach.windows(value.len()).any(|window| window == value)
            && (row.first_element_child().is_none()
                || row.children().any(|inner| inner.is_element() && hits(inner, text)))
    }
    let mime = roxmltree::Document::parse(MIME).unwrap();
    let magic = mime.descendants().find(|node| node.has_tag_name("magic")).unwrap();
    magic.children().any(|row| row.is_element() && hits(row, text))
}

#[test]
fn job_files_are_known_by_what_is_in_them() {
    for folder in ["examples", "tests/jobs", "tests/jobs/since"] {
        for entry in fs::read_dir(folder).unwrap().flatten() {
            let path = entry.path();
            if path.extension().is_some_and(|ending| ending == "ron") {
                assert!(is_taken_for_a_job(&fs::read(&path).unwrap()), "{}", path.display());
            }
        }
    }
    let saved = stubout::file::write(&stubout::job::Job::default());
    assert!(
        is_taken_for_a_job(saved.as_bytes()),
        "an empty job as it is saved: {saved}"
    );
    for other in [
        "",
        "Config(version: \"1\", fullscreen: true)",
        include_str!("../assets/profiles/us-ca.ron"),
        METAINFO,
    ] {
        assert!(!is_taken_for_a_job(other.as_bytes()), "{other}");
    }
}

/// The judges that desktops have, where this machine has them.
#[test]
fn the_judges_of_desktops_find_no_fault() {
    for call in [
        ["desktop-file-validate", "assets/package/stubout.desktop", ""],
        [
            "appstreamcli",
            "validate --no-net",
            "assets/package/com.example.stubout.metainfo.xml",
        ],
    ] {
        let arguments = call[1..].iter().flat_map(|part| part.split_whitespace());
        let Ok(output) = Command::new(call[0])
            .args(arguments)
            .current_dir(env!("CARGO_MANIFEST_DIR"))
            .output()
        else {
            println!("{} is not on this machine", call[0]);
            continue;
        };
        let said = String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr);
        assert!(
            output.status.success() && !said.contains("error"),
            "{}: {said}",
            call[0]
        );
    }
    assert!(Path::new("assets/package").is_dir());
}
