//! The figures of an ingredient are replaced by those of a data sheet, and ingredients are made.

use egui::{Key, Modifiers};
use nibwright::ingredient::{Category, Component, Library};
use nibwright::source::Evidence;

use super::*;

const FIGURES: &str = "Figures of this ingredient";

/// Chooses a line and opens the form for its ingredient.
fn open_figures(window: &mut Window, ingredient: &str) {
    window.click(&format!("{ingredient}, amount"));
    window.press_with(CTRL, Key::I);
    assert!(window.has_text(FIGURES), "the form is open");
}

fn type_part(window: &mut Window, part: &str, text: &str) {
    window.click(&format!("{part}, g per 100 g"));
    window.press_with(CTRL, Key::A);
    window.type_text(text);
}

fn part(window: &Window, part: &str) -> String {
    window.get_by_label(&format!("{part}, g per 100 g")).value().unwrap_or_default()
}

/// The sum beside its word, as it is read.
fn sum(window: &Window) -> String {
    window.texts().into_iter().find(|text| text.starts_with("Sum ")).expect("the sum is there")
}

#[test]
fn a_data_sheet_takes_the_place_of_a_class_value() {
    let mut window = first_start();
    let before = window.figure("milk fat");
    let water = window.line(CREAM).ingredient.composition.grams_per_100g()[Component::Water.index()];
    window.click(&format!("{CREAM}, amount"));
    window.command("figures of the ingredient");
    assert!(window.has_text(FIGURES));
    assert_eq!(window.focused().as_deref(), Some("water, g per 100 g"), "the keyboard is in the first figure");
    assert!(window.has_text("derived from published figures"), "what it rests on so far is said");
    assert_eq!(part(&window, "milk fat"), "35");
    type_part(&mut window, "milk fat", "40");
    assert!(window.has_text("5 g too much"), "{:?}", sum(&window));
    window.click("Use it");
    assert_eq!(window.line(CREAM).ingredient.id, "cream-35", "what does not close is not taken");
    type_part(&mut window, "water", &format!("{water}-5"));
    assert!(window.has_text("closes to 100 ± 0.2 g"), "{:?}", sum(&window));
    window.click("Use it");
    assert!(!window.has_text(FIGURES));

    let cream = &window.line(CREAM).ingredient;
    assert_eq!((cream.id.as_str(), cream.evidence), ("cream-35-own", Evidence::Supplier));
    assert_eq!(cream.composition.grams_per_100g()[Component::MilkFat.index()], 40.0);
    assert_eq!((cream.properties.energy_kj, cream.properties.saturates_g), (None, None));
    assert_eq!(window.amount(CREAM), 200.0);
    // By hand: 200 g of cream bring 10 g more of milk fat to the 685 g.
    let grams = |figure: &str| -> f64 {
        let words: Vec<&str> = figure.split(' ').collect();
        words[2].parse().expect("grams stand behind the percents")
    };
    assert_eq!(grams(&window.figure("milk fat")) - grams(&before), 10.0);
    window.press_with(CTRL, Key::Z);
    assert_eq!((window.figure("milk fat"), window.state().is_saved()), (before, true));
}

#[test]
fn a_question_mark_makes_a_figure_unknown_everywhere() {
    let mut window = first_start();
    window.show(Key::Num1);
    assert!(!window.figure("milk fat").starts_with("unknown"));
    open_figures(&mut window, CREAM);
    type_part(&mut window, "milk fat", "?");
    assert!(window.has_text("one part is not known"));
    window.press_with(CTRL, Key::Enter);
    assert_eq!(window.line(CREAM).ingredient.composition.share(Component::MilkFat), None);
    assert!(window.figure("milk fat").starts_with("unknown not known"), "{}", window.figure("milk fat"));
    assert!(window.has_text(&format!("{CREAM}: milk fat is not known")));
}

