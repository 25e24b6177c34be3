//! The whole window, used as a person uses it: what is found by its words is clicked, typed into and read.
//!
//! Every window is drawn without a screen and keeps its files in a folder of its own.
//! Missing glyphs, inputs without a name and frames that never end make the harness panic: every test looks for them.
#![allow(clippy::expect_used, clippy::panic, reason = "helpers of tests")]

mod closing;
mod cooking;
mod dialogs;
mod exchange;
mod explaining;
mod figures_by_keys;
mod files;
mod giving_way;
mod idle;
mod ingredient;
mod keyboard;
mod lines;
mod mixing;
mod pictures;
mod pinning;
mod plan;
mod plots;
mod prices;
mod recipes;
mod recovery;
mod setting;
mod targets;
mod thermometer;
mod typing;
mod water;
mod weighing;

use std::ops::{Deref, DerefMut};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, Theme, ViewportCommand, ViewportId, os::OperatingSystem};
use egui_kittest::{
    Harness,
    kittest::{NodeT, Queryable},
};
use nibwright::number::DecimalSign;
use nibwright::recipe::{Line, Recipe};
use nibwright::store::{Places, save_recipe};
use nibwright::ui::app::{App, Start};
use nibwright::ui::files::FileDialogs;
use tempfile::TempDir;

/// An old laptop's window, in points.
const SIZE: [f32; 2] = [1280.0, 800.0];
/// Seconds from frame to frame; two clicks within six frames are a double click.
const STEP: f32 = 0.05;
/// Frames after which a hover text stands.
const WAIT: usize = 12;
/// Ctrl as the window hears it on Linux and Windows.
const CTRL: Modifiers = Modifiers { ctrl: true, command: true, ..Modifiers::NONE };
const CTRL_SHIFT: Modifiers = Modifiers { shift: true, ..CTRL };
const ALT: Modifiers = Modifiers::ALT;

/// The lines of the sample that the first start opens.
const COUVERTURE: &str = "Dark couverture, 64 % cocoa";
const CREAM: &str = "Cream, 35 % fat";
const BUTTER: &str = "Butter, unsalted, 82 % fat";

/// A window that is going to be opened.
struct Opening {
    folder: TempDir,
    file: Option<PathBuf>,
    size: [f32; 2],
    theme: Theme,
    pixels_per_point: f32,
    /// Seconds from frame to frame.
    step: f32,
    decimal_sign: DecimalSign,
}

/// The whole window with the folder that it keeps its files in.
struct Window {
    harness: Harness<'static, App>,
    folder: TempDir,
}

/// The window of a first start: a sample, nothing remembered.
fn first_start() -> Window {
    Opening::new().open()
}

/// The same in a window that has room for notes.
fn wide() -> Window {
    Opening { size: [1500.0, 900.0], ..Opening::new() }.open()
}

/// The window with a copy of a sample, which may be written to.
fn with_copy_of(sample: &str) -> Window {
    let mut opening = Opening::new();
    let copy = opening.folder.path().join(sample);
    std::fs::copy(samples().join(sample), &copy).expect("a copy");
    opening.file = Some(copy);
    opening.open()
}

/// The window with a recipe.
fn with_recipe(recipe: &Recipe) -> Window {
    Opening::of_recipe(recipe).open()
}

/// The folder of the samples.
fn samples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-recipes")
}

impl Opening {
    fn new() -> Self {
        Self::in_folder(tempfile::tempdir().expect("a folder"))
    }

    /// With the folder of an earlier window.
    fn in_folder(folder: TempDir) -> Self {
        Self {
            folder,
            file: None,
            size: SIZE,
            theme: Theme::Light,
            pixels_per_point: 1.0,
            step: STEP,
            decimal_sign: DecimalSign::Point,
        }
    }

    fn of_recipe(recipe: &Recipe) -> Self {
        let mut opening = Self::new();
        let path = opening.folder.path().join("recipe.ron");
        save_recipe(&path, recipe).expect("it can be written");
        opening.file = Some(path);
        opening
    }

