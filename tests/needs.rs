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
        ("cargo", String::new()),
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
    ];
    for (which, body) in bodies {
        if machine.programs.contains(&which) || which == "env" {
            program(&folder, which.trim_end_matches("-without-z3"), &body);
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
        programs: &["cargo", "apt-get"],
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
        programs: &["cargo", "apt-get", "sudo", "pkg-config-without-z3"],
        user: "1000",
    };
    let run = run("sudo", &machine);
    assert!(run.ready, "{}", run.complaint);
    let install = "apt-get install -y -qq libz3-dev pkg-config";
    let expected = [
        "sudo apt-get update -qq".to_owned(),
        "apt-get update -qq []".to_owned(),
        format!("sudo env DEBIAN_FRONTEND=noninteractive {install}"),
        format!("{install} [noninteractive]"),
    ];
    assert_eq!(run.calls, expected);
}

#[test]
fn elsewhere_it_says_what_to_type() {
    let nobody = Machine {
        programs: &["cargo", "apt-get"],
        user: "1000",
    };
    let other = Machine {
        programs: &["cargo", "sudo"],
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
        programs: &["cargo", "apt-get", "sudo", "pkg-config"],
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
