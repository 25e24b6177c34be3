//! Replacing a file in one step: after a crash, a full disk or a pulled stick there is the old file or the new one.
//!
//! A temporary file in the same folder is written, brought to the disk and renamed over the target.
//! A symbolic link stays one; the file that it points to is replaced. Permissions stay.
//! Not kept: other hard links to the old file, its owner, extended attributes.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use super::error::SaveError;

/// Replaces the file at `path`, or creates it.
///
/// # Errors
///
/// [`SaveError`]; what was there before is then untouched, and no temporary file is left.
pub fn replace_file(path: &Path, bytes: &[u8]) -> Result<(), SaveError> {
    let in_words = |reason: io::Error| SaveError::Write { path: path.to_owned(), reason };
    let target = follow_links(path).map_err(in_words)?;
    let permissions = match fs::metadata(&target) {
        Ok(metadata) => {
            check_target(path, &target, &metadata)?;
            Some(metadata.permissions())
        }
        Err(error) if error.kind() == io::ErrorKind::NotFound => None,
        Err(error) => return Err(in_words(error)),
    };
    let folder = folder_of(&target);
    let mut builder = tempfile::Builder::new();
    builder.prefix(".nibwright-").suffix(".tmp");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        /// What the system's mask takes from: a new file is as readable as any other new file of the user.
        const NEW_FILE_MODE: u32 = 0o666;
        builder.permissions(fs::Permissions::from_mode(NEW_FILE_MODE));
    }
    let mut temporary = builder.tempfile_in(folder).map_err(|reason| {
        let (path, folder) = (path.to_owned(), folder.to_owned());
        if reason.kind() == io::ErrorKind::NotFound && !folder.exists() {
            SaveError::MissingFolder { folder }
        } else {
            SaveError::Folder { path, folder, reason }
        }
    })?;
    temporary.write_all(bytes).map_err(in_words)?;
    if let Some(permissions) = permissions {
        temporary.as_file().set_permissions(permissions).map_err(in_words)?;
    }
    temporary.as_file().sync_all().map_err(in_words)?;
    temporary.persist(&target).map_err(|error| in_words(error.error))?;
    sync_folder(folder);
    Ok(())
}

/// Refuses what must not be replaced.
fn check_target(path: &Path, target: &Path, metadata: &fs::Metadata) -> Result<(), SaveError> {
    let path = path.to_owned();
    if metadata.is_dir() {
        return Err(SaveError::Directory { path });
    }
    if !metadata.is_file() {
        return Err(SaveError::Special { path });
    }
    // Renaming needs only the folder's permission; a protected file is meant to stay, so it is asked itself.
    if metadata.permissions().readonly() {
        return Err(SaveError::ReadOnly { path });
    }
    match OpenOptions::new().append(true).open(target) {
        Ok(_) => Ok(()),
        Err(error) if matches!(error.kind(), io::ErrorKind::PermissionDenied | io::ErrorKind::ReadOnlyFilesystem) => {
            Err(SaveError::ReadOnly { path })
        }
        Err(reason) => Err(SaveError::Write { path, reason }),
    }
}

/// The file that a path means in the end; it need not exist.
fn follow_links(path: &Path) -> io::Result<PathBuf> {
    /// As many as Linux follows; more are a circle.
    const MOST_LINKS: usize = 40;
    let mut target = path.to_owned();
    for _ in 0..MOST_LINKS {
        match fs::symlink_metadata(&target) {
            Ok(metadata) if metadata.is_symlink() => {
                let link = fs::read_link(&target)?;
                target = folder_of(&target).join(link);
            }
            _ => return Ok(target),
        }
    }
    Err(io::Error::other("too many symbolic links"))
}

