//! Opening and saving: a file is what was on the screen, and what is on the screen is never lost to a bad file.

use std::fs;

use egui::Key;
use nibwright::ingredient::Library;
use nibwright::store::load_recipe;

use super::*;

const SAMPLE: &str = "dark-cut-ganache.ron";

fn on_disk(window: &Window, name: &str) -> Recipe {
    load_recipe(&window.folder.path().join(name), Library::built_in()).expect("it opens")
}

#[test]
fn what_is_saved_is_what_was_seen() {
    let mut window = with_copy_of(SAMPLE);
    assert_eq!(window.state().title(), "Dark cut ganache – Nibwright");
    window.type_amount(CREAM, "240,5");
    assert_eq!(window.state().title(), "• Dark cut ganache – Nibwright");
    window.press_with(CTRL, Key::L);
    window.press_with(CTRL, Key::S);
    assert!(window.has_text("Saved") && window.state().is_saved());
    assert_eq!(window.state().title(), "Dark cut ganache – Nibwright");
    assert_eq!(on_disk(&window, SAMPLE), *window.recipe());
    assert_eq!(on_disk(&window, SAMPLE).lines[1].amount.value(), 240.5);
    // Undo goes back before the save, and then it is not saved.
    window.press_with(CTRL, Key::Z);
    assert_eq!(window.state().title(), "• Dark cut ganache – Nibwright");
    window.press_with(CTRL, Key::Y);
    assert!(window.state().is_saved());
}

#[test]
fn the_title_of_the_window_follows() {
    let mut window = first_start();
    window.click("Cream, 35 % fat, amount");
    window.type_letter('7');
    let title = egui::ViewportCommand::Title("• Dark cut ganache – Nibwright".to_owned());
    assert!(window.commands().contains(&title), "{:?}", window.commands());
}

#[test]
fn a_recipe_without_a_file_is_saved_where_it_is_asked_for() {
    let mut window = first_start();
    window.type_amount(CREAM, "240");
    window.press_with(CTRL, Key::S);
    assert!(window.has_text("Save the recipe"));
    let path = window.folder.path().join("my ganache");
    window.give_path(&path);
    assert!(window.state().is_saved());
    assert_eq!(on_disk(&window, "my ganache.ron"), *window.recipe());
    // The next save knows where.
    window.type_amount(CREAM, "250");
    window.press_with(CTRL, Key::S);
    assert_eq!(on_disk(&window, "my ganache.ron").lines[1].amount.value(), 250.0);
}

#[test]
fn a_path_that_does_not_work_is_still_there_to_be_corrected() {
    let mut window = with_copy_of(SAMPLE);
    window.press_with(CTRL_SHIFT, Key::S);
    let (folder, path) = (window.folder.path().join("sub"), window.folder.path().join("sub/a.ron"));
    window.give_path(&path);
    assert!(window.has_text(&format!("The folder {} does not exist; choose another folder", folder.display())));
    window.press(Key::Escape);
    assert_eq!(window.field("/home/…/recipe.ron").value(), Some(path.display().to_string()));
    std::fs::create_dir(&folder).expect("a folder");
    window.press(Key::Enter);
    window.settle();
    assert_eq!(on_disk(&window, "sub/a.ron"), *window.recipe());
}

#[test]
fn save_as_proposes_a_name_and_leaves_the_first_file_alone() {
    let mut window = with_copy_of(SAMPLE);
    window.type_amount(CREAM, "240");
    window.press_with(CTRL_SHIFT, Key::S);
    let proposed = window.folder.path().join("dark-cut-ganache.ron").display().to_string();
    assert_eq!(window.field("/home/…/recipe.ron").value(), Some(proposed));
    let path = window.folder.path().join("other.ron");
    window.give_path(&path);
    assert_eq!(on_disk(&window, SAMPLE).lines[1].amount.value(), 200.0);
    assert_eq!(on_disk(&window, "other.ron").lines[1].amount.value(), 240.0);
}

#[test]
fn a_file_that_changed_meanwhile_is_not_overwritten_without_a_question() {
    let mut window = with_copy_of(SAMPLE);
    let path = window.folder.path().join(SAMPLE);
    let theirs = "(format: 1, name: \"Theirs\", lines: [])";
    window.type_amount(CREAM, "240");
    window.press(Key::Enter);
    fs::write(&path, theirs).expect("a file");
    window.press_with(CTRL, Key::S);
    assert!(window.has_text("The file has changed meanwhile"));
    window.click("Cancel");
    assert_eq!(fs::read_to_string(&path).expect("a file"), theirs);
    assert!(!window.state().is_saved());
    window.press_with(CTRL, Key::S);
    window.click("Overwrite");
    assert!(window.state().is_saved());
    assert_eq!(on_disk(&window, SAMPLE), *window.recipe());
    // What this window has written is no change by somebody else.
    window.type_amount(CREAM, "250");
    window.press_with(CTRL, Key::S);
    assert!(window.state().is_saved());
}