    fn open(self) -> Window {
        let Self { folder, file, size, theme, pixels_per_point, step, decimal_sign } = self;
        let start = Start {
            file,
            places: Some(Places::under(folder.path())),
            decimal_sign: Some(decimal_sign),
            file_dialogs: FileDialogs::InWindow,
        };
        let harness = Harness::builder()
            .with_size(size)
            .with_pixels_per_point(pixels_per_point)
            .with_theme(theme)
            .with_os(OperatingSystem::Nix)
            .with_step_dt(step)
            .with_max_steps(12)
            .build_eframe(move |creation| App::new(&creation.egui_ctx, start));
        let mut window = Window { harness, folder };
        window.settle();
        window
    }
}

/// What is done.
impl Window {
    /// Runs until nothing is left to draw and the shelf has read its folder.
    fn settle(&mut self) {
        let since = Instant::now();
        self.run();
        while self.state().is_busy() {
            assert!(since.elapsed() < Duration::from_mins(1), "something is still worked on");
            std::thread::sleep(Duration::from_millis(2));
            self.run();
        }
    }

    fn press(&mut self, key: Key) {
        self.press_with(Modifiers::NONE, key);
    }

    fn press_with(&mut self, modifiers: Modifiers, key: Key) {
        let event = |pressed| Event::Key { key, physical_key: None, pressed, repeat: false, modifiers };
        self.input_mut().events.extend([Event::ModifiersChanged(modifiers), event(true)]);
        self.step();
        self.input_mut().events.extend([event(false), Event::ModifiersChanged(Modifiers::NONE)]);
        self.run();
    }

    /// Types a text letter by letter into what has the keyboard.
    fn type_text(&mut self, text: &str) {
        for letter in text.chars() {
            self.type_letter(letter);
        }
        self.run();
    }

    /// Types one letter and draws the one frame that it is seen in.
    fn type_letter(&mut self, letter: char) {
        self.event(Event::Text(letter.to_string()));
        self.step();
    }

    fn click(&mut self, label: &str) {
        self.get_by_label(label).click();
        self.remove_cursor();
        self.run();
    }

    /// Clicks into the amount of a line and types over it.
    fn type_amount(&mut self, ingredient: &str, text: &str) {
        self.click(&format!("{ingredient}, amount"));
        self.type_text(text);
    }

    /// Puts the cursor into a field and writes over what stands there.
    fn type_into(&mut self, field: &str, text: &str) {
        self.get_by_label(field).focus();
        self.run();
        self.press_with(CTRL, Key::A);
        if text.is_empty() {
            self.press(Key::Delete);
        }
        self.type_text(text);
    }

    fn show(&mut self, reading: Key) {
        self.press_with(CTRL, reading);
    }

    fn command(&mut self, name: &str) {
        self.press_with(CTRL, Key::K);
        self.type_text(name);
        self.press(Key::Enter);
    }

    /// Types a path over what is proposed in the field that asks for one.
    fn give_path(&mut self, path: &Path) {
        self.press_with(CTRL, Key::A);
        self.event(egui::Event::Text(path.display().to_string()));
        self.run();
        self.press(Key::Enter);
        self.settle();
    }

    /// Asks the window to close, as the cross in its corner does; gives back what the window asks of the system.
    fn ask_to_close(&mut self) -> Vec<ViewportCommand> {
        let viewport = self.input_mut().viewports.get_mut(&ViewportId::ROOT).expect("the one viewport");
        viewport.events.push(egui::ViewportEvent::Close);
        self.step();
        self.commands()
    }

    /// Ends the program as the system does it; gives back its folder.
    fn quit(mut self) -> TempDir {
        eframe::App::on_exit(self.state_mut());
        self.crash()
    }

    /// Ends the program without a word; gives back its folder.
    fn crash(self) -> TempDir {
        let Self { harness, folder } = self;
        drop(harness);
        folder
    }
}

/// What is seen.
impl Window {
    fn recipe(&self) -> &Recipe {
        &self.state().document().recipe
    }