#[test]
fn esc_leaves_everything_as_it_was() {
    let mut window = first_start();
    let before = window.recipe().clone();
    open_figures(&mut window, CREAM);
    type_part(&mut window, "milk fat", "12");
    // In a figure that is being typed, the first Esc takes back what was typed there, as everywhere.
    window.press(Key::Escape);
    assert_eq!(part(&window, "milk fat"), "35");
    type_part(&mut window, "milk fat", "12");
    window.press(Key::Tab);
    window.press(Key::Escape);
    assert!(!window.has_text(FIGURES));
    assert_eq!((window.recipe(), window.state().is_saved()), (&before, true));
    // What was typed is forgotten.
    open_figures(&mut window, CREAM);
    assert_eq!(part(&window, "milk fat"), "35");
    // Used without a change, it changes nothing.
    window.click("Use it");
    assert_eq!((window.recipe(), window.state().is_saved()), (&before, true));
}

#[test]
fn an_own_ingredient_is_made_with_the_keyboard_alone() {
    let mut window = Opening { decimal_sign: DecimalSign::Comma, ..Opening::new() }.open();
    let lines = window.recipe().lines.len();
    window.press_with(CTRL_SHIFT, Key::I);
    assert!(window.has_text("Give it a name"));
    window.type_text("Pistachio paste of the house");
    window.press(Key::Tab);
    assert_eq!(window.focused().as_deref(), Some("category"));
    let category = |window: &Window| window.get_by_label("category").value();
    for _ in 0..Category::ALL.len() {
        if category(&window).as_deref() != Some("nut paste") {
            window.press(Key::ArrowUp);
        }
    }
    assert_eq!(category(&window).as_deref(), Some("nut paste"), "arrows step through the menu");
    window.press(Key::Tab);
    assert_eq!(window.focused().as_deref(), Some("water, g per 100 g"));
    window.type_text("1,5");
    for _ in 0..3 {
        window.press(Key::Enter);
    }
    assert_eq!(window.focused().as_deref(), Some("other fat, g per 100 g"), "Enter goes down");
    window.type_text("54");
    window.press(Key::Enter);
    window.type_text("40");
    assert!(window.has_text("4,5 g missing"), "{}", sum(&window));
    // Down to the tick that leaves the rest open, and on to the button.
    let is_at = |window: &Window, words: &str| window.focused().is_some_and(|name| name.contains(words));
    for (words, most) in [("leaves the rest open: 4,5 g", 30), ("Use it", 1)] {
        for _ in 0..most {
            if !is_at(&window, words) {
                window.press(Key::Tab);
            }
        }
        assert!(is_at(&window, words), "{:?} has the keyboard", window.focused());
        window.press(if words == "Use it" { Key::Enter } else { Key::Space });
    }
    assert_eq!(window.recipe().lines.len(), lines + 1);
    let line = window.recipe().lines.last().expect("a line");
    let paste = line.ingredient.clone();
    assert_eq!((paste.id.as_str(), paste.category), ("pistachio-paste-of-the-house-own", Category::NutPaste));
    assert_eq!((paste.source.as_str(), paste.evidence), ("own figures", Evidence::Supplier));
    assert_eq!(paste.composition.declared_unassigned(), 4.5);
    assert_eq!(window.focused(), Some(format!("{}, amount", paste.name)), "its amount is next");
    window.type_text("30");
    window.press(Key::Enter);
    assert_eq!(window.amount(&paste.name), 30.0);
}

