//! The program `ashlane`: see `ashlane --help`.

use std::process::ExitCode;

fn main() -> ExitCode {
    ashlane::run()
}
