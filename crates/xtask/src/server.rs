//! A static file server, as plain as the hosts the page is made for.
//!
//! It serves a folder below any path, answers 404 for what is not there, and can be stopped, which
//! is the one honest way to test that the page works without a network.

use std::collections::HashMap;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::{Ipv4Addr, SocketAddr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread::JoinHandle;
use std::time::Duration;

use crate::workspace::{files_below, read_bytes};
use crate::{Outcome, weight};

/// More than any browser sends before the empty line; the rest of a longer head is not read.
const HEAD_LIMIT_BYTES: u64 = 64 * 1024;
/// Browsers open connections in advance and may never use them.
const PATIENCE: Duration = Duration::from_secs(10);

/// A running server. It stops when it is dropped.
#[derive(Debug)]
pub struct Server {
    address: SocketAddr,
    site: Arc<Site>,
    stopping: Arc<AtomicBool>,
    accepting: Option<JoinHandle<()>>,
}

/// What is served, and where.
#[derive(Debug)]
struct Site {
    folder: PathBuf,
    /// The path below which the folder appears; starts and ends with a slash.
    mount: String,
    /// What is sent instead of a file to whoever can read brotli.
    compressed: HashMap<PathBuf, Vec<u8>>,
    /// Whether files that carry a hash of what they hold may be kept without asking again.
    hashed_stay: bool,
}

impl Server {
    /// Serves `folder` below the path `mount` on this machine; port 0 means any free port.
    pub fn start(folder: &Path, mount: &str, port: u16) -> Outcome<Self> {
        let (folder, mount) = (folder.to_path_buf(), mount.to_owned());
        Self::start_site(Site { folder, mount, compressed: HashMap::new(), hashed_stay: false }, port)
    }

    /// Serves `folder` on any free port as a good host does: compressed, and with files that may be kept.
    ///
    /// What is in the folder later is sent as it is.
    pub fn start_as_host(folder: &Path) -> Outcome<Self> {
        let mut compressed = HashMap::new();
        for file in files_below(folder)? {
            let plain = read_bytes(&file)?;
            compressed.extend(weight::compressed(&plain).map(|bytes| (file, bytes)));
        }
        let (folder, mount) = (folder.to_path_buf(), "/".to_owned());
        Self::start_site(Site { folder, mount, compressed, hashed_stay: true }, 0)
    }

    fn start_site(site: Site, port: u16) -> Outcome<Self> {
        let Site { folder, mount, .. } = &site;
        if !mount.starts_with('/') || !mount.ends_with('/') {
            return Err(format!("the path {mount} must start and end with a slash"));
        }
        if !folder.is_dir() {
            return Err(format!("there is no folder {} to serve", folder.display()));
        }
        let complain = |error| format!("port {port} cannot be served: {error}");
        // Only this machine: the page is not meant to be published from here.
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port)).map_err(complain)?;
        let address = listener.local_addr().map_err(complain)?;
        let site = Arc::new(site);
        let stopping = Arc::new(AtomicBool::new(false));
        let accepting = std::thread::spawn({
            let (site, stopping) = (Arc::clone(&site), Arc::clone(&stopping));
            move || accept(&listener, &site, &stopping)
        });
        Ok(Self { address, site, stopping, accepting: Some(accepting) })
    }

    /// The address of the folder, with a slash at the end.
    #[must_use]
    pub fn url(&self) -> String {
        format!("{}{}", self.origin(), self.site.mount)
    }

    /// The address without a path.
    #[must_use]
    pub fn origin(&self) -> String {
        format!("http://{}", self.address)
    }

    /// Serves until the process ends.
    pub fn wait(mut self) -> Outcome {
        match self.accepting.take().map(JoinHandle::join) {
            Some(Err(_)) => Err("the server stopped unexpectedly".to_owned()),
            Some(Ok(())) | None => Ok(()),
        }
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.stopping.store(true, Ordering::SeqCst);
        // The thread sits in `accept`; a connection of our own wakes it to see the flag.
        let _ = TcpStream::connect(self.address);
        if let Some(accepting) = self.accepting.take() {
            // A panic there has been printed already, and a drop must not add another.
            let _ = accepting.join();
        }
    }
}

fn accept(listener: &TcpListener, site: &Arc<Site>, stopping: &Arc<AtomicBool>) {
    for connection in listener.incoming() {
        if stopping.load(Ordering::SeqCst) {
            return;
        }
        if let Ok(connection) = connection {
            let (site, stopping) = (Arc::clone(site), Arc::clone(stopping));
            // A connection that breaks off concerns the browser that broke it off.
            std::thread::spawn(move || drop(answer(&site, &stopping, connection)));
        }
    }
}

fn answer(site: &Site, stopping: &AtomicBool, mut connection: TcpStream) -> std::io::Result<()> {
    connection.set_read_timeout(Some(PATIENCE))?;
    let mut head = BufReader::new(connection.try_clone()?).take(HEAD_LIMIT_BYTES);
    let mut request = String::new();
    head.read_line(&mut request)?;
    let mut reads_brotli = false;
    let mut line = String::new();
    while head.read_line(&mut line)? > 0 && !line.trim().is_empty() {
        reads_brotli |= accepts_brotli(&line);
        line.clear();
    }
    // A browser may have connected in advance; it must not get an answer from a stopped server.
    if stopping.load(Ordering::SeqCst) {
        return Ok(());
    }
    let response = site.respond(&request, reads_brotli);
    connection.write_all(response.head().as_bytes())?;
    if !request.starts_with("HEAD ") {
        connection.write_all(&response.body)?;
    }
    connection.flush()
}

