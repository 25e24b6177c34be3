//! Files that are cut off, mangled, far too large or not there: always one sentence, never a panic, nothing lost.

use std::fs::{self, File};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use nibwright::ingredient::Library;
use nibwright::recipe::{Quantity, Recipe, Step};
use nibwright::store::{SaveError, file_stamp, load_recipe, save_recipe};
use nibwright::units::Celsius;
use proptest::prelude::*;

use super::{FILES, load, load_bytes};

/// 16 MB, the largest file that is read.
const LARGEST: usize = 16 << 20;

/// No damaged file may keep a user waiting; generous because tests are not optimised and share the machine.
const PATIENCE: Duration = Duration::from_secs(30);

fn valid_texts() -> Vec<Vec<u8>> {
    ["by-hand.ron", "everything.ron"]
        .map(|name| fs::read(Path::new(FILES).join("v1").join(name)).expect("it is there"))
        .into()
}

/// Whether a sentence names the file with line and column.
fn has_place(sentence: &str) -> bool {
    let mut parts = sentence.split(':');
    parts.next() == Some("a.ron")
        && parts.by_ref().take(2).all(|part| part.parse::<usize>().is_ok_and(|place| place > 0))
}

fn refusal(bytes: &[u8]) -> String {
    let begun = Instant::now();
    let sentence = load_bytes(bytes).expect_err("it is damaged");
    assert!(begun.elapsed() < PATIENCE, "{:?} for {sentence}", begun.elapsed());
    sentence
}

#[test]
fn a_file_that_is_cut_off_anywhere_is_refused_with_its_place() {
    for bytes in valid_texts() {
        let end = bytes.iter().rposition(|byte| *byte == b')').expect("it ends with a bracket");
        for length in 0..end {
            let sentence = refusal(&bytes[..length]);
            assert!(has_place(&sentence), "{length} bytes: {sentence}");
        }
    }
}

proptest! {
    #[test]
    fn a_mangled_file_is_refused_with_its_place_or_opens(
        which in 0..2_usize,
        changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>(), 0..3_u8), 1..6),
    ) {
        let mut bytes = valid_texts().swap_remove(which);
        for (index, byte, way) in changes {
            let at = index.index(bytes.len());
            match way {
                0 => bytes[at] = byte,
                1 => bytes.insert(at, b"()[]{},:\"'/*\\#-.0r"[usize::from(byte) % 18]),
                _ => drop(bytes.remove(at)),
            }
        }
        if let Err(sentence) = load_bytes(&bytes) {
            prop_assert!(has_place(&sentence), "{}", sentence);
        }
    }

    #[test]
    fn any_bytes_are_refused_with_their_place(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        let sentence = refusal(&bytes);
        prop_assert!(has_place(&sentence), "{}", sentence);
    }

    #[test]
    fn any_row_of_signs_after_a_good_beginning_that_is_no_recipe_is_refused_with_its_place(signs in "[\\[\\](){},:\"'/*\\\\#a-c0-9.\n-]{0,80}") {
        match load_bytes(format!("(format: 1, lines: [], {signs}").as_bytes()) {
            Err(sentence) => prop_assert!(has_place(&sentence), "{}", sentence),
            // Once in a thousand rows the signs happen to close the recipe.
            Ok(_) => prop_assert!(signs.contains(')'), "{}", signs),
        }
    }
}

#[test]
fn nesting_without_end_is_refused() {
    for (text, place) in [
        ("(".repeat(100_000), "1:65"),
        (format!("(format: 1, lines: {}", "[".repeat(100_000)), "1:83"),
        (format!("(format: 1, note: {}", "Some(".repeat(100_000)), "1:338"),
        (format!("(format: 1, x: {}", "{(:".repeat(100_000)), "1:110"),
    ] {
        let sentence = refusal(text.as_bytes());
        assert!(sentence.starts_with(&format!("a.ron:{place}: brackets are nested more than 64 deep")), "{sentence}");
    }
    let comments = format!("(format: 1, {}", "/*".repeat(100_000));
    assert!(refusal(comments.as_bytes()).contains("the file ends before the comment opened here is closed"));
}

#[test]
fn a_file_that_is_too_large_is_refused_unread() {
    let folder = tempfile::tempdir().expect("a folder");
    for length in [LARGEST as u64 + 1, 200 << 20, 1 << 40] {
        let path = folder.path().join("a.ron");
        // A sparse file: its length is not on the disk.
        if let Err(error) = File::create(&path).and_then(|file| file.set_len(length)) {
            assert!(length > 200 << 20, "{error}");
            continue;
        }
        let begun = Instant::now();
        assert_eq!(
            load(&path).expect_err("it is too large"),
            "a.ron: the file is larger than 16 MB, so it is no recipe; name a recipe file"
        );
        assert!(begun.elapsed() < Duration::from_secs(1), "it was read");
    }
}

