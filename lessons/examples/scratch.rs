//! Scratch.
fn main() {
    if let ashlane_lessons::command_line::Outcome::Done(code) =
        ashlane_lessons::command_line::run_here()
    {
        std::process::exit(i32::from(code))
    }
}
