//! A person at the window: moves the mouse, presses keys as a keyboard sends them, reads what is written.
//!
//! Nothing here reaches into the program: it looks at the job and the paper only to know where things lie.

use crate::painter::Painter;
use egui::accesskit::Toggled;
use egui::{Event, Key, Modifiers, MouseWheelUnit, PointerButton, Pos2, Rect, Role, TouchPhase, Vec2, pos2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{AccessKitNode, NodeT};
use resvg::tiny_skia::Pixmap;
use stubout::app::App;
use stubout::desk::settings::{Light, Settings};
use stubout::desk::{Desk, VIEW};
use stubout::editor::{Cap, CommandId, Editor, Facing, Shortcut, Toward};
use stubout::job::{Job, LatticePoint};
use stubout::scene::Point;

/// A window, and a hand at it.
pub struct Hand {
    harness: Harness<'static, App>,
    painter: Painter,
    size: Vec2,
    at: Pos2,
    held: Modifiers,
}

/// What a window is like when it is opened.
pub struct Opening {
    pub size: Vec2,
    pub pixels: f32,
    pub settings: Settings,
    /// Where unsaved work is kept.
    pub recovery: Option<std::path::PathBuf>,
}

impl Default for Opening {
    fn default() -> Opening {
        let settings = Settings {
            light: Light::Day,
            welcomed: true,
            ..Settings::default()
        };
        Opening {
            size: vec2(1280.0, 800.0),
            pixels: 1.0,
            settings,
            recovery: None,
        }
    }
}

/// How far the hand is off when it means a place, in points.
const SHAKE: Vec2 = vec2(1.4, -1.1);

pub fn at(east: i32, north: i32, up: i32) -> LatticePoint {
    LatticePoint::new(east, north, up)
}

impl Hand {
    /// A window with an empty job.
    pub fn new() -> Hand {
        Hand::opening(Opening::default())
    }

    /// A window with a job that lies in no file.
    pub fn on(job: Job) -> Hand {
        let mut hand = Hand::new();
        hand.app_mut().open(job);
        hand.rest();
        hand
    }

    /// A supply, a riser of four steps, six steps to the right, then three down, drawn with the mouse.
    pub fn elbow() -> Hand {
        let mut hand = Hand::new();
        hand.shelf("Point of delivery");
        hand.click_at(at(0, 0, 0));
        hand.shelf("Draw pipe");
        for place in [at(0, 0, 0), at(0, 0, 4), at(6, 0, 4), at(6, 0, 1)] {
            hand.click_at(place);
        }
        for _ in 0..3 {
            hand.key(Key::Escape);
        }
        assert_eq!((hand.job().runs.len(), hand.job().joints.len()), (3, 4));
        hand
    }

    pub fn opening(opening: Opening) -> Hand {
        let painter = Painter::default();
        let (settings, recovery) = (opening.settings, opening.recovery);
        let harness = Harness::builder()
            .with_size(opening.size)
            .with_pixels_per_point(opening.pixels)
            .with_step_dt(0.05)
            .with_max_steps(12)
            .renderer(painter.clone())
            .build_eframe(move |cc| App::with(cc, settings).recovering_in(recovery));
        let mut hand = Hand {
            harness,
            painter,
            size: opening.size,
            at: pos2(1.0, 1.0),
            held: Modifiers::NONE,
        };
        hand.rest();
        hand
    }

    // What is there.

    pub fn app(&self) -> &App {
        self.harness.state()
    }

    /// The program itself, for what no story is about.
    pub fn app_mut(&mut self) -> &mut App {
        self.harness.state_mut()
    }

    pub fn desk(&self) -> &Desk {
        self.app().desk()
    }

    pub fn editor(&self) -> &Editor {
        self.desk().editor()
    }

    pub fn job(&self) -> &Job {
        self.desk().job()
    }

    /// The job as its file would be.
    pub fn written(&self) -> String {
        stubout::file::write(self.job())
    }

    /// Events that the window sent to the system with the last frame.
    pub fn output(&self) -> &egui::FullOutput {
        self.harness.output()
    }

    /// The window's size.
    pub fn size(&self) -> Vec2 {
        self.size
    }

    pub fn context(&self) -> &egui::Context {
        &self.harness.ctx
    }

    /// Pixels for one point.
    pub fn pixels(&self) -> f32 {
        self.harness.ctx.pixels_per_point()
    }

    /// Gives the window another size.
    pub fn resize(&mut self, size: Vec2) {
        self.size = size;
        self.harness.set_size(size);
        self.frame();
    }

    // Time.

    /// Lets one frame pass.
    pub fn frame(&mut self) {
        self.harness.step();
    }

    /// Lets frames pass until nothing moves any more; every field is then asked for its name.
    #[track_caller]
    pub fn rest(&mut self) {
        self.harness.run();
    }

    /// Lets frames and time pass until something holds.
    #[track_caller]
    pub fn wait(&mut self, until: impl Fn(&Hand) -> bool) {
        for _ in 0..2_000 {
            if until(self) {
                return;
            }
            self.frame();
            std::thread::sleep(std::time::Duration::from_millis(5));
        }
        panic!("waited in vain; the status line says: {}", self.status());
    }

    /// Sends something to the window as the system does, for the next frame.
    pub fn send(&mut self, event: Event) {
        self.harness.input_mut().events.push(event);
    }

    /// Turns to another program.
    pub fn turn_away(&mut self) {
        self.harness.input_mut().focused = false;
    }

    /// Drops a file on the window.
    pub fn drop_file(&mut self, path: &std::path::Path) {
        let file = Dropped(path.to_owned());
        self.harness.input_mut().dropped_files.push(std::sync::Arc::new(file));
        self.frame();
    }

    /// Asks the window to close, as the desktop does, and lets a frame pass; says whether it goes.
    pub fn close(&mut self) -> bool {
        let viewports = &mut self.harness.input_mut().viewports;
        let root = viewports.entry(egui::ViewportId::ROOT).or_default();
        root.events.push(egui::ViewportEvent::Close);
        self.frame();
        let sent = self.output().viewport_output.get(&egui::ViewportId::ROOT);
        !sent.is_some_and(|sent| sent.commands.contains(&egui::ViewportCommand::CancelClose))
    }

    // The mouse.

    /// Where a place of the lattice lies on the screen.
    pub fn screen(&self, place: LatticePoint) -> Pos2 {
        self.screen_of_paper(VIEW.point(place))
    }

    pub fn screen_of_paper(&self, point: Point) -> Pos2 {
        self.app().canvas().screen(point).expect("the paper has been seen")
    }

    /// Moves the mouse to a point of the screen, on a way of several moves.
    pub fn move_to(&mut self, to: Pos2) {
        for share in [0.35, 0.8, 1.0] {
            let between = self.at + (to - self.at) * share;
            self.send(Event::PointerMoved(between));
        }
        self.at = to;
        self.frame();
    }

    /// Points at a place of the lattice, a little off.
    pub fn point(&mut self, place: LatticePoint) {
        self.move_to(self.screen(place) + SHAKE);
    }

    pub fn button(&mut self, button: PointerButton, pressed: bool) {
        self.send(Event::PointerButton {
            pos: self.at,
            button,
            pressed,
            modifiers: self.held,
        });
        self.frame();
    }

    pub fn press(&mut self) {
        self.button(PointerButton::Primary, true);
    }

    pub fn release(&mut self) {
        self.button(PointerButton::Primary, false);
    }

    pub fn click(&mut self) {
        self.press();
        self.release();
    }

    /// Clicks at a place of the lattice.
    pub fn click_at(&mut self, place: LatticePoint) {
        self.point(place);
        self.click();
    }

    /// Clicks at a point of the screen.
    pub fn click_screen(&mut self, at: Pos2) {
        self.move_to(at);
        self.click();
    }

    /// Presses at one place of the lattice and lets go at another.
    pub fn drag(&mut self, from: LatticePoint, to: LatticePoint) {
        self.drag_screen(
            self.screen(from) + SHAKE,
            self.screen(to) + SHAKE,
            PointerButton::Primary,
        );
    }

    pub fn drag_screen(&mut self, from: Pos2, to: Pos2, button: PointerButton) {
        self.move_to(from);
        self.button(button, true);
        self.move_to(from + (to - from) * 0.4);
        self.move_to(to);
        self.button(button, false);
    }

    /// Turns the wheel where the mouse is; up is positive.
    pub fn wheel(&mut self, notches: f32) {
        self.send(Event::MouseWheel {
            unit: MouseWheelUnit::Line,
            delta: vec2(0.0, notches),
            phase: TouchPhase::Move,
            source: egui::MouseWheelSource::Wheel,
            modifiers: self.held,
        });
        self.frame();
    }

    // The keyboard.

    /// Holds keys down until told otherwise.
    pub fn hold(&mut self, held: Modifiers) {
        self.held = held;
        self.send(Event::ModifiersChanged(held));
        self.frame();
    }

    pub fn key(&mut self, key: Key) {
        self.key_event(key, true);
        self.key_event(key, false);
        self.frame();
    }

    fn key_event(&mut self, key: Key, pressed: bool) {
        self.send(Event::Key {
            key,
            physical_key: None,
            pressed,
            repeat: false,
            modifiers: self.held,
        });
    }

    /// Presses a key while others are held; the clipboard's keys come as the system sends them.
    pub fn chord(&mut self, held: Modifiers, key: Key) {
        let before = self.held;
        self.hold(held);
        match (held.command, key) {
            (true, Key::C) => self.send(Event::Copy),
            (true, Key::X) => self.send(Event::Cut),
            (true, Key::V) => self.send(Event::Paste("of another program".into())),
            _ => {
                self.key_event(key, true);
                self.key_event(key, false);
            }
        }
        self.frame();
        self.hold(before);
    }

    /// Presses the keys of a command.
    pub fn shortcut(&mut self, id: CommandId) {
        let row = id.row().expect("a command of the table");
        let keys = row.keys.first().unwrap_or_else(|| panic!("{} has no keys", row.label));
        let held = Modifiers {
            alt: keys.alt,
            ctrl: keys.ctrl,
            shift: keys.shift,
            mac_cmd: false,
            command: keys.ctrl,
        };
        self.chord(held, key_of(*keys));
    }

    /// Presses the key that leads a way.
    pub fn way(&mut self, toward: Toward) {
        if !matches!(toward, Toward::Up | Toward::Down) {
            self.shortcut(CommandId::Plane(Facing::Level));
        }
        self.key(match toward {
            Toward::Up => Key::PageUp,
            Toward::Down => Key::PageDown,
            Toward::North => Key::ArrowUp,
            Toward::South => Key::ArrowDown,
            Toward::East => Key::ArrowRight,
            Toward::West => Key::ArrowLeft,
        });
    }

    /// Types, each character with its key.
    pub fn type_text(&mut self, text: &str) {
        for letter in text.chars() {
            let key = match letter {
                ' ' => Some(Key::Space),
                '\'' | '"' => Some(Key::Quote),
                letter => Key::from_name(&letter.to_uppercase().to_string()),
            };
            if let Some(key) = key {
                self.key_event(key, true);
            }
            self.send(Event::Text(letter.to_string()));
            if let Some(key) = key {
                self.key_event(key, false);
            }
            self.frame();
        }
    }

    // Widgets, by what a screen reader says of them.

    fn nodes(&self, test: impl Fn(&AccessKitNode<'_>) -> bool) -> Vec<Widget> {
        let mut found = Vec::new();
        for node in self.harness.root().children_recursive() {
            let it = node.accesskit_node();
            if it.bounding_box().is_some() && test(&it) {
                found.push(Widget {
                    rect: node.rect(),
                    words: words(&it),
                    value: it.value().unwrap_or_default(),
                    role: it.role(),
                    is_disabled: it.is_disabled(),
                    is_on: it.toggled() == Some(Toggled::True) || it.is_selected() == Some(true),
                });
            }
        }
        found
    }

    /// What has the keyboard.
    pub fn focused(&self) -> Option<Widget> {
        self.nodes(|node| node.is_focused()).pop()
    }

    /// Everything that can be seen or heard under these words, the ones that only name another thing left out.
    pub fn widgets(&self, label: &str) -> Vec<Widget> {
        self.nodes(|node| node.role() != Role::Label && words(node) == label)
    }

    /// Everything of one role.
    pub fn all(&self, role: Role) -> Vec<Widget> {
        self.nodes(|node| node.role() == role)
    }

    /// The one thing under these words.
    #[track_caller]
    pub fn widget(&self, label: &str) -> Widget {
        let mut found = self.widgets(label);
        assert_eq!(found.len(), 1, "{label}: {found:?}; there is: {:?}", self.all_words());
        found.remove(0)
    }

    /// All words in the window.
    pub fn all_words(&self) -> Vec<String> {
        let nodes = self.nodes(|node| !words(node).is_empty());
        nodes.into_iter().map(|node| node.words).collect()
    }

    /// Whether these words stand anywhere in the window.
    pub fn reads(&self, words: &str) -> bool {
        self.all_words().iter().any(|line| line.contains(words))
    }

    /// Clicks the one thing under these words.
    #[track_caller]
    pub fn push(&mut self, label: &str) {
        let widget = self.widget(label);
        self.click_screen(widget.rect.center());
        self.frame();
    }

    /// Clicks something on the shelf.
    #[track_caller]
    pub fn shelf(&mut self, label: &str) {
        let shelf = self.widgets(label).into_iter().find(|widget| widget.rect.max.x < 260.0);
        let widget = shelf.unwrap_or_else(|| panic!("{label} is not on the shelf"));
        self.click_screen(widget.rect.center());
    }

    /// Opens the lists under the paper.
    pub fn open_lists(&mut self) {
        if !self.app().settings().lists_open {
            self.shortcut(CommandId::ShowLists);
        }
        self.rest();
    }

    /// Opens a list under the paper, by its name with its count.
    #[track_caller]
    pub fn show_list(&mut self, name: &str) {
        self.open_lists();
        self.push(name);
    }

    /// Opens a menu.
    #[track_caller]
    pub fn open_menu(&mut self, menu: &str) {
        let bar = self.widgets(menu).into_iter().find(|widget| widget.rect.max.y < 30.0);
        let button = bar.unwrap_or_else(|| panic!("there is no menu {menu}"));
        self.click_screen(button.rect.center());
        self.rest();
    }

    /// The entry of an open menu that begins with these words; its keys follow them.
    #[track_caller]
    pub fn entry(&self, label: &str) -> Widget {
        let row = stubout::editor::COMMANDS.iter().find(|row| row.label == label);
        let keys = row.and_then(|row| row.keys.first()).map(|keys| keys.to_string());
        let whole = keys.map_or(label.to_owned(), |keys| format!("{label} {keys}"));
        let is_entry = |node: &AccessKitNode<'_>| {
            let words = words(node);
            node.role() != Role::Label && (words == whole || words.starts_with(&format!("{label}: ")))
        };
        // What lies on the shelf beneath has the same name, and stands farther to the left.
        let entry = self
            .nodes(is_entry)
            .into_iter()
            .max_by(|a, b| a.rect.min.x.total_cmp(&b.rect.min.x));
        entry.unwrap_or_else(|| panic!("{label} is not in the menu: {:?}", self.all_words()))
    }

    /// Opens a menu and takes an entry, as a mouse does.
    #[track_caller]
    pub fn menu(&mut self, menu: &str, label: &str) {
        self.open_menu(menu);
        let entry = self.entry(label);
        assert!(!entry.is_disabled, "{label} cannot be used; {}", self.status());
        self.click_screen(entry.rect.center());
        self.frame();
    }

    /// Takes a command from its menu.
    #[track_caller]
    pub fn command(&mut self, id: CommandId) {
        let row = id.row().expect("a command of the table");
        self.menu(&format!("{:?}", row.menu), row.label);
    }

    /// Brings the level plane to a height, by the menu.
    pub fn level(&mut self, up: i32) {
        if self.editor().plane().facing != Facing::Level {
            self.command(CommandId::Plane(Facing::Level));
        }
        while self.editor().plane().through.up != up {
            let nearer = self.editor().plane().through.up < up;
            self.command(if nearer {
                CommandId::PlaneNearer
            } else {
                CommandId::PlaneFarther
            });
        }
    }

    /// What the status line says, once the window had time to write it.
    pub fn status(&mut self) -> String {
        self.frame();
        let foot = self.size.y - 40.0;
        let line = self.nodes(|node| node.role() == Role::Label);
        let mut line: Vec<Widget> = line
            .into_iter()
            .filter(|label| label.rect.min.y > foot && label.rect.max.y < foot + 42.0)
            .collect();
        line.sort_by(|a, b| a.rect.min.x.total_cmp(&b.rect.min.x));
        let words: Vec<String> = line.into_iter().map(|label| label.words).collect();
        words.join(" | ")
    }

    #[track_caller]
    pub fn says(&mut self, words: &str) {
        let status = self.status();
        assert!(status.contains(words), "status: {status}");
    }

    // Looking.

    /// The window as it is seen.
    pub fn picture(&self) -> Pixmap {
        let shapes = self.harness.output().shapes.clone();
        self.painter.paint(&self.harness.ctx, shapes, self.size)
    }

    /// How many pixels around a place of the lattice are as dark as ink.
    pub fn ink_at(&self, place: LatticePoint) -> usize {
        let (at, picture) = (self.screen(place), self.picture());
        let scale = self.harness.ctx.pixels_per_point();
        let around = |middle: f32| ((middle - 8.0) * scale) as u32..((middle + 8.0) * scale) as u32;
        let pixels = around(at.y).flat_map(|y| around(at.x).map(move |x| (x, y)));
        let inked = |&(x, y): &(u32, u32)| picture.pixel(x, y).is_some_and(|pixel| pixel.red() < 60);
        pixels.filter(inked).count()
    }

    /// Saves a picture under `$LOOK`, when it is set, to be looked at.
    pub fn look(&self, name: &str) {
        if let Some(folder) = std::env::var_os("LOOK") {
            let folder = std::path::PathBuf::from(folder);
            std::fs::create_dir_all(&folder).unwrap();
            self.picture().save_png(folder.join(format!("{name}.png"))).unwrap();
        }
    }
}

/// A file that is dropped on the window.
#[derive(Debug)]
struct Dropped(std::path::PathBuf);

impl egui::DroppedFile for Dropped {
    fn path(&self) -> &std::path::Path {
        &self.0
    }

    fn bytes(&self) -> Result<Vec<u8>, String> {
        std::fs::read(&self.0).map_err(|error| error.to_string())
    }
}

/// What a screen reader finds.
#[derive(Clone, Debug)]
pub struct Widget {
    pub rect: Rect,
    pub words: String,
    pub value: String,
    pub role: Role,
    pub is_disabled: bool,
    pub is_on: bool,
}

/// The name of a thing; of plain text, the text.
fn words(node: &AccessKitNode<'_>) -> String {
    let named = match node.role() {
        Role::Label => node.value(),
        _ => node.label(),
    };
    named.unwrap_or_default()
}

/// The key on which a cap is printed.
fn key_of(shortcut: Shortcut) -> Key {
    let named = |name: &str| Key::from_name(name).unwrap_or_else(|| panic!("no key {name}"));
    match shortcut.cap {
        Cap::Letter(letter) => named(&letter.to_string()),
        Cap::Digit(digit) => named(&digit.to_string()),
        Cap::F(number) => named(&format!("F{number}")),
        Cap::Plus => Key::Plus,
        Cap::Minus => Key::Minus,
        Cap::Enter => Key::Enter,
        Cap::Escape => Key::Escape,
        Cap::Backspace => Key::Backspace,
        Cap::Delete => Key::Delete,
        Cap::Space => Key::Space,
        Cap::Up => Key::ArrowUp,
        Cap::Down => Key::ArrowDown,
        Cap::Left => Key::ArrowLeft,
        Cap::Right => Key::ArrowRight,
        Cap::Home => Key::Home,
        Cap::End => Key::End,
        Cap::PageUp => Key::PageUp,
        Cap::PageDown => Key::PageDown,
    }
}
