//! How long one frame of the whole window takes on the processor: the program, layout, triangles; no graphics.
//!
//! The budget is 4 ms on an ordinary two-core machine, with every panel visible.
//! A frame in which an amount changes is drawn twice before it is seen, so that figures and plots stand in the same
//! frame as the digit that was typed; what is measured is all of it, with the analysis of the new amount.
//!
//! Where the system tells it (Linux), the time is that of this thread on a processor, so that other programs do not
//! count; elsewhere it is the time on the clock.

#![expect(clippy::expect_used, reason = "a benchmark that cannot begin says why and stops")]

use std::time::{Duration, Instant};

use criterion::{Criterion, SamplingMode, criterion_group, criterion_main};
use egui::{Context, Event, FullOutput, Key, Modifiers, PointerButton, RawInput, Rect, pos2, vec2};
use nibwright::analysis::parts::Group;
use nibwright::reformulate::{Bound, Measured, Target};
use nibwright::ui::app::{App, Start};
use nibwright::ui::files::FileDialogs;

const CTRL: Modifiers = Modifiers { ctrl: true, command: true, ..Modifiers::NONE };

/// An old laptop.
const SMALL: [f32; 2] = [1280.0, 800.0];
/// A large screen: all readings stand side by side.
const LARGE: [f32; 2] = [2560.0, 1440.0];

/// The window without a screen.
struct Window {
    context: Context,
    app: App,
    size: [f32; 2],
    seconds: f64,
}

impl Window {
    fn open(size: [f32; 2]) -> Self {
        let context = Context::default();
        let start = Start { file_dialogs: FileDialogs::InWindow, ..Start::default() };
        let app = App::new(&context, start);
        let mut window = Self { context, app, size, seconds: 0.0 };
        // The first frames make the letters; the shelf reads its folder meanwhile.
        for _ in 0..20 {
            std::thread::sleep(std::time::Duration::from_millis(5));
            window.frame(vec![]);
        }
        window
    }

    /// One frame with these events; gives back how many corners its triangles have.
    fn frame(&mut self, events: Vec<Event>) -> usize {
        self.seconds += 1.0 / 60.0;
        let [width, height] = self.size;
        let input = RawInput {
            screen_rect: Some(Rect::from_min_size(pos2(0.0, 0.0), vec2(width, height))),
            time: Some(self.seconds),
            events,
            ..RawInput::default()
        };
        let mut output: FullOutput = self.context.run_ui(input, |ui| self.app.show(ui));
        let shapes = std::mem::take(&mut output.shapes);
        let pixels_per_point = output.pixels_per_point;
        output.drop_without_applying_deltas();
        let primitives = self.context.tessellate(shapes, pixels_per_point);
        primitives
            .iter()
            .map(|primitive| match &primitive.primitive {
                egui::epaint::Primitive::Mesh(mesh) => mesh.vertices.len(),
                egui::epaint::Primitive::Callback(_) => 0,
            })
            .sum()
    }

    fn press(&mut self, modifiers: Modifiers, key: Key) {
        for pressed in [true, false] {
            self.frame(vec![event(modifiers, key, pressed)]);
        }
    }

    /// The amount of the first line.
    fn amount(&self) -> f64 {
        self.app.document().recipe.lines.first().expect("the sample has lines").amount.value()
    }
}

fn event(modifiers: Modifiers, key: Key, pressed: bool) -> Event {
    Event::Key { key, physical_key: None, pressed, repeat: false, modifiers }
}

/// The time that this thread has been on a processor.
fn time_on_processor() -> Option<Duration> {
    // The count is brought up to date when the thread offers its processor to others.
    std::thread::yield_now();
    let text = std::fs::read_to_string("/proc/thread-self/schedstat").ok()?;
    Some(Duration::from_nanos(text.split(' ').next()?.parse().ok()?))
}

/// Measures frames that are drawn one after the other.
fn bench(criterion: &mut Criterion, name: &str, mut frame: impl FnMut() -> usize) {
    let mut group = criterion.benchmark_group("frame");
    // Every sample is long enough for the clock of the processor.
    group.sampling_mode(SamplingMode::Flat).sample_size(20);
    group.bench_function(name, |bencher| {
        bencher.iter_custom(|count| {
            let (began, clock) = (time_on_processor(), Instant::now());
            for _ in 0..count {
                std::hint::black_box(frame());
            }
            match began.zip(time_on_processor()) {
                Some((began, now)) => now.saturating_sub(began),
                None => clock.elapsed(),
            }
        });
    });
    group.finish();
}