#[test]
fn another_file_is_not_overwritten_without_a_question() {
    let mut window = with_copy_of(SAMPLE);
    let other = window.folder.path().join("other.ron");
    fs::copy(samples().join("school-bar-66.ron"), &other).expect("a copy");
    window.type_amount(CREAM, "240");
    window.press_with(CTRL_SHIFT, Key::S);
    window.give_path(&other);
    assert!(window.has_text("There is such a file already"));
    window.click("Cancel");
    assert_eq!(on_disk(&window, "other.ron").name, "School bar 66 %");
    window.press_with(CTRL_SHIFT, Key::S);
    window.give_path(&other);
    window.click("Overwrite");
    assert_eq!(on_disk(&window, "other.ron"), *window.recipe());
    // Its own file is not another one.
    window.press_with(CTRL_SHIFT, Key::S);
    window.give_path(&other);
    assert!(!window.has_text("There is such a file already") && window.has_text("Saved"));
}

#[test]
fn a_file_that_is_gone_is_written_again() {
    let mut window = with_copy_of(SAMPLE);
    fs::remove_file(window.folder.path().join(SAMPLE)).expect("it was there");
    window.type_amount(CREAM, "240");
    window.press_with(CTRL, Key::S);
    assert_eq!(on_disk(&window, SAMPLE).lines[1].amount.value(), 240.0);
}

#[test]
fn a_bad_file_is_said_in_a_sentence_and_the_sample_stays() {
    let mut opening = Opening::new();
    let path = opening.folder.path().join("bad.ron");
    fs::write(&path, "(format: 1, lines: [(ingredient: \"cream-35\", amount: 2oo)])").expect("a file");
    opening.file = Some(path.clone());
    let mut window = opening.open();
    let sentence = load_recipe(&path, Library::built_in()).expect_err("it is bad").to_string();
    assert!(sentence.contains("bad.ron:1:"), "{sentence}");
    assert!(window.has_text("This file cannot be opened") && window.has_text(&sentence));
    assert_eq!(window.recipe().name, "Dark cut ganache");
    window.press(Key::Enter);
    assert!(!window.has_text("This file cannot be opened"));
    assert!(window.state().is_saved());
}

#[test]
fn a_bad_file_leaves_the_open_recipe_as_it_is() {
    let mut window = with_copy_of("school-bar-66.ron");
    let before = window.recipe().clone();
    for name in ["missing.ron", "."] {
        window.press_with(CTRL, Key::O);
        assert!(window.has_text("Open a recipe"));
        let path = window.folder.path().join(name);
        window.give_path(&path);
        assert!(window.has_text("This file cannot be opened"), "{name}");
        window.click("Close");
        // The path is there to be corrected.
        window.press(Key::Escape);
        assert_eq!(*window.recipe(), before);
    }
    // It is still the file that is saved to.
    window.press_with(CTRL, Key::S);
    assert!(window.has_text("Saved"));
    assert_eq!(on_disk(&window, "school-bar-66.ron"), before);
}

#[test]
fn opening_asks_about_unsaved_changes_when_a_file_was_chosen() {
    let mut window = with_copy_of(SAMPLE);
    let other = window.folder.path().join("other.ron");
    fs::copy(samples().join("school-bar-66.ron"), &other).expect("a copy");
    window.type_amount(CREAM, "240");
    window.press_with(CTRL, Key::O);
    window.give_path(&other);
    assert!(window.has_text("Save the changes"));
    window.click("Cancel");
    assert_eq!(window.amount(CREAM), 240.0);
    window.press_with(CTRL, Key::O);
    window.give_path(&other);
    window.click("Save");
    window.settle();
    assert_eq!(window.recipe().name, "School bar 66 %");
    assert_eq!(on_disk(&window, SAMPLE).lines[1].amount.value(), 240.0);
}

#[test]
fn the_shelf_lists_the_folder_and_opens_what_is_clicked() {
    let mut opening = Opening::new();
    for name in [SAMPLE, "school-bar-66.ron", "thin-dark-coat.ron"] {
        fs::copy(samples().join(name), opening.folder.path().join(name)).expect("a copy");
    }
    opening.file = Some(opening.folder.path().join(SAMPLE));
    let mut window = opening.open();
    window.click("Thin dark coat");
    window.settle();
    assert_eq!(window.recipe().name, "Thin dark coat");
    assert_eq!(window.state().title(), "Thin dark coat – Nibwright");
    // The search narrows recipes too.
    window.press_with(CTRL, Key::F);
    window.type_text("school");
    assert!(window.query_by_label("Thin dark coat").is_none());
    window.click("School bar 66 %");
    window.settle();
    assert_eq!(window.recipe().name, "School bar 66 %");
}

