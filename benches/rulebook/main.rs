//! How checks grow with the length of a rulebook: `cargo bench --bench rulebook`.
//!
//! With `-- --write CLAUSES [--seed N] [--planted N] [--gaps]` it writes a rulebook instead of
//! measuring.

#![allow(
    clippy::print_stdout,
    clippy::print_stderr,
    clippy::disallowed_methods,
    reason = "a program that prints tables"
)]

mod generate;

use generate::{Plan, Silence};

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let number = |name: &str| -> Option<u64> {
        let place = arguments.iter().position(|argument| argument == name)?;
        arguments.get(place + 1)?.parse().ok()
    };
    if let Some(clauses) = number("--write") {
        let planted = number("--planted").unwrap_or(5);
        let book = generate::write(Plan {
            clauses: usize::try_from(clauses).unwrap_or(usize::MAX),
            planted: usize::try_from(planted).unwrap_or(usize::MAX),
            silence: if arguments.iter().any(|argument| argument == "--gaps") {
                Silence::Gap
            } else {
                Silence::Default
            },
            seed: number("--seed").unwrap_or(1),
        });
        print!("{}", book.yaml);
        eprintln!("planted: {:?}", book.planted);
    }
}
