//! The program: arguments in, exit code out.

use std::process::ExitCode;

fn main() -> ExitCode {
    evenhand::cli::run()
}

/// Cases of a log are made in one thread and let go in another, which the system's own does slowly.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;