#[test]
fn large_files_are_refused_in_bearable_time_whatever_they_hold() {
    /// What takes time with the square of the length would take minutes already.
    const LENGTH: usize = 1 << 20;
    for (head, filling, tail) in [
        ("", "\0", ""),
        ("", "(", ""),
        ("", "a", ""),
        ("", "\"", ""),
        ("", "'", ""),
        ("", "'\\", ""),
        ("", "r#", ""),
        ("", "r#\"", ""),
        ("", "/*", ""),
        ("", "\n", ""),
        ("", "//", "("),
        ("(format: 1, name: \"", "a", "\", lines: 5)"),
        ("(format: 1, lines: [", "(ingredient: \"cream-35\", amount: 1), ", "], pieces: x)"),
        ("(format: 1, lines: [", "(ingredient: \"cream-35\", amount: 1), ", "(ingredient: \"no\", amount: 1)])"),
        ("(format: 1, lines: [", "(ingredient: \"cream-35\", amount: 1), ", ""),
        ("(format: 1, lines: [(ingredient: \"", "long", "\", amount: 1)])"),
        ("(format: 1, lines: [(", "long", ": 1)])"),
        ("(format: 1, lines: [], kind: ", "long", ")"),
        ("(format: 1, lines: [], pieces: ", "9", ")"),
        ("(format: 1, lines: [], transfer_loss_percent: ", "9", ")"),
        ("(format: 1, lines: [], ", ",", ")"),
        ("(format: ", "9", ")"),
    ] {
        let sentence = refusal((head.to_owned() + &filling.repeat(LENGTH / filling.len()) + tail).as_bytes());
        assert!(has_place(&sentence) && sentence.len() < 1000, "{head}{filling}: {sentence}");
    }
}

#[test]
fn the_largest_file_opens_if_it_is_right() {
    let text = |length: usize| format!("(format: 1, lines: [], name: \"{}\")", "n".repeat(length));
    let beside_the_name = text(0).len();
    let recipe = load_bytes(text(LARGEST - beside_the_name).as_bytes()).expect("it is not too large");
    assert_eq!(recipe.name.len(), LARGEST - beside_the_name);
    assert!(refusal(text(LARGEST - beside_the_name + 1).as_bytes()).contains("is larger than 16 MB"));
}

/// A spreadsheet's table is opened in the window by mistake.
#[test]
fn a_table_is_refused_with_the_way_to_read_it() {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, text, extension) in [
        ("a.csv", "ingredient;grams\ncream-35;212,5\n", "csv"),
        ("a.CSV", "cream-35,200\n", "csv"),
        ("a.tsv", "cream-35\t200\n", "tsv"),
        ("empty.csv", "", "csv"),
    ] {
        let path = folder.path().join(name);
        fs::write(&path, text).expect("a file");
        let sentence = format!(
            "{name}: this is a table, and only recipes (.ron) can be opened; \
             `nibwright report FILE.{extension}` computes it"
        );
        assert_eq!(load(&path).expect_err("it is no recipe"), sentence);
    }
    // What it is called does not matter where it is a recipe.
    let path = folder.path().join("recipe.csv");
    fs::write(&path, "(format: 1, lines: [])").expect("a file");
    assert!(load(&path).is_ok());
    assert_eq!(
        load(&folder.path().join("b.csv")).expect_err("it is not there"),
        "b.csv: there is no such file; check the name and the folder"
    );
}

#[test]
fn what_is_no_file_is_refused() {
    let folder = tempfile::tempdir().expect("a folder");
    let of = |name: &str| load(&folder.path().join(name));
    assert_eq!(of("a.ron").expect_err("nothing"), "a.ron: there is no such file; check the name and the folder");
    fs::create_dir(folder.path().join("b.ron")).expect("a folder");
    assert_eq!(of("b.ron").expect_err("a folder"), "b.ron: this is a folder; name a recipe file in it");
    fs::write(folder.path().join("c"), b"").expect("a file");
    let below_a_file =
        load_recipe(&folder.path().join("c/d.ron"), Library::built_in()).expect_err("nothing").to_string();
    assert!(below_a_file.ends_with("there is no such file; check the name and the folder"), "{below_a_file}");
}

