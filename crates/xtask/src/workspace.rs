//! Where the repository is, and reading its files with errors that name them.

use std::fs;
use std::path::{Path, PathBuf};

use crate::Outcome;

/// The folder of the workspace around the current folder.
///
/// It is looked for at run time: a path fixed when this program was compiled would be wrong after
/// the clone moved.
pub fn root() -> Outcome<PathBuf> {
    let start = std::env::current_dir().map_err(|error| format!("the current folder cannot be read: {error}"))?;
    start
        .ancestors()
        .find(|folder| {
            fs::read_to_string(folder.join("Cargo.toml")).is_ok_and(|manifest| manifest.contains("[workspace]"))
        })
        .map(Path::to_path_buf)
        .ok_or_else(|| "run this inside the repository".to_owned())
}

/// Cargo's target folder, which the environment may have moved.
#[must_use]
pub fn target_dir(root: &Path) -> PathBuf {
    match std::env::var_os("CARGO_TARGET_DIR") {
        Some(folder) => root.join(folder),
        None => root.join("target"),
    }
}

/// The text of a file.
pub fn read(path: &Path) -> Outcome<String> {
    fs::read_to_string(path).map_err(|error| format!("{} cannot be read: {error}", path.display()))
}

/// The bytes of a file.
pub fn read_bytes(path: &Path) -> Outcome<Vec<u8>> {
    fs::read(path).map_err(|error| format!("{} cannot be read: {error}", path.display()))
}

/// Writes a file and the folders it is in.
pub fn write(path: &Path, content: &[u8]) -> Outcome {
    let folder = path.parent().unwrap_or(Path::new("."));
    fs::create_dir_all(folder)
        .and_then(|()| fs::write(path, content))
        .map_err(|error| format!("{} cannot be written: {error}", path.display()))
}

/// Every file below `folder`, in a fixed order.
pub fn files_below(folder: &Path) -> Outcome<Vec<PathBuf>> {
    let complain = |error| format!("{} cannot be listed: {error}", folder.display());
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).map_err(complain)? {
        let path = entry.map_err(complain)?.path();
        if path.is_dir() {
            files.extend(files_below(&path)?);
        } else {
            files.push(path);
        }
    }
    files.sort();
    Ok(files)
}

/// A path as the repository writes it: relative to the root, with forward slashes everywhere.
#[must_use]
pub fn relative(root: &Path, path: &Path) -> String {
    let inside = path.strip_prefix(root).unwrap_or(path);
    let parts: Vec<_> = inside.iter().map(|part| part.to_string_lossy()).collect();
    parts.join("/")
}
