//! Plots as files: what is seen is written, as SVG or PNG, and where there is nothing to see a sentence says why.

use std::fs;

use egui::Key;
use nibwright::ingredient::Library;
use nibwright::recipe::Quantity;

use super::*;

/// The names that are proposed, by reading.
const NAMES: [(Key, &str); 4] = [
    (Key::Num1, "dark-cut-ganache-composition.svg"),
    (Key::Num2, "dark-cut-ganache-fat-water-map.svg"),
    (Key::Num3, "dark-cut-ganache-water-activity.svg"),
    (Key::Num4, "dark-cut-ganache-solid-fat.svg"),
];

/// The path that stands in the field.
fn proposed(window: &Window) -> PathBuf {
    PathBuf::from(window.field("/home/…/recipe.ron").value().expect("a path"))
}

fn read(window: &Window, name: &str) -> String {
    fs::read_to_string(window.folder.path().join(name)).expect("it is there")
}

/// A right click on the plot with this sentence.
fn right_click_plot(window: &mut Window, in_words: &str) {
    let plot = window.get_by(|node| node.role() == Role::Image && node.label().is_some_and(|it| it.contains(in_words)));
    plot.focus();
    window.run();
    // By now it is in sight.
    let plot = window.get_by(|node| node.role() == Role::Image && node.label().is_some_and(|it| it.contains(in_words)));
    plot.click_secondary();
    window.run();
}

/// A recipe of one ingredient.
fn recipe_of(id: &str) -> Recipe {
    let mut recipe = Recipe { name: "Syrup".to_owned(), ..Recipe::default() };
    let ingredient = Library::built_in().by_id(id).expect("it is built in").clone();
    recipe.push(ingredient, Quantity::from_grams(100.0).expect("an amount"));
    recipe
}

#[test]
fn the_plot_of_the_reading_in_front_is_written_as_it_is_seen() {
    let mut window = with_copy_of("dark-cut-ganache.ron");
    for (reading, name) in NAMES {
        window.show(reading);
        window.command("save the plot");
        assert!(window.has_text("Save the plot"));
        assert_eq!(proposed(&window), window.folder.path().join(name));
        window.press(Key::Enter);
        window.settle();
        assert!(window.has_text("Saved"), "{name}");
        let file = read(&window, name);
        assert!(file.starts_with("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns="), "{file}");
        assert!(file.contains(">Dark cut ganache</text>"), "{file}");
    }
    assert!(window.figure("form V limit").starts_with("29.8"));
    assert!(read(&window, NAMES[3].1).contains(">form V limit 29.8</text>"));
    assert!(read(&window, NAMES[2].1).contains(">0.80 most moulds</text>"));
    assert!(read(&window, NAMES[1].1).contains(">fat, % of the mass</text>"));
    for line in &window.recipe().lines {
        assert!(read(&window, NAMES[0].1).contains(&format!(">{}</text>", line.ingredient.name)));
    }
    assert!(window.state().is_saved(), "a plot is no change of the recipe");
    assert_eq!(window.state().title(), "Dark cut ganache – Nibwright", "and not its file");
}

#[test]
fn the_pinned_state_and_the_decimal_sign_are_in_the_file() {
    let mut opening = Opening::new();
    opening.decimal_sign = DecimalSign::Comma;
    let mut window = opening.open();
    window.press_with(CTRL, Key::P);
    window.type_amount(CREAM, "240");
    window.press(Key::Enter);
    for (reading, words) in [
        (Key::Num1, "240 g, pinned 200 g"),
        (Key::Num2, "pinned"),
        (Key::Num3, "0,90 at 22,1 % water"),
        (Key::Num4, "form V limit 29,4"),
        (Key::Num4, "seeding window, pinned"),
    ] {
        window.show(reading);
        window.command("save the plot");
        let path = window.folder.path().join(format!("{}.svg", words.len()));
        window.give_path(&path);
        let file = fs::read_to_string(&path).expect("it is there");
        assert!(file.contains(&format!(">{words}</text>")), "{words}: {file}");
    }
}

