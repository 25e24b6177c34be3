//! Copies of unsaved work: written beside, offered after a crash, gone after a normal end.

use std::fs;

use egui::Key;

use super::*;

const SAMPLE: &str = "dark-cut-ganache.ron";

/// Frames that cover this many seconds.
fn frames(seconds: f32) -> usize {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a few dozen")]
    let frames = (seconds / STEP).ceil() as usize;
    frames
}

/// The copies in the folder of a window.
fn copies(folder: &TempDir) -> Vec<PathBuf> {
    let folder = Places::under(folder.path()).recovery();
    let entries = fs::read_dir(folder).expect("a folder").map(|entry| entry.expect("an entry").path());
    entries.filter(|path| path.extension().is_some_and(|extension| extension == "ron")).collect()
}

#[test]
fn a_copy_is_written_three_seconds_after_a_change() {
    let mut window = with_copy_of(SAMPLE);
    window.type_amount(CREAM, "240");
    window.press(Key::Enter);
    window.run_steps(frames(2.0));
    assert_eq!(copies(&window.folder).len(), 0);
    assert!(!window.state().has_recovery_copy());
    assert!(window.next_frame().is_some(), "the window wakes by itself");
    window.run_steps(frames(1.5));
    assert_eq!(copies(&window.folder).len(), 1);
    assert!(window.has_text("recovery copy kept"));
    let file = fs::read_to_string(window.folder.path().join(SAMPLE)).expect("the file");
    assert_eq!(file, fs::read_to_string(samples().join(SAMPLE)).expect("the sample"), "the file itself is untouched");
    // A saved recipe needs no copy.
    window.press_with(CTRL, Key::S);
    assert_eq!(copies(&window.folder).len(), 0);
}

#[test]
fn what_was_undone_needs_no_copy() {
    let mut window = with_copy_of(SAMPLE);
    window.type_amount(CREAM, "240");
    window.press(Key::Enter);
    window.run_steps(frames(3.5));
    assert_eq!(copies(&window.folder).len(), 1);
    window.press_with(CTRL, Key::Z);
    window.run_steps(frames(3.5));
    assert_eq!(copies(&window.folder).len(), 0);
    assert!(!window.has_text("recovery copy kept"));
}

#[test]
fn a_step_back_to_another_unsaved_state_is_copied_too() {
    let mut window = with_copy_of(SAMPLE);
    for amount in ["240", "250"] {
        window.type_amount(CREAM, amount);
        window.press(Key::Enter);
    }
    window.run_steps(frames(3.5));
    window.press_with(CTRL, Key::Z);
    window.run_steps(frames(3.5));
    let copy = nibwright::store::load_recipe(&copies(&window.folder)[0], nibwright::ingredient::Library::built_in());
    assert_eq!(copy.expect("it opens").lines[1].amount.value(), 240.0);
}

#[test]
fn after_a_crash_the_work_is_offered_and_restored() {
    let mut window = with_copy_of(SAMPLE);
    window.type_amount(CREAM, "240");
    window.press(Key::Enter);
    window.run_steps(frames(3.5));
    let mut window = Opening::in_folder(window.crash()).open();
    assert!(window.has_text("There is unsaved work") && window.has_text("“Dark cut ganache” was not saved"));
    assert_eq!(window.amount(CREAM), 200.0, "the sample");
    window.click("Restore");
    assert_eq!(window.amount(CREAM), 240.0);
    assert!(!window.state().is_saved());
    assert_eq!(copies(&window.folder).len(), 1, "there is always one copy");
    window.press_with(CTRL, Key::S);
    let path = window.folder.path().join(SAMPLE);
    let saved = nibwright::store::load_recipe(&path, nibwright::ingredient::Library::built_in()).expect("it opens");
    assert_eq!(saved.lines[1].amount.value(), 240.0, "it is saved to the file that was worked on");
    assert_eq!(copies(&window.folder).len(), 0);
    let window = Opening::in_folder(window.quit()).open();
    assert!(!window.has_text("There is unsaved work"));
}

