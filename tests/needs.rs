//! What a first build needs, on machines that lack it: `.ci/needs` among programs that only write
//! down how they were called.
#![cfg(unix)]
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    missing_docs,
    reason = "a test makes files and runs programs"
)]

use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::Path;
use std::process::Command;

/// A machine: which programs it has, and who is at work.
struct Machine {
    programs: &'static [&'static str],
    user: &'static str,
}

/// Programs that are there, but not in order.
const VARIANTS: [&str; 5] = ["-without-z3", "-too-old", "-broken", "-offline", "-stale"];

/// What a run of `.ci/needs` comes to.
struct Run {
    /// Whether it says that the build can begin.
    ready: bool,
    /// How the programs were called that change the machine.
    calls: Vec<String>,
    /// What it says on standard error.
    complaint: String,
}

fn program(folder: &Path, name: &str, body: &str) {
    let path = folder.join(name);
    fs::write(&path, format!("#!/bin/sh\n{body}\n")).unwrap();
    fs::set_permissions(&path, fs::Permissions::from_mode(0o755)).unwrap();
}

fn run(name: &str, machine: &Machine) -> Run {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("needs-{name}"));
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).unwrap();
    let log = folder.join("calls");
    fs::write(&log, "").unwrap();
    let log = log.display().to_string();
    program(&folder, "id", &format!("echo {}", machine.user));
    // What `sudo` runs does not see the variables of whoever calls it.
    let bodies = [
        (
            "cargo",
            "echo cargo 1.95.0 '(f2d3ce0bd 2026-03-21)'".to_owned(),
        ),
        ("cargo-too-old", "echo cargo 1.65.0".to_owned()),
        ("cargo-broken", "echo no default >&2; exit 1".to_owned()),
        ("cc", String::new()),
        ("env", "exec /usr/bin/env \"$@\"".to_owned()),
        ("pkg-config", "exit 0".to_owned()),
        ("pkg-config-without-z3", "exit 1".to_owned()),
        (
            "sudo",
            format!("echo sudo \"$@\" >> {log}; exec /usr/bin/env -i PATH=\"$PATH\" \"$@\""),
        ),
        (
            "apt-get",
            format!("echo apt-get \"$@\" [$DEBIAN_FRONTEND] >> {log}"),
        ),
        // Without a network the lists can't be fetched, and packages are unknown.
        (
            "apt-get-offline",
            "echo E: cannot $1 >&2; exit 100".to_owned(),
        ),
        // A list among others that can't be fetched.
        (
            "apt-get-stale",
            format!("echo apt-get \"$@\" >> {log}; test $1 = install"),
        ),
    ];
    for (which, body) in bodies {
        if machine.programs.contains(&which) || which == "env" {
            let name = VARIANTS
                .iter()
                .fold(which, |name, variant| name.trim_end_matches(variant));
            program(&folder, name, &body);
        }
    }
    let output = Command::new("/bin/sh")
        .arg(Path::new(env!("CARGO_MANIFEST_DIR")).join(".ci/needs"))
        .env_clear()
        .env("PATH", &folder)
        .output()
        .unwrap();
    let calls = fs::read_to_string(folder.join("calls")).unwrap();
    Run {
        ready: output.status.success(),
        calls: calls.lines().map(str::to_owned).collect(),
        complaint: String::from_utf8(output.stderr).unwrap(),
    }
}

#[test]
fn root_installs_the_solver() {
    let machine = Machine {
        programs: &["cargo", "cc", "apt-get"],
        user: "0",
    };
    let run = run("root", &machine);
    assert!(run.ready, "{}", run.complaint);
    let install = "apt-get install -y -qq libz3-dev pkg-config [noninteractive]";
    assert_eq!(run.calls, ["apt-get update -qq []", install]);
}