#[test]
fn a_right_click_on_a_plot_saves_it_as_a_picture() {
    let mut window = with_copy_of("dark-cut-ganache.ron");
    for (reading, in_words, name) in [
        (Key::Num2, "% fat", "dark-cut-ganache-fat-water-map.png"),
        (Key::Num3, "% water", "dark-cut-ganache-water-activity.png"),
        (Key::Num3, "dry mass", "dark-cut-ganache-sorption-isotherm.png"),
        (Key::Num4, "% solid at", "dark-cut-ganache-solid-fat.png"),
        (Key::Num4, "dilution: 29.8 °C at 40 %", "dark-cut-ganache-form-v-limit.png"),
    ] {
        window.show(reading);
        right_click_plot(&mut window, in_words);
        assert!(window.query_by_label("Save as SVG…").is_some());
        window.click("Save as PNG…");
        assert!(window.query_by_label("Save as PNG…").is_none(), "the menu is closed");
        assert_eq!(proposed(&window), window.folder.path().join(name));
        window.press(Key::Enter);
        window.settle();
        assert!(window.has_text("Saved"));
        let bytes = fs::read(window.folder.path().join(name)).expect("it is there");
        // Signature, length and name of the first chunk, width and height (PNG specification, sections 5.2 and 11.2.1).
        assert_eq!(&bytes[..16], b"\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR");
        let number = |at: usize| u32::from_be_bytes(bytes[at..at + 4].try_into().expect("four bytes"));
        assert_eq!((number(16), number(20)), (1520, 1192));
    }
}

#[test]
fn a_right_click_on_the_bars_of_the_lines_saves_them() {
    let mut window = with_copy_of("dark-cut-ganache.ron");
    window.show(Key::Num1);
    window.get_by_label("Who brings what").click_secondary();
    window.run();
    window.click("Save as SVG…");
    assert_eq!(proposed(&window), window.folder.path().join(NAMES[0].1));
}

#[test]
fn the_ending_decides_and_a_name_without_one_gets_it() {
    let mut window = with_copy_of("dark-cut-ganache.ron");
    let typed = window.folder.path().join("plot.png");
    window.command("save the plot");
    window.give_path(&typed);
    assert!(fs::read(&typed).expect("it is there").starts_with(b"\x89PNG"));
    window.command("save the plot");
    let typed = window.folder.path().join("plot no. 2");
    window.give_path(&typed);
    assert!(read(&window, "plot no. 2.svg").contains("<svg"));
}

#[test]
fn a_file_that_is_there_is_not_replaced_without_a_question() {
    let mut window = with_copy_of("dark-cut-ganache.ron");
    let path = window.folder.path().join("mine.svg");
    fs::write(&path, "mine").expect("a file");
    window.command("save the plot");
    window.give_path(&path);
    assert!(window.has_text("would be replaced by this plot"));
    window.click("Cancel");
    assert_eq!(read(&window, "mine.svg"), "mine");
    window.command("save the plot");
    window.give_path(&path);
    window.click("Overwrite");
    assert!(window.has_text("Saved") && read(&window, "mine.svg").contains("<svg"));
}

#[test]
fn a_plot_that_cannot_be_written_is_said_in_a_sentence() {
    let mut window = with_copy_of("dark-cut-ganache.ron");
    let path = window.folder.path().join("none").join("plot.svg");
    window.command("save the plot");
    window.give_path(&path);
    assert!(window.has_text("The plot is not saved") && window.has_text("none does not exist; choose"));
    window.click("Close");
    assert!(!path.exists());
}

#[test]
fn without_a_plot_a_sentence_says_why() {
    let mut window = with_recipe(&recipe_of("water"));
    for (reading, reason) in [(Key::Num2, None), (Key::Num4, Some("There is no curve: the mass has no fat"))] {
        window.show(reading);
        window.command("save the plot");
        let is_asked = window.texts().iter().any(|text| text == "Save the plot");
        assert_eq!(is_asked, reason.is_none(), "{reading:?}");
        if let Some(reason) = reason {
            assert!(window.has_text(reason), "{:?}", window.texts());
        }
        window.press(Key::Escape);
    }
    let mut window = with_recipe(&recipe_of("cocoa-butter"));
    window.show(Key::Num2);
    window.command("save the plot");
    assert!(window.has_text("There is no map: under 2 % water there is no emulsion"), "{:?}", window.texts());
    let mut window = with_recipe(&Recipe::default());
    window.command("save the plot");
    assert!(window.has_text("There is no plot yet: give the lines amounts"));
}