    fn line(&self, ingredient: &str) -> &Line {
        let mut found = self.recipe().lines.iter().filter(|line| line.ingredient.name == ingredient);
        let line = found.next().unwrap_or_else(|| panic!("no line of {ingredient}"));
        assert!(found.next().is_none(), "several lines of {ingredient}");
        line
    }

    fn amount(&self, ingredient: &str) -> f64 {
        self.line(ingredient).amount.value()
    }

    fn ingredients(&self) -> Vec<&str> {
        self.recipe().lines.iter().map(|line| line.ingredient.name.as_str()).collect()
    }

    /// The text of the amount of a line, as it stands in its cell.
    fn cell(&self, ingredient: &str) -> String {
        self.get_by_label(&format!("{ingredient}, amount")).value().unwrap_or_default()
    }

    /// Everything that can be read, as assistive technologies read it.
    fn texts(&self) -> Vec<String> {
        let text = |node: egui_kittest::Node<'_>| {
            let node = node.accesskit_node();
            if node.role() == Role::Label { node.value() } else { node.label() }
        };
        self.root().children_recursive().filter_map(text).collect()
    }

    fn has_text(&self, part: &str) -> bool {
        self.texts().iter().any(|text| text.contains(part))
    }

    /// The large figure with this caption: "23.1 % 158 g pinned 22.7 %".
    #[track_caller]
    fn figure(&self, caption: &str) -> String {
        let texts = self.texts();
        let is_a_figure = |rest: &str| {
            let is_value = rest.starts_with(|first: char| first.is_ascii_digit() || first == '\u{2212}');
            (is_value || rest.starts_with("unknown")) && !rest.ends_with("usual range")
        };
        let found: Vec<&str> = texts
            .iter()
            .filter_map(|text| text.strip_prefix(caption)?.strip_prefix(' '))
            .filter(|rest| is_a_figure(rest))
            .collect();
        let [figure] = found[..] else { panic!("not one figure “{caption}” but {found:?} in {texts:?}") };
        figure.to_owned()
    }

    /// The field with this hint.
    fn field<'a>(&'a self, hint: &'a str) -> egui_kittest::Node<'a> {
        self.get_by(move |node| node.data().placeholder() == Some(hint))
    }

    /// The name of a line where it stands in the sheet; it stands on the shelf and in readings too.
    fn line_name<'a>(&'a self, ingredient: &'a str) -> egui_kittest::Node<'a> {
        let handle = self.get_by_label(&format!("{ingredient}, move")).rect();
        let mut found = self.query_all_by_label(ingredient).filter(move |node| {
            let rect = node.rect();
            rect.y_range().contains(handle.center().y) && (0.0..40.0).contains(&(rect.left() - handle.right()))
        });
        found.next().unwrap_or_else(|| panic!("{ingredient} is not in the sheet"))
    }

    /// What has the keyboard.
    fn focus(&self) -> Option<egui_kittest::Node<'_>> {
        self.root().children_recursive().find(egui_kittest::Node::is_focused)
    }

    /// The name of what has the keyboard.
    fn focused(&self) -> Option<String> {
        let node = self.focus()?.accesskit_node();
        // A sentence that can be pressed is its own name.
        node.label().or_else(|| if node.role() == Role::Label { node.value() } else { None })
    }

    /// What the last frame asked of the system.
    fn commands(&self) -> Vec<ViewportCommand> {
        self.output().viewport_output.get(&ViewportId::ROOT).expect("the one viewport").commands.clone()
    }

    /// After how long the last frame wants another one; `None` for never.
    fn next_frame(&self) -> Option<Duration> {
        let delay = self.output().viewport_output.get(&ViewportId::ROOT).expect("the one viewport").repaint_delay;
        (delay != Duration::MAX).then_some(delay)
    }
}

impl Deref for Window {
    type Target = Harness<'static, App>;

    fn deref(&self) -> &Self::Target {
        &self.harness
    }
}

impl DerefMut for Window {
    fn deref_mut(&mut self) -> &mut Self::Target {
        &mut self.harness
    }
}