#[test]
fn others_install_it_through_sudo() {
    let machine = Machine {
        programs: &["cargo", "cc", "apt-get", "sudo", "pkg-config-without-z3"],
        user: "1000",
    };
    let run = run("sudo", &machine);
    assert!(run.ready, "{}", run.complaint);
    let (asked, done) = run.calls.split_first().unwrap();
    assert!(asked.starts_with("sudo /bin/sh -c"), "{asked}");
    // The log takes the lines of what `sudo` is asked one by one.
    let install = "apt-get install -y -qq libz3-dev pkg-config [noninteractive]";
    assert_eq!(done[done.len() - 2..], ["apt-get update -qq []", install]);
}

#[test]
fn elsewhere_it_says_what_to_type() {
    let nobody = Machine {
        programs: &["cargo", "cc", "apt-get"],
        user: "1000",
    };
    let other = Machine {
        programs: &["cargo", "cc", "sudo"],
        user: "1000",
    };
    for (name, machine) in [("nobody", nobody), ("other", other)] {
        let run = run(name, &machine);
        assert!(!run.ready);
        assert_eq!(run.calls, Vec::<String>::new());
        for line in [
            "apt-get install libz3-dev",
            "dnf install z3-devel",
            "pacman -S z3",
            "brew install z3",
            "z3-from-source",
        ] {
            assert!(run.complaint.contains(line), "{line}: {}", run.complaint);
        }
    }
}

#[test]
fn nothing_is_touched_where_nothing_is_missing() {
    let machine = Machine {
        programs: &["cargo", "cc", "apt-get", "sudo", "pkg-config"],
        user: "1000",
    };
    let run = run("ready", &machine);
    assert!(run.ready && run.complaint.is_empty(), "{}", run.complaint);
    assert_eq!(run.calls, Vec::<String>::new());
}

#[test]
fn without_rust_it_says_where_rust_is() {
    let machine = Machine {
        programs: &["apt-get", "sudo"],
        user: "0",
    };
    let run = run("rust", &machine);
    assert!(!run.ready);
    assert!(
        run.complaint.contains("Rust is missing"),
        "{}",
        run.complaint
    );
    assert_eq!(run.calls, Vec::<String>::new());
}

#[test]
fn a_linker_is_installed_where_there_is_none() {
    let machine = Machine {
        programs: &["cargo", "apt-get", "pkg-config"],
        user: "0",
    };
    let run = run("linker", &machine);
    assert!(run.ready, "{}", run.complaint);
    let install = "apt-get install -y -qq gcc libc6-dev [noninteractive]";
    assert_eq!(run.calls, ["apt-get update -qq []", install]);
}

#[test]
fn a_rust_that_is_too_old_is_told() {
    let machine = Machine {
        programs: &["cargo-too-old", "cc", "apt-get"],
        user: "0",
    };
    let run = run("old", &machine);
    assert!(!run.ready);
    let told = format!(
        "Rust 1.65.0 is too old: {} or later is needed",
        env!("CARGO_PKG_RUST_VERSION")
    );
    assert!(run.complaint.contains(&told), "{}", run.complaint);
    assert_eq!(run.calls, Vec::<String>::new());
}

#[test]
fn a_rust_that_cannot_be_called_is_told() {
    let machine = Machine {
        programs: &["cargo-broken", "cc", "apt-get"],
        user: "0",
    };
    let run = run("broken", &machine);
    assert!(!run.ready);
    assert!(
        run.complaint.contains("can't be called"),
        "{}",
        run.complaint
    );
}

#[test]
fn without_a_network_it_says_what_to_type() {
    let machine = Machine {
        programs: &["cargo", "cc", "apt-get-offline"],
        user: "0",
    };
    let run = run("offline", &machine);
    assert!(!run.ready);
    for told in [
        "cannot install",
        "is there a network",
        "sudo apt-get install libz3-dev pkg-config",
    ] {
        assert!(run.complaint.contains(told), "{told}: {}", run.complaint);
    }
}

#[test]
fn a_list_that_cannot_be_fetched_does_not_stop_it() {
    let machine = Machine {
        programs: &["cargo", "cc", "apt-get-stale"],
        user: "0",
    };
    let run = run("stale", &machine);
    assert!(run.ready, "{}", run.complaint);
    let install = "apt-get install -y -qq libz3-dev pkg-config";
    assert_eq!(run.calls, ["apt-get update -qq", install]);
}
