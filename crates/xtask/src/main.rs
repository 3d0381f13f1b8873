//! Set-up, build, serve, test, bench and size of the program; nothing that a user of the page runs may be here.

mod base64;
mod bench;
mod build;
mod digest;
mod headers;
mod house;
mod package;
mod release;
mod run;
mod serve;
mod setup;
mod size;
mod stamp;
mod steps;
mod test;
mod wasm;

use std::process::ExitCode;
use steps::Steps;

const HELP: &str = "\
cargo xtask serve [--port N] [--under /some/path/]   build what changed, serve it, print the address
cargo xtask build                                     build target/site/dist
cargo xtask size [--rooms]                            build, then the table of bytes and its limits
cargo xtask test [--deep]                             everything that a commit must pass
cargo xtask browser [PART OF A NAME]...               the tests in the browser alone, all or some files
cargo xtask shots [PART OF A NAME]...                 pictures of every screen, in target/shots
cargo xtask bench                                     how fast the mathematics is
cargo xtask bench engine                              the engine beside other libraries and exact optima, on open data
cargo xtask bench phone                               the finished page on a slow phone and a bad line, beside a bare page
cargo xtask bench fuzz [per cent]                     five million foreign inputs to every reader, searched by coverage
cargo xtask bench soak [minutes]                      random use of all pages, memory, store and findings watched
cargo xtask package                                   the engine for JavaScript as an npm-ready folder, tried and type-checked
cargo xtask release                                   the folder for a site, with one file for a memory stick: target/release-folder
cargo xtask setup                                     install what is missing, and nothing else

serve also takes --dist FOLDER: serve that folder as it is, without building. Port 0 picks a free one.";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let mut steps = Steps::new();
    let outcome = verb(&arguments, &mut steps);
    steps.slowest();
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("\n{error:#}");
            ExitCode::FAILURE
        }
    }
}

fn verb(arguments: &[String], steps: &mut Steps) -> anyhow::Result<()> {
    let (verb, rest) =
        arguments.split_first().map_or(("", [].as_slice()), |(verb, rest)| (verb.as_str(), rest));
    match verb {
        "setup" => setup::everything(steps),
        "build" => build::site(steps),
        "serve" => serve::verb(rest, steps),
        "size" => size::verb(rest, steps),
        "test" => test::verb(rest, steps),
        "browser" => test::browser::verb(rest, steps),
        "shots" => test::browser::shots(rest, steps),
        "package" => package::verb(rest, steps),
        "release" => release::verb(rest, steps),
        "bench" => bench::verb(rest, steps),
        "" | "help" | "--help" => {
            println!("{HELP}");
            Ok(())
        }
        other => anyhow::bail!("There is no verb {other:?}. These are known:\n\n{HELP}"),
    }
}