fn folder_of(path: &Path) -> &Path {
    path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

/// Brings the new name to the disk, where the system can do that.
fn sync_folder(folder: &Path) {
    if cfg!(unix)
        && let Err(error) = File::open(folder).and_then(|folder| folder.sync_all())
    {
        log::warn!("{}: saved, but the folder could not be synchronised: {error}", folder.display());
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names_in(folder: &Path) -> Vec<String> {
        let mut names: Vec<String> = fs::read_dir(folder)
            .expect("a folder")
            .map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned())
            .collect();
        names.sort();
        names
    }

    #[test]
    fn a_file_is_created_and_replaced_and_nothing_else_stays() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("a.ron");
        replace_file(&path, b"one").expect("a new file");
        replace_file(&path, b"two").expect("an old file");
        assert_eq!(fs::read(&path).expect("it is there"), b"two");
        assert_eq!(names_in(folder.path()), ["a.ron"]);
    }

    #[test]
    fn a_name_without_folder_means_the_current_one() {
        assert_eq!(folder_of(Path::new("a.ron")), Path::new("."));
        assert_eq!(folder_of(Path::new("b/a.ron")), Path::new("b"));
    }

    #[cfg(unix)]
    #[test]
    fn a_link_stays_a_link_and_its_file_is_replaced() {
        let folder = tempfile::tempdir().expect("a folder");
        let (real, link) = (folder.path().join("deep/real.ron"), folder.path().join("link.ron"));
        fs::create_dir(folder.path().join("deep")).expect("a folder");
        std::os::unix::fs::symlink("deep/real.ron", &link).expect("a link");
        for text in ["new through a link to nothing", "replaced through the link"] {
            replace_file(&link, text.as_bytes()).expect("it can be written");
            assert_eq!(fs::read_to_string(&real).expect("it is there"), text);
            assert!(fs::symlink_metadata(&link).expect("it is there").is_symlink());
        }
        std::os::unix::fs::symlink("circle.ron", folder.path().join("circle.ron")).expect("a link");
        assert!(matches!(replace_file(&folder.path().join("circle.ron"), b""), Err(SaveError::Write { .. })));
    }

    #[cfg(unix)]
    #[test]
    fn permissions_stay_and_new_files_follow_the_mask_of_the_user() {
        use std::os::unix::fs::PermissionsExt as _;
        let folder = tempfile::tempdir().expect("a folder");
        let mode = |path: &Path| fs::metadata(path).expect("it is there").permissions().mode() & 0o777;
        let (path, ordinary) = (folder.path().join("a.ron"), folder.path().join("ordinary"));
        replace_file(&path, b"one").expect("a new file");
        fs::write(&ordinary, b"").expect("an ordinary file");
        assert_eq!(mode(&path), mode(&ordinary));
        fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).expect("they can be set");
        replace_file(&path, b"two").expect("an old file");
        assert_eq!(mode(&path), 0o640);
    }

    #[test]
    fn a_failure_leaves_the_old_file_and_no_temporary_one() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("a.ron");
        fs::write(&path, b"old").expect("a file");
        let mut permissions = fs::metadata(&path).expect("it is there").permissions();
        permissions.set_readonly(true);
        fs::set_permissions(&path, permissions).expect("they can be set");
        let error = replace_file(&path, b"new").expect_err("it is protected");
        assert!(matches!(error, SaveError::ReadOnly { .. }), "{error}");
        assert!(error.to_string().ends_with("a.ron: the file is protected against writing; save under another name"));
        assert_eq!(fs::read(&path).expect("it is there"), b"old");
        assert_eq!(names_in(folder.path()), ["a.ron"]);
    }

    #[test]
    fn a_folder_that_is_none_takes_no_file() {
        let folder = tempfile::tempdir().expect("a folder");
        let missing = replace_file(&folder.path().join("none/a.ron"), b"").expect_err("no folder");
        let words =
            format!("The folder {} does not exist; choose another folder", folder.path().join("none").display());
        assert_eq!(missing.to_string(), words);
        let taken = replace_file(folder.path(), b"").expect_err("it is a folder");
        assert!(matches!(taken, SaveError::Directory { .. }), "{taken}");
    }

    /// /proc takes no new files, from nobody; it stands in for a folder that is protected against writing.
    #[cfg(target_os = "linux")]
    #[test]
    fn a_protected_folder_and_a_device_take_nothing() {
        let folder = replace_file(Path::new("/proc/a.ron"), b"").expect_err("nothing can be created there");
        assert!(matches!(folder, SaveError::Folder { .. }), "{folder}");
        assert!(!folder.to_string().contains(".tmp"), "{folder}");
        let device = replace_file(Path::new("/dev/full"), b"").expect_err("it is a device");
        assert!(matches!(device, SaveError::Special { .. }), "{device}");
    }
}
