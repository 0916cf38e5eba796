//! The driver of a browser, started for one test and gone with it.

use std::io::{BufRead, BufReader, Read};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::{Duration, Instant};

use fantoccini::{Client, ClientBuilder};
use xtask::engines::Programs;

use super::{Device, Engine, Outcome, Storage, chromium, firefox, silence, webkit};

/// How often a driver is started before it is given up.
const STARTS: usize = 5;
/// How long a driver may take to listen.
const PATIENCE: Duration = Duration::from_secs(20);

/// How long a process may take to end when it is asked to.
const FAREWELL: Duration = Duration::from_secs(3);

/// A running driver and the profile of the one browser it starts.
#[derive(Debug)]
pub struct Driver {
    engine: Engine,
    process: Child,
    port: u16,
    programs: Programs,
    profile: PathBuf,
    /// The screen of an engine that cannot do without one.
    _screen: Option<Screen>,
}

impl Driver {
    /// Starts the driver on a port of its own, so that tests can run at the same time.
    ///
    /// A free port is found first and then taken, in the drivers as well as here; another process may have come in between.
    /// Then the driver ends, and is started again.
    pub fn start(engine: Engine) -> Outcome<Self> {
        let programs = engine.find()?;
        let mut last = Err("the driver was not started".into());
        for _ in 0..STARTS {
            last = Self::start_once(engine, programs.clone());
            if last.is_ok() {
                break;
            }
        }
        last
    }

    fn start_once(engine: Engine, programs: Programs) -> Outcome<Self> {
        let profile = fresh_profile()?;
        let mut command = Command::new(&programs.driver);
        let mut screen = None;
        let mut chosen = None;
        match engine {
            Engine::Chromium => drop(command.arg("--port=0")),
            Engine::Firefox => drop(command.args(firefox::DRIVER_ARGUMENTS)),
            Engine::WebKit => {
                let started = Screen::start()?;
                let port = free_port()?;
                webkit::furnish(&profile)?;
                command.arg(format!("--port={port}")).env("DISPLAY", &started.name).env_remove("WAYLAND_DISPLAY");
                for home in ["XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME"] {
                    command.env(home, &profile);
                }
                (screen, chosen) = (Some(started), Some(port));
            }
        }
        command.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::null());
        let process = command.spawn().map_err(|error| format!("the driver cannot be started: {error}"))?;
        // From here on dropping the driver ends the process, whatever goes wrong.
        let mut driver = Self { engine, process, port: 0, programs, profile, _screen: screen };
        driver.port = match chosen {
            Some(port) => driver.wait_until_it_listens(port)?,
            None => driver.wait_for_port()?,
        };
        Ok(driver)
    }

    /// The engine whose driver this is.
    pub fn engine(&self) -> Engine {
        self.engine
    }

    /// The folder of everything that this browser keeps.
    pub fn profile(&self) -> &Path {
        &self.profile
    }

    /// The folder into which the browser saves files.
    pub fn downloads(&self) -> PathBuf {
        downloads_in(&self.profile)
    }

    /// Opens a browser that is this device, and lets pages keep something or not.
    pub async fn open_browser(&self, device: &Device, storage: Storage) -> Outcome<Client> {
        let capabilities = match self.engine {
            Engine::Chromium => chromium::capabilities(device, &self.programs.browser, &self.profile, storage),
            Engine::Firefox => firefox::capabilities(device, &self.programs.browser, &self.profile, storage),
            Engine::WebKit => webkit::capabilities(&self.programs.browser),
        };
        Ok(ClientBuilder::new(silence::connector(silence::PATIENCE))
            .capabilities(capabilities)
            .connect(&format!("http://127.0.0.1:{}", self.port))
            .await?)
    }

    /// Reads the port that the driver chose from what it prints.
    fn wait_for_port(&mut self) -> Outcome<u16> {
        let output = self.process.stdout.take().ok_or("the driver has no output")?;
        let ready = if self.engine == Engine::Chromium { chromium::READY } else { firefox::READY };
        let mut lines = BufReader::new(output);
        let mut line = String::new();
        while lines.read_line(&mut line)? > 0 {
            if let Some((_, port)) = line.split_once(ready) {
                let port = port.trim().trim_end_matches('.').parse()?;
                // Read on for ever: a full pipe would stop the driver in the middle of a test.
                std::thread::spawn(move || lines.read_to_end(&mut Vec::new()));
                return Ok(port);
            }
            line.clear();
        }
        Err("the driver ended before it was ready".into())
    }

    /// Waits for a driver that prints nothing.
    fn wait_until_it_listens(&mut self, port: u16) -> Outcome<u16> {
        if let Some(mut output) = self.process.stdout.take() {
            std::thread::spawn(move || output.read_to_end(&mut Vec::new()));
        }
        let start = Instant::now();
        while start.elapsed() < PATIENCE {
            if self.process.try_wait()?.is_some() {
                return Err("the driver ended before it was ready".into());
            }
            if TcpStream::connect((Ipv4Addr::LOCALHOST, port)).is_ok() {
                return Ok(port);
            }
            std::thread::sleep(Duration::from_millis(50));
        }
        Err("the driver does not listen".into())
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        end(&mut self.process);
        // Nothing can be done about a folder that will not go.
        let _ = std::fs::remove_dir_all(&self.profile);
    }
}

/// A screen that nobody sees, for one browser: so no window covers another or takes its keyboard away.
#[derive(Debug)]
struct Screen {
    process: Child,
    /// As programs find it in `DISPLAY`.
    name: String,
}

impl Screen {
    fn start() -> Outcome<Self> {
        let mut process = Command::new("Xvfb")
            .args(["-displayfd", "1", "-screen", "0", "1600x1200x24", "-nolisten", "tcp"])
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(|error| format!("Xvfb cannot be started: {error}"))?;
        let output = process.stdout.take();
        let mut screen = Self { process, name: String::new() };
        // It chooses a number that is free and prints it when it is ready.
        BufReader::new(output.ok_or("Xvfb has no output")?).read_line(&mut screen.name)?;
        let number: u32 = screen.name.trim().parse().map_err(|_| "Xvfb ended before it was ready")?;
        screen.name = format!(":{number}");
        Ok(screen)
    }
}

impl Drop for Screen {
    fn drop(&mut self) {
        end(&mut self.process);
    }
}

/// Ends a process of ours. Nothing can be done about one that will not go.
///
/// It is asked first, where there is a program that asks: geckodriver then takes its browser along, and killed it would leave it.
fn end(process: &mut Child) {
    let was_asked = Command::new("kill").arg(process.id().to_string()).status().is_ok_and(|status| status.success());
    let start = Instant::now();
    while was_asked && start.elapsed() < FAREWELL {
        if matches!(process.try_wait(), Ok(Some(_))) {
            return;
        }
        std::thread::sleep(Duration::from_millis(10));
    }
    let _ = process.kill();
    let _ = process.wait();
}

/// The folder for files below a profile.
pub fn downloads_in(profile: &Path) -> PathBuf {
    profile.join("downloads")
}

fn free_port() -> Outcome<u16> {
    Ok(TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?.local_addr()?.port())
}

/// A folder for the profile that no other test uses, so that nothing is remembered between them.
fn fresh_profile() -> Outcome<PathBuf> {
    static COUNT: AtomicU32 = AtomicU32::new(0);
    let number = COUNT.fetch_add(1, Ordering::Relaxed);
    let profile = std::env::temp_dir().join(format!("holdwater-browser-{}-{number}", std::process::id()));
    std::fs::create_dir_all(downloads_in(&profile))?;
    Ok(profile)
}