#[test]
fn the_work_on_a_file_is_offered_when_that_file_is_opened_again() {
    let mut window = with_copy_of(SAMPLE);
    window.type_amount(CREAM, "240");
    window.press(Key::Enter);
    window.run_steps(frames(3.5));
    let folder = window.crash();
    let file = folder.path().join(SAMPLE);
    let mut window = Opening { file: Some(file), ..Opening::in_folder(folder) }.open();
    assert!(window.has_text("There is unsaved work"));
    window.click("Restore");
    assert_eq!(window.amount(CREAM), 240.0);
}

#[test]
fn unsaved_work_can_wait_or_be_forgotten() {
    let mut window = first_start();
    window.type_amount(CREAM, "240");
    window.press(Key::Enter);
    window.run_steps(frames(3.5));
    let mut window = Opening::in_folder(window.crash()).open();
    window.click("Later");
    assert_eq!(window.amount(CREAM), 200.0);
    let mut window = Opening::in_folder(window.quit()).open();
    assert!(window.has_text("There is unsaved work"), "a normal end leaves older copies alone");
    window.click("Forget it");
    let window = Opening::in_folder(window.quit()).open();
    assert!(!window.has_text("There is unsaved work"));
    assert_eq!(copies(&window.folder).len(), 0);
}

#[test]
fn an_end_without_a_question_keeps_what_is_unsaved() {
    let mut window = with_copy_of(SAMPLE);
    window.type_amount(CREAM, "240");
    window.press(Key::Enter);
    // Some systems end a program at once: no time for the copy that is written after a few seconds.
    let mut window = Opening::in_folder(window.quit()).open();
    assert!(window.has_text("There is unsaved work"));
    window.click("Restore");
    assert_eq!(window.amount(CREAM), 240.0);
}

#[test]
fn a_normal_end_leaves_nothing_behind() {
    let mut window = with_copy_of(SAMPLE);
    window.type_amount(CREAM, "240");
    window.press(Key::Enter);
    window.run_steps(frames(3.5));
    assert_eq!(copies(&window.folder).len(), 1);
    window.ask_to_close();
    window.run();
    window.click("Don't save");
    assert_eq!(copies(&window.folder).len(), 0);
    let window = Opening::in_folder(window.quit()).open();
    assert!(!window.has_text("There is unsaved work"));
}

#[test]
fn saving_under_another_name_takes_the_copy_of_the_first_away() {
    let mut window = with_copy_of(SAMPLE);
    window.type_amount(CREAM, "240");
    window.press(Key::Enter);
    window.run_steps(frames(3.5));
    window.press_with(CTRL_SHIFT, Key::S);
    window.press_with(CTRL, Key::A);
    let other = window.folder.path().join("other.ron");
    window.event(egui::Event::Text(other.display().to_string()));
    window.run();
    window.press(Key::Enter);
    assert!(window.state().is_saved());
    assert_eq!(copies(&window.folder).len(), 0);
}

#[test]
fn another_recipe_takes_the_copy_of_the_first_away_only_when_it_was_answered_for() {
    let mut window = with_copy_of(SAMPLE);
    window.type_amount(CREAM, "240");
    window.press(Key::Enter);
    window.run_steps(frames(3.5));
    window.press_with(CTRL, Key::N);
    assert_eq!(copies(&window.folder).len(), 1);
    window.click("Don't save");
    assert_eq!(copies(&window.folder).len(), 0);
}

#[test]
fn a_copy_that_cannot_be_read_is_said() {
    let opening = Opening::new();
    let folder = Places::under(opening.folder.path()).recovery();
    fs::create_dir_all(&folder).expect("a folder");
    fs::write(folder.join("1.0-untitled.ron"), "(format: 1, name: \"Cut off\", lines: [").expect("a file");
    let mut window = opening.open();
    window.click("Restore");
    assert!(window.has_text("The copy cannot be opened") && window.has_text("1.0-untitled.ron:1:"));
    window.press(Key::Enter);
    assert_eq!(window.recipe().name, "Dark cut ganache");
}
