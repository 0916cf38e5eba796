//! `cargo xtask COMMAND`: reads the command line and hands over to the module of that name.

use std::process::ExitCode;

use xtask::{Outcome, bench, build, doctor, evaluate, finish_dist, fuzz, lighthouse, serve, test, tidy, workspace};

const USAGE: &str = "\
cargo xtask COMMAND

  serve [--dev] [--port N] [--no-open]
                    build the page and show it in the browser;
                    --dev builds without optimising and again after every change
  build             build the page into dist/ and check its weight
  test [STEP...]    run every check, or only the named ones
  evaluate LINK     print the answers for a link or fragment as one line of JSON
  fuzz [CASES]      feed a million random inputs to everything that reads them
  lighthouse        let Lighthouse judge the page in dist/, which is built if there is none
  bench             run the benchmarks and write tests/bench/record.md
  doctor            say what is installed, what is missing and how to get it
  tidy              check the rules of the house that no compiler knows

finish-dist is called by trunk at the end of every build.";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    match dispatch(&arguments) {
        Ok(code) => code,
        Err(message) => {
            eprintln!("error: {message}");
            ExitCode::FAILURE
        }
    }
}

fn dispatch(arguments: &[String]) -> Outcome<ExitCode> {
    let (command, rest) = match arguments.split_first() {
        Some((command, rest)) => (command.as_str(), rest),
        None => ("help", arguments),
    };
    let done = |()| ExitCode::SUCCESS;
    match command {
        "serve" => serve::serve(&workspace::root()?, &serve::Options::parse(rest)?).map(done),
        "build" => expect_none(rest).and_then(|()| build::build(&workspace::root()?)).map(done),
        "test" => test::test(&workspace::root()?, rest),
        "evaluate" => evaluate::evaluate(rest),
        "bench" => expect_none(rest).and_then(|()| bench::bench(&workspace::root()?)).map(done),
        "lighthouse" => expect_none(rest).and_then(|()| lighthouse::lighthouse(&workspace::root()?)).map(done),
        "fuzz" => fuzz::fuzz(&workspace::root()?, rest).map(done),
        "doctor" => expect_none(rest).and_then(|()| doctor::doctor(&workspace::root()?)),
        "tidy" => expect_none(rest).and_then(|()| tidy::tidy(&workspace::root()?)).map(done),
        "finish-dist" => expect_none(rest).and_then(|()| finish_dist::finish_dist()).map(done),
        "help" | "--help" | "-h" => {
            println!("{USAGE}");
            Ok(ExitCode::SUCCESS)
        }
        other => Err(format!("there is no command `{other}`\n\n{USAGE}")),
    }
}

/// A command that takes no arguments says so instead of ignoring them.
fn expect_none(rest: &[String]) -> Outcome {
    match rest.first() {
        None => Ok(()),
        Some(unexpected) => Err(format!("`{unexpected}` is not expected here\n\n{USAGE}")),
    }
}