/// Whether a line of a request's head says that the answer may be compressed with brotli.
fn accepts_brotli(line: &str) -> bool {
    let Some((name, codings)) = line.split_once(':') else { return false };
    name.eq_ignore_ascii_case("accept-encoding") && codings.split(',').any(|coding| coding.trim() == "br")
}

#[derive(Debug)]
struct Response {
    status: &'static str,
    content_type: &'static str,
    /// What a browser may do with its copy, and how the body is written.
    more: &'static [&'static str],
    body: Vec<u8>,
}

/// The browser may keep a file but has to ask whether it is still the same, so that a rebuild is seen.
const ASK_AGAIN: &str = "Cache-Control: no-cache";
/// A name with a hash means one file for ever.
const KEEP: &str = "Cache-Control: public, max-age=31536000, immutable";
const IN_BROTLI: &str = "Content-Encoding: br\r\nVary: Accept-Encoding";

impl Response {
    fn plain(status: &'static str) -> Self {
        let content_type = "text/plain; charset=utf-8";
        Self { status, content_type, more: &[ASK_AGAIN], body: status.into() }
    }

    fn head(&self) -> String {
        format!(
            "HTTP/1.1 {}\r\nContent-Type: {}\r\nContent-Length: {}\r\n{}\r\n\
             X-Content-Type-Options: nosniff\r\nConnection: close\r\n\r\n",
            self.status,
            self.content_type,
            self.body.len(),
            self.more.join("\r\n"),
        )
    }
}

impl Site {
    fn respond(&self, request: &str, reads_brotli: bool) -> Response {
        let mut words = request.split_whitespace();
        match (words.next(), words.next()) {
            (Some("GET" | "HEAD"), Some(target)) => {
                let file = self.locate(target);
                file.and_then(|file| self.send(&file, reads_brotli)).unwrap_or(Response::plain("404 Not Found"))
            }
            (Some(_), Some(_)) => Response::plain("405 Method Not Allowed"),
            _ => Response::plain("400 Bad Request"),
        }
    }

    /// A file as it is sent; `None` if there is none.
    fn send(&self, file: &Path, reads_brotli: bool) -> Option<Response> {
        let stays = self.hashed_stay && has_hash(file);
        let compressed = self.compressed.get(file).filter(|_| reads_brotli);
        let more: &[&str] = match (stays, compressed.is_some()) {
            (false, false) => &[ASK_AGAIN],
            (true, false) => &[KEEP],
            (false, true) => &[ASK_AGAIN, IN_BROTLI],
            (true, true) => &[KEEP, IN_BROTLI],
        };
        let body = compressed.cloned().or_else(|| std::fs::read(file).ok())?;
        Some(Response { status: "200 OK", content_type: content_type(file), more, body })
    }

    /// The file a target means; `None` for one outside the folder. It need not exist.
    fn locate(&self, target: &str) -> Option<PathBuf> {
        let path = target.split(['?', '#']).next()?;
        let inside = decode(path)?.strip_prefix(&self.mount)?.to_owned();
        let inside = match inside.as_str() {
            folder if folder.is_empty() || folder.ends_with('/') => format!("{folder}index.html"),
            file => file.to_owned(),
        };
        let mut file = self.folder.clone();
        for part in inside.split('/') {
            // Backslash and colon have a meaning in paths of Windows only.
            if part.is_empty() || part == "." || part == ".." || part.contains(['\\', ':', '\0']) {
                return None;
            }
            file.push(part);
        }
        Some(file)
    }
}

/// Undoes percent-encoding; `None` if it is not valid.
fn decode(path: &str) -> Option<String> {
    let mut bytes = path.bytes();
    let mut decoded = Vec::new();
    while let Some(byte) = bytes.next() {
        decoded.push(match byte {
            b'%' => {
                let high = char::from(bytes.next()?).to_digit(16)?;
                let low = char::from(bytes.next()?).to_digit(16)?;
                u8::try_from(16 * high + low).ok()?
            }
            other => other,
        });
    }
    String::from_utf8(decoded).ok()
}

/// Whether a name holds sixteen hexadecimal digits after a hyphen, as those do that the build names after their content.
fn has_hash(file: &Path) -> bool {
    let name = file.file_name().unwrap_or_default().to_string_lossy();
    name.split('-').skip(1).any(|part| {
        let digits = part.bytes().take_while(u8::is_ascii_hexdigit).count();
        digits == 16 && !part[digits..].starts_with(|next: char| next.is_alphanumeric())
    })
}

/// Browsers compile wasm while it arrives only if it is called `application/wasm`.
fn content_type(file: &Path) -> &'static str {
    match file.extension().and_then(|extension| extension.to_str()) {
        Some("html") => "text/html; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("wasm") => "application/wasm",
        Some("json") => "application/json",
        Some("webmanifest") => "application/manifest+json",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        Some("ico") => "image/x-icon",
        Some("woff2") => "font/woff2",
        Some("txt" | "md") => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests;