#[test]
fn own_ingredients_are_found_again_on_the_shelf() {
    let mut window = first_start();
    assert!(!window.has_text("in this recipe"));
    open_figures(&mut window, CREAM);
    window.click("name");
    window.press_with(CTRL, Key::A);
    window.type_text("Cream of the island");
    window.click("Use it");
    assert!(window.has_text("in this recipe"));
    let own = window.recipe().lines[1].ingredient.clone();
    assert_eq!((own.id.as_str(), own.name.as_str()), ("cream-35-own", "Cream of the island"));
    assert_eq!(own.evidence, Library::built_in().by_id("cream-35").expect("built in").evidence, "only the name is new");
    // Before all that is built in.
    window.press_with(CTRL, Key::F);
    window.type_text("cream");
    assert!(window.has_text("in this recipe") && window.has_text("built in"));
    window.press(Key::Enter);
    let added = window.recipe().lines.iter().filter(|line| line.ingredient == own).count();
    assert_eq!(added, 2, "Enter adds the first");
    window.press_with(CTRL, Key::F);
    window.type_text("zucker");
    assert!(!window.has_text("in this recipe"));
}

#[test]
fn a_click_beside_the_form_does_not_lose_what_was_typed() {
    let mut window = first_start();
    let beside = egui::pos2(8.0, 400.0);
    let click = |window: &mut Window| {
        window.hover_at(beside);
        window.drag_at(beside);
        window.drop_at(beside);
        window.remove_cursor();
        window.run();
    };
    open_figures(&mut window, CREAM);
    type_part(&mut window, "milk fat", "12");
    click(&mut window);
    assert_eq!((window.has_text(FIGURES), part(&window, "milk fat").as_str()), (true, "12"));
    window.click("Cancel");
    open_figures(&mut window, CREAM);
    click(&mut window);
    assert!(!window.has_text(FIGURES), "where nothing would be lost, it closes");
}

#[test]
fn the_form_fits_into_a_small_window() {
    let mut window = Opening { size: [1000.0, 620.0], ..Opening::new() }.open();
    open_figures(&mut window, COUVERTURE);
    let seen = egui::Rect::from_min_size(egui::Pos2::ZERO, egui::vec2(1000.0, 620.0));
    for label in [FIGURES, "Use it", "Cancel"] {
        assert!(seen.contains_rect(window.get_by_label(label).rect()), "{label} is in sight");
    }
    // What the keyboard reaches comes into sight.
    let above = window.get_by_label("Use it").rect().top();
    for _ in 0..2 * Component::COUNT {
        if window.focused().as_deref() != Some("note") {
            window.press(Key::Tab);
        }
    }
    assert_eq!(window.focused().as_deref(), Some("note"));
    window.run_steps(WAIT);
    assert!(window.get_by_label("density, g/ml").rect().bottom() < above);
    assert!(window.get_by_label_contains("acids, ash, other, g per 100 g").rect().bottom() < above);
}

/// To look at it: `NIBWRIGHT_PICTURES=folder cargo test --test it ui::ingredient`.
#[test]
fn the_form_settles_in_both_themes() {
    for theme in [Theme::Light, Theme::Dark] {
        for (size, name) in [([1280.0, 800.0], "large"), ([1000.0, 620.0], "small")] {
            let mut window = Opening { size, theme, ..Opening::new() }.open();
            let picture = |window: &mut Window, what: &str| {
                if let Ok(folder) = std::env::var("NIBWRIGHT_PICTURES") {
                    let image = window.render().expect("a picture");
                    image.save(format!("{folder}/ingredient-{what}-{name}-{theme:?}.png")).expect("it can be written");
                }
            };
            open_figures(&mut window, COUVERTURE);
            picture(&mut window, "closes");
            type_part(&mut window, "milk protein", "x1");
            picture(&mut window, "unreadable");
            type_part(&mut window, "milk protein", "?");
            picture(&mut window, "unknown");
            type_part(&mut window, "milk protein", "7");
            picture(&mut window, "too-much");
            window.click("category");
            picture(&mut window, "menu");
            window.press(Key::Escape);
            assert!(window.has_text(FIGURES), "Esc closes the menu first");
            window.press_with(Modifiers::NONE, Key::Escape);
            window.press_with(CTRL_SHIFT, Key::I);
            window.type_text("Praline");
            picture(&mut window, "new");
            window.press(Key::Escape);
            assert!(!window.has_text("New own ingredient"));
        }
    }
}
