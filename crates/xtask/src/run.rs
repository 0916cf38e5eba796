//! Running other programs: where they are, what they print, and how long they take.

use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Instant;

use crate::Outcome;

/// Cargo as it started us, so that a toolchain chosen with `cargo +name` stays chosen.
#[must_use]
pub fn cargo() -> Command {
    Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()))
}

/// Runs a program whose output the reader is meant to see.
pub fn run(command: &mut Command) -> Outcome {
    let status = command.status().map_err(|error| not_started(command, &error))?;
    if status.success() { Ok(()) } else { Err(format!("`{}` failed ({status})", line(command))) }
}

/// Runs a program and returns what it printed, without the white space around it.
pub fn output(command: &mut Command) -> Outcome<String> {
    let output = command.stderr(Stdio::inherit()).output().map_err(|error| not_started(command, &error))?;
    if output.status.success() {
        Ok(String::from_utf8_lossy(&output.stdout).trim().to_owned())
    } else {
        Err(format!("`{}` failed ({})", line(command), output.status))
    }
}

/// The first line a program prints when it is asked for its version, or nothing.
#[must_use]
pub fn version_of(program: &Path) -> Option<String> {
    let output = Command::new(program).arg("--version").stderr(Stdio::null()).output().ok()?;
    let text = String::from_utf8_lossy(&output.stdout);
    let first = text.lines().next()?.trim();
    (output.status.success() && !first.is_empty()).then(|| first.to_owned())
}

/// Does one named thing, with a line before and a line with the time after it.
pub fn timed<T>(what: &str, work: impl FnOnce() -> Outcome<T>) -> Outcome<T> {
    println!("-- {what} ...");
    let start = Instant::now();
    let outcome = work();
    let seconds = start.elapsed().as_secs_f64();
    let word = if outcome.is_ok() { "done" } else { "failed" };
    println!("-- {what}: {word} after {seconds:.1} s");
    outcome
}

/// Looks a program up in the folders of PATH.
#[must_use]
pub fn find_on_path(name: &str) -> Option<PathBuf> {
    let path = std::env::var_os("PATH")?;
    std::env::split_paths(&path).find_map(|folder| {
        // On Windows npm is a batch file; everywhere else both names are the same.
        ["", ".cmd"]
            .map(|script| format!("{name}{script}"))
            .into_iter()
            .chain([format!("{name}{}", std::env::consts::EXE_SUFFIX)])
            .map(|file| folder.join(file))
            .find(|file| is_program(file))
    })
}

/// PATH with these folders in front, so that our versions win over the system's.
pub fn path_with(folders: &[PathBuf]) -> Outcome<OsString> {
    let old = std::env::var_os("PATH").unwrap_or_default();
    let all = folders.iter().cloned().chain(std::env::split_paths(&old));
    std::env::join_paths(all).map_err(|error| format!("PATH cannot be extended: {error}"))
}

/// A command as a person would type it.
#[must_use]
pub fn line(command: &Command) -> String {
    let words = std::iter::once(command.get_program()).chain(command.get_args());
    let words: Vec<_> = words.map(|word| word.to_string_lossy()).collect();
    words.join(" ")
}

fn not_started(command: &Command, error: &std::io::Error) -> String {
    format!("`{}` cannot be started: {error}", line(command))
}

#[cfg(unix)]
fn is_program(file: &Path) -> bool {
    use std::os::unix::fs::PermissionsExt;
    file.metadata().is_ok_and(|data| data.is_file() && data.permissions().mode() & 0o111 != 0)
}

#[cfg(not(unix))]
fn is_program(file: &Path) -> bool {
    // A bare `npm` beside `npm.cmd` is a shell script, which Windows cannot start.
    file.is_file() && file.extension().is_some()
}
