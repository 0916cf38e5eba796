//! `serve`: builds the page and shows it in the browser of this machine.

use std::path::Path;
use std::process::{Command, Stdio};

use crate::server::Server;
use crate::{Outcome, build, run, setup};

const DEFAULT_PORT: u16 = 8080;

/// What the command line of `serve` may say.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Options {
    /// Build quickly instead of small, and again after every change.
    pub dev: bool,
    /// The port, if it must be this one.
    pub port: Option<u16>,
    /// Print the address and leave it at that.
    pub no_open: bool,
}

impl Options {
    /// Reads the arguments after `serve`.
    pub fn parse(arguments: &[String]) -> Outcome<Self> {
        let mut options = Self::default();
        let mut arguments = arguments.iter();
        while let Some(argument) = arguments.next() {
            match argument.as_str() {
                "--dev" => options.dev = true,
                "--no-open" => options.no_open = true,
                "--port" => {
                    let port = arguments.next().and_then(|text| text.parse().ok());
                    options.port = Some(port.ok_or("--port needs a number from 0 to 65535")?);
                }
                other => return Err(format!("serve does not know `{other}`")),
            }
        }
        Ok(options)
    }
}

/// Builds, serves and opens the page; returns only if something fails.
///
/// The server is ours and not trunk's: it answers 404 for a missing file and adds no script to the
/// page, so what is seen here is what a static host will show.
pub fn serve(root: &Path, options: &Options) -> Outcome {
    let tools = setup::for_building(root)?;
    let mut rebuilding = None;
    if options.dev {
        run::run(build::trunk(root, &tools)?.arg("build"))?;
        let watch = build::trunk(root, &tools)?.arg("watch").spawn();
        rebuilding = Some(watch.map_err(|error| format!("trunk cannot be started: {error}"))?);
    } else {
        build::release(root, &tools)?;
    }
    let dist = root.join("dist");
    let server = match options.port {
        Some(port) => Server::start(&dist, "/", port)?,
        // Somebody else's program on the usual port is no reason to fail.
        None => Server::start(&dist, "/", DEFAULT_PORT).or_else(|_| Server::start(&dist, "/", 0))?,
    };
    println!("\nThe page is at {}", server.url());
    println!("Press Ctrl-C to stop.");
    if !options.no_open {
        open(&server.url());
    }
    match rebuilding {
        Some(mut watch) => {
            let end = watch.wait().map_err(|error| error.to_string())?;
            Err(format!("trunk stopped watching ({end})"))
        }
        None => server.wait(),
    }
}

/// Opens an address in a browser, if there is a desktop; the address was printed in any case.
fn open(url: &str) {
    let has_desktop = ["DISPLAY", "WAYLAND_DISPLAY"].iter().any(|n| std::env::var_os(n).is_some());
    let mut command = match std::env::consts::OS {
        "macos" => Command::new("open"),
        "windows" => {
            let mut command = Command::new("cmd");
            // The first quoted argument of `start` is a window title.
            command.args(["/C", "start", ""]);
            command
        }
        _ if has_desktop => Command::new("xdg-open"),
        _ => return,
    };
    // The browser's own messages would bury the address, and its failure is not ours.
    let _ = command.arg(url).stdout(Stdio::null()).stderr(Stdio::null()).spawn();
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parse(line: &str) -> Outcome<Options> {
        Options::parse(&line.split_whitespace().map(str::to_owned).collect::<Vec<_>>())
    }

    #[test]
    fn options_are_read_or_refused() {
        let expected = Options { dev: true, port: Some(9000), no_open: false };
        assert_eq!(parse("--dev --port 9000"), Ok(expected));
        assert_eq!(parse(""), Ok(Options::default()));
        assert!(parse("--port").is_err());
        assert!(parse("--port http").is_err());
        assert!(parse("--fast").is_err());
    }
}
