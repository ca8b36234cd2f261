//! The folder of a record, in and out.
#![allow(
    clippy::disallowed_methods,
    reason = "the command line is where files are read and written"
)]

use super::Failure;
use super::files::why;
use crate::proof::{Files, MANIFEST, SUMS};
use std::fs;
use std::path::Path;

/// The most bytes of a record that are read.
const LARGEST: u64 = 1 << 30;

/// Whether a record may be written into a folder: it is not there, or empty, or holds a record.
///
/// # Errors
/// Says that something else is in it.
pub(super) fn may_be_written(folder: &Path) -> Result<(), Failure> {
    let shown = folder.display();
    match fs::read_dir(folder) {
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => Ok(()),
        Err(error) => Err(Failure(format!("{shown} can't be used: {}", why(&error)))),
        Ok(mut entries) => {
            let empty = entries.next().is_none();
            if empty || folder.join(MANIFEST).exists() {
                Ok(())
            } else {
                Err(Failure(format!(
                    "{shown} holds something else than a record and was left as it is; choose another folder with --output"
                )))
            }
        }
    }
}

/// Writes a record. What an earlier one left in the folder is taken away first.
///
/// # Errors
/// Says which file can't be written.
pub(super) fn write(folder: &Path, record: &Files) -> Result<(), Failure> {
    let failed = |path: &Path, error: &std::io::Error| {
        Failure(format!(
            "{} can't be written: {}",
            path.display(),
            why(error)
        ))
    };
    fs::create_dir_all(folder).map_err(|error| failed(folder, &error))?;
    let earlier = fs::read_to_string(folder.join(SUMS)).unwrap_or_default();
    let names = earlier.lines().filter_map(|line| line.split_once("  "));
    for (_, name) in names.filter(|(_, name)| is_plain(name) && !record.contains_key(*name)) {
        let path = folder.join(name);
        if path.is_file() {
            fs::remove_file(&path).map_err(|error| failed(&path, &error))?;
        }
    }
    for (name, text) in record {
        let path = folder.join(name);
        fs::write(&path, text).map_err(|error| failed(&path, &error))?;
    }
    Ok(())
}

/// Whether a name is that of a file in the folder itself.
fn is_plain(name: &str) -> bool {
    !name.is_empty() && !name.starts_with('.') && !name.contains(['/', '\\'])
}

/// Reads a record. Bytes that are no text come out as other text, which no fingerprint fits.
///
/// # Errors
/// Says what can't be read.
pub(super) fn read(folder: &Path) -> Result<Files, Failure> {
    let failed = |path: &Path, error: &std::io::Error| {
        Failure(format!("{} can't be read: {}", path.display(), why(error)))
    };
    let mut files = Files::new();
    let mut size = 0u64;
    let entries = fs::read_dir(folder).map_err(|error| failed(folder, &error))?;
    for entry in entries {
        let path = entry.map_err(|error| failed(folder, &error))?.path();
        let about = fs::metadata(&path).map_err(|error| failed(&path, &error))?;
        let name = path
            .file_name()
            .map(|name| name.to_string_lossy().into_owned());
        let Some(name) = name.filter(|_| about.is_file()) else {
            continue;
        };
        size = size.saturating_add(about.len());
        if size > LARGEST {
            return Err(Failure(format!(
                "{} is too large for a record",
                folder.display()
            )));
        }
        let bytes = fs::read(&path).map_err(|error| failed(&path, &error))?;
        files.insert(name, String::from_utf8_lossy(&bytes).into_owned());
    }
    Ok(files)
}