/// Steps the amount of the first line in every frame: everything is computed and drawn anew.
fn bench_changes(criterion: &mut Criterion, name: &str, mut window: Window) {
    window.press(Modifiers::NONE, Key::F2);
    let before = window.amount();
    window.press(Modifiers::SHIFT, Key::ArrowUp);
    assert!((window.amount() - before - 1.0).abs() < 1e-9, "the keys reach the amount");
    let mut is_up = false;
    let mut change = |window: &mut Window| {
        is_up = !is_up;
        window.frame(vec![event(Modifiers::SHIFT, if is_up { Key::ArrowUp } else { Key::ArrowDown }, true)])
    };
    // A bench that changes nothing measures nothing.
    for _ in 0..4 {
        let before = window.amount();
        change(&mut window);
        assert!((window.amount() - before).abs() > 0.5, "every frame changes the amount");
    }
    bench(criterion, name, || change(&mut window));
}

/// Drags the thermometer a little in every frame: everything is shown at another temperature.
fn bench_dragging(criterion: &mut Criterion, name: &str, mut window: Window) {
    /// How far from the right edge of the window the strip stands, and how far from its top the drag begins.
    const FROM_RIGHT: f32 = 54.0;
    const FROM_TOP: f32 = 300.0;
    let x = window.size[0] - FROM_RIGHT;
    let moved = |window: &mut Window, y: f32| window.frame(vec![Event::PointerMoved(pos2(x, y))]);
    let pressed = Event::PointerButton {
        pos: pos2(x, FROM_TOP),
        button: PointerButton::Primary,
        pressed: true,
        modifiers: Modifiers::NONE,
    };
    moved(&mut window, FROM_TOP);
    window.frame(vec![pressed]);
    let mut step = 0_u8;
    let mut drag = |window: &mut Window| {
        step = (step + 1) % 40;
        moved(window, FROM_TOP + 4.0 * f32::from(step.min(40 - step)))
    };
    for _ in 0..4 {
        let before = window.app.view().at;
        drag(&mut window);
        assert!(window.app.view().at != before, "every frame moves the thermometer");
    }
    bench(criterion, name, || drag(&mut window));
}

/// Opens the reading Targets with something to do that changes the recipe, and waits for the answer.
fn with_answer(size: [f32; 2]) -> Window {
    // A little more than the sample has.
    let target = Target::new(Measured::Group(Group::CocoaButter), Bound::AtLeast(24.0));
    let mut window = Window::open(size);
    window.press(CTRL, Key::J);
    window.app.make_target(target);
    for _ in 0..400 {
        std::thread::sleep(Duration::from_millis(5));
        window.frame(vec![]);
        if !window.app.is_busy() {
            break;
        }
    }
    let worked = window.app.view().targets.as_ref().and_then(|targets| targets.worked.clone());
    assert!(worked.is_some_and(|worked| worked.document.is_some()), "an answer is shown");
    window
}

/// The pointer moves a little in every frame.
fn bench_pointer(criterion: &mut Criterion, name: &str, mut window: Window) {
    let mut is_left = false;
    bench(criterion, name, || {
        is_left = !is_left;
        let x = if is_left { 500.0 } else { 501.0 };
        window.frame(vec![Event::PointerMoved(pos2(x, 300.0))])
    });
}

fn frames(criterion: &mut Criterion) {
    for (name, reading) in [
        ("Make-up", Key::Num1),
        ("Emulsion", Key::Num2),
        ("Water", Key::Num3),
        ("Fat crystals", Key::Num4),
        ("Setting", Key::Num5),
    ] {
        let mut window = Window::open(SMALL);
        window.press(CTRL, reading);
        bench_changes(criterion, &format!("an amount changes, 1280 x 800, {name}"), window);
    }
    let mut window = Window::open(LARGE);
    window.press(CTRL, Key::P);
    bench_changes(criterion, "an amount changes, 2560 x 1440, all readings with a pin", window);

    let mut window = Window::open(SMALL);
    window.press(CTRL, Key::Num4);
    bench_dragging(criterion, "the thermometer is dragged, 1280 x 800, Fat crystals", window);
    let mut window = Window::open(LARGE);
    window.press(CTRL, Key::P);
    bench_dragging(criterion, "the thermometer is dragged, 2560 x 1440, all readings with a pin", window);

    let mut window = Window::open(LARGE);
    window.press(CTRL, Key::P);
    bench_pointer(criterion, "the pointer moves, 2560 x 1440, all readings with a pin", window);
    // What is typed would ask for another answer, which a thread of its own looks for: the frame draws the one that is there.
    bench_pointer(criterion, "the pointer moves, 1280 x 800, Targets with an answer", with_answer(SMALL));
    bench_changes(criterion, "an amount changes, 1280 x 800, Targets with an answer", with_answer(SMALL));
}

criterion_group!(benches, frames);
criterion_main!(benches);
