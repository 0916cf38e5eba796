//! `evaluate`: the answers of the page without a page.

use std::process::ExitCode;

use crate::Outcome;

/// The exit code for a link that cannot be answered, as opposed to a command that went wrong.
const BAD_LINK: u8 = 2;

/// Prints the answers for the one link or fragment as a line of JSON, or a line per complaint.
pub fn evaluate(arguments: &[String]) -> Outcome<ExitCode> {
    let [link] = arguments else {
        return Err("evaluate needs exactly one link or fragment, in quotes".to_owned());
    };
    match holdwater_answers::evaluate_json(link) {
        Ok(json) => {
            println!("{json}");
            Ok(ExitCode::SUCCESS)
        }
        Err(complaints) => {
            for complaint in complaints {
                eprintln!("{complaint}");
            }
            Ok(ExitCode::from(BAD_LINK))
        }
    }
}