/// A file as the system hands it over when it is dropped on the window.
#[derive(Debug)]
struct Dropped(PathBuf);

impl egui::DroppedFile for Dropped {
    fn path(&self) -> &Path {
        &self.0
    }

    fn bytes(&self) -> Result<Vec<u8>, String> {
        fs::read(&self.0).map_err(|error| error.to_string())
    }
}

#[test]
fn a_file_that_is_dropped_on_the_window_is_opened() {
    let mut window = with_copy_of(SAMPLE);
    let dropped = std::sync::Arc::new(Dropped(samples().join("school-bar-66.ron")));
    window.type_amount(CREAM, "240");
    window.input_mut().dropped_files.push(dropped);
    window.run();
    assert!(window.has_text("Save the changes"));
    window.click("Don't save");
    window.settle();
    assert_eq!(window.recipe().name, "School bar 66 %");
    assert_eq!(on_disk(&window, SAMPLE).lines[1].amount.value(), 200.0);
}

#[test]
fn a_path_is_remembered_in_full() {
    let mut window = first_start();
    window.press_with(CTRL, Key::O);
    window.give_path(Path::new("sample-recipes/school-bar-66.ron"));
    assert_eq!(window.recipe().name, "School bar 66 %");
    assert_eq!(window.state().recent_files(), [samples().join("school-bar-66.ron")]);
}

#[test]
fn an_edit_after_the_file_was_asked_for_is_not_lost() {
    let mut window = with_copy_of(SAMPLE);
    window.press_with(CTRL, Key::O);
    window.press(Key::Escape);
    assert!(!window.has_text("Open a recipe"));
    window.type_amount(CREAM, "240");
    window.press(Key::Enter);
    assert_eq!(window.amount(CREAM), 240.0);
}

#[test]
fn lines_are_copied_as_a_table() {
    let mut window = first_start();
    window.event(egui::Event::Key {
        key: Key::C,
        physical_key: None,
        pressed: true,
        repeat: false,
        modifiers: CTRL_SHIFT,
    });
    window.step();
    let copied = window.output().platform_output.commands.iter().find_map(|command| match command {
        egui::OutputCommand::CopyText(text) => Some(text.clone()),
        _ => None,
    });
    let copied = copied.expect("something was copied");
    assert!(copied.starts_with("ingredient\tgrams\nDark couverture, 64 % cocoa\t400\n"), "{copied}");
}

#[test]
fn without_the_shelf_there_is_room_for_larger_letters() {
    let mut window = first_start();
    let enlarge = |window: &mut Window| {
        for _ in 0..9 {
            window.press_with(CTRL, Key::Plus);
        }
        (window.ctx.zoom_factor() * 10.0).round()
    };
    assert_eq!(enlarge(&mut window), 11.0);
    assert!(window.has_text("hide the shelf (Ctrl+B)"));
    window.press_with(CTRL, Key::B);
    let is_search = |node: egui_kittest::Node<'_>| {
        node.accesskit_node().data().placeholder() == Some("Find a recipe or ingredient")
    };
    assert!(!window.root().children_recursive().any(is_search));
    assert_eq!(enlarge(&mut window), 13.0);
    // Everything in the lines is in sight: the word at their right ends before the readings begin.
    let lock = window.get_by_label(&format!("{CREAM}, lock")).rect();
    assert!(lock.right() < window.get_by_label("Make-up").rect().left(), "{lock:?}");
    // The search needs it.
    window.press_with(CTRL, Key::F);
    window.settle();
    assert!(window.focus().is_some_and(is_search));
    assert_eq!((window.ctx.zoom_factor() * 10.0).round(), 11.0, "and its room");
    window.press_with(CTRL, Key::B);
    let window = Opening::in_folder(window.quit()).open();
    assert!(!window.root().children_recursive().any(is_search), "it stays hidden");
}

#[test]
fn settings_outlive_the_window() {
    let mut window = first_start();
    window.command("dark colours");
    assert_eq!(window.ctx.theme(), egui::Theme::Dark);
    window.press_with(CTRL, Key::Plus);
    let zoom = window.ctx.zoom_factor();
    assert!((zoom - 1.1).abs() < 1e-6, "one press is one step: {zoom}");
    assert!(window.has_text("110 %"));
    window.show(Key::Num4);
    let window = Opening::in_folder(window.quit()).open();
    assert!((window.ctx.zoom_factor() - zoom).abs() < 1e-6);
    let settings = nibwright::store::Settings::load(&Places::under(window.folder.path()));
    assert_eq!(settings.theme, nibwright::store::Theme::Dark);
    window.figure("solid at 20.0 °C");
}