#[cfg(target_os = "linux")]
#[test]
fn what_the_system_does_not_let_read_is_refused() {
    // Opening this file works, reading its first byte does not, for nobody.
    let unreadable = load(Path::new("/proc/self/mem")).expect_err("it cannot be read");
    assert!(
        unreadable.starts_with("mem: the file cannot be read (")
            && unreadable.ends_with("; check that you may read it")
    );
    let endless = load(Path::new("/dev/zero")).expect_err("it is a device");
    assert_eq!(endless, "zero: this is a device or a pipe, not a file; name a recipe file");
}

#[cfg(unix)]
#[test]
fn a_file_without_permission_is_refused_to_all_who_have_none() {
    use std::os::unix::fs::PermissionsExt as _;
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("a.ron");
    fs::write(&path, b"(format: 1, lines: [])").expect("a file");
    fs::set_permissions(&path, fs::Permissions::from_mode(0o000)).expect("they can be set");
    // An administrator may read it all the same; then it has to open.
    match (fs::read(&path), load(&path)) {
        (Ok(_), loaded) => assert_eq!(loaded, Ok(Recipe::default())),
        (Err(_), loaded) => assert!(loaded.expect_err("refused").starts_with("a.ron: the file cannot be read (")),
    }
}

#[test]
fn a_byte_order_mark_and_lines_of_windows_are_taken() {
    let bytes = b"\xef\xbb\xbf(\r\n    format: 1,\r\n    name: \"Dark\",\r\n    lines: [],\r\n)\r\n";
    assert_eq!(load_bytes(bytes).expect("it opens").name, "Dark");
    let damaged = b"\xef\xbb\xbf(\r\n    format: 1,\r\n    name: 5,\r\n    lines: [],\r\n)\r\n";
    assert_eq!(refusal(damaged), "a.ron:3:11: write a text in quotes here instead of `5`");
}

#[test]
fn a_name_with_line_breaks_is_shown_on_one_line() {
    let refused = refusal("(format: 1, lines: [(ingredient: \"a\nb\u{7}\", amount: 1)])".as_bytes());
    assert!(refused.starts_with("a.ron:1:34: the ingredient \"a\\nb\\u{7}\" is neither"), "{refused}");
    let path = PathBuf::from("no\nfile.ron");
    let missing = load_recipe(&path, Library::built_in()).expect_err("nothing").to_string();
    assert_eq!(missing, "no\\nfile.ron: there is no such file; check the name and the folder");
}

fn recipe(name: &str) -> Recipe {
    Recipe { name: name.to_owned(), ..Recipe::default() }
}

fn names_in(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).expect("a folder");
    entries.map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned()).collect()
}

#[test]
fn a_save_that_fails_leaves_the_old_file_and_no_other() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("a.ron");
    save_recipe(&path, &recipe("Old")).expect("it can be saved");
    let before = fs::read(&path).expect("it is there");

    let too_large = recipe(&"x".repeat(LARGEST));
    assert!(matches!(save_recipe(&path, &too_large), Err(SaveError::TooLarge { .. })));

    let mut would_not_open = recipe("New");
    would_not_open.steps.push(Step { temperature: Some(Celsius(f64::NAN)), ..Step::default() });
    let error = save_recipe(&path, &would_not_open).expect_err("it could not be read again").to_string();
    assert!(
        error.ends_with(
            "a.ron: the recipe would not open again (the temperature NaN °C does not exist; give a number from \
             -273.15 on); correct that and save again"
        ),
        "{error}"
    );

    let mut permissions = fs::metadata(&path).expect("it is there").permissions();
    permissions.set_readonly(true);
    fs::set_permissions(&path, permissions).expect("they can be set");
    assert!(matches!(save_recipe(&path, &recipe("New")), Err(SaveError::ReadOnly { .. })));

    assert_eq!(fs::read(&path).expect("it is there"), before);
    assert_eq!(names_in(folder.path()), ["a.ron"]);
}

#[test]
fn a_file_that_changed_on_the_disk_is_noticed() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("a.ron");
    assert_eq!(file_stamp(&path), None);
    save_recipe(&path, &recipe("One")).expect("it can be saved");
    let stamp = file_stamp(&path);
    assert!(stamp.is_some());
    assert_eq!(file_stamp(&path), stamp);
    let mut longer = recipe("One");
    longer.push(
        Library::built_in().by_id("cream-35").expect("it is built in").clone(),
        Quantity::from_grams(1.0).expect("an amount"),
    );
    save_recipe(&path, &longer).expect("it can be saved");
    assert_ne!(file_stamp(&path), stamp);
    // Of the same length, but at another time.
    let stamp = file_stamp(&path);
    let file = File::options().append(true).open(&path).expect("it is there");
    file.set_modified(std::time::UNIX_EPOCH).expect("the time can be set");
    assert_ne!(file_stamp(&path), stamp);
}
