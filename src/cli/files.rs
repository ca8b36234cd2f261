//! Files and streams, in and out.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "the command line is where files are read and written"
)]

use super::Failure;
use crate::read::LARGEST_FILE;
use std::fs::{self, File, OpenOptions};
use std::io::{self, ErrorKind, Read, Write};
use std::path::Path;

/// What a file is called in places and reports.
pub(super) fn name(path: &Path) -> String {
    if is_standard(path) {
        "standard input".to_owned()
    } else {
        path.to_string_lossy().into_owned()
    }
}

fn is_standard(path: &Path) -> bool {
    path.as_os_str() == "-"
}

/// The bytes of a file, or of standard input for `-`; never many more than can be used.
///
/// # Errors
/// Says in words why the file can't be read.
pub(super) fn read(path: &Path) -> Result<Vec<u8>, Failure> {
    let mut bytes = Vec::new();
    let limit = LARGEST_FILE as u64 + 1;
    let read = if is_standard(path) {
        io::stdin().lock().take(limit).read_to_end(&mut bytes)
    } else {
        File::open(path).and_then(|file| file.take(limit).read_to_end(&mut bytes))
    };
    match read {
        Ok(_) => Ok(bytes),
        Err(error) => Err(Failure(format!(
            "{} can't be read: {}",
            name(path),
            why(&error)
        ))),
    }
}

/// A file, to be read from its start.
///
/// # Errors
/// Says in words why the file can't be read.
pub(super) fn open(path: &Path) -> Result<Box<dyn Read>, Failure> {
    if is_standard(path) {
        return Ok(Box::new(io::stdin().lock()));
    }
    let opened = File::open(path);
    let file = opened
        .map_err(|error| Failure(format!("{} can't be read: {}", name(path), why(&error))))?;
    Ok(Box::new(file))
}

/// Whether bytes hold more control characters than a text of any encoding, but for one with a
/// byte order mark.
pub(super) fn is_binary(bytes: &[u8]) -> bool {
    const LOOKED_AT: usize = 4096;
    let start = bytes.get(..LOOKED_AT).unwrap_or(bytes);
    let is_control = |byte: &&u8| matches!(byte, 0..=8 | 14..=31);
    let controls = start.iter().filter(is_control).count();
    controls > 1 && controls * 20 > start.len()
}

/// Prints a report, or writes it to the file named by `--output`, which may be none of those that the
/// report is made from.
///
/// # Errors
/// Says in words why it can't be written. A pipe that somebody closed is no error.
pub(super) fn deliver(
    report: &str,
    output: Option<&Path>,
    inputs: &[&Path],
) -> Result<(), Failure> {
    let Some(path) = output else {
        return print(report);
    };
    let same = fs::canonicalize(path).ok();
    let is_same = |input: &&Path| same.is_some() && same == fs::canonicalize(input).ok();
    if inputs.iter().any(is_same) {
        let path = path.display();
        return Err(Failure(format!(
            "the report was not written: {path} is one of the files that it is made from; choose another name"
        )));
    }
    fs::write(path, report).map_err(|error| not_written(path, &error))
}

/// Prints to standard output.
///
/// # Errors
/// Says in words why it can't. A pipe that somebody closed is no error.
pub(super) fn print(text: &str) -> Result<(), Failure> {
    let mut out = io::stdout().lock();
    let written = out.write_all(text.as_bytes()).and_then(|()| out.flush());
    match written {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => Err(Failure(format!(
            "the report can't be printed: {}",
            why(&error)
        ))),
        _ => Ok(()),
    }
}

/// Writes a file that must not be there yet.
///
/// # Errors
/// Says in words why it can't be written.
pub(super) fn create(path: &Path, text: &str) -> Result<(), Failure> {
    create_bytes(path, text.as_bytes())
}

/// The same of bytes that are no text.
///
/// # Errors
/// Says in words why it can't be written.
pub(super) fn create_bytes(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    let shown = path.display();
    let mut file = match OpenOptions::new().write(true).create_new(true).open(path) {
        Ok(file) => file,
        Err(error) if error.kind() == ErrorKind::AlreadyExists => {
            return Err(Failure(format!(
                "{shown} is there already and was left as it is; choose another name"
            )));
        }
        Err(error) => return Err(not_written(path, &error)),
    };
    file.write_all(bytes)
        .map_err(|error| not_written(path, &error))
}

fn not_written(path: &Path, error: &io::Error) -> Failure {
    let shown = path.display();
    // An empty parent is the folder that one is in.
    let missing = path
        .parent()
        .filter(|folder| !folder.as_os_str().is_empty() && !folder.exists());
    match missing {
        Some(folder) => {
            let folder = folder.display();
            Failure(format!(
                "{shown} can't be written: there is no folder {folder}; make it first"
            ))
        }
        None => Failure(format!("{shown} can't be written: {}", why(error))),
    }
}

/// What went wrong, in words of our own where there are some.
pub(super) fn why(error: &io::Error) -> String {
    match error.kind() {
        ErrorKind::NotFound => "there is no such file or folder".to_owned(),
        ErrorKind::PermissionDenied => "you have no permission".to_owned(),
        ErrorKind::IsADirectory => "it is a folder".to_owned(),
        ErrorKind::StorageFull => "the disk is full".to_owned(),
        _ => error.to_string(),
    }
}
