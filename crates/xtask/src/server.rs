//! A static file server, as plain as the hosts the page is made for.
//!
//! It serves a folder below any path, answers 404 for what is not there, and can be stopped, which
//! is the one honest way to test that the page works without a network.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::{Ipv4Addr, SocketAddr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread::JoinHandle;
use std::time::Duration;

use crate::Outcome;

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
}

impl Server {
    /// Serves `folder` below the path `mount` on this machine; port 0 means any free port.
    pub fn start(folder: &Path, mount: &str, port: u16) -> Outcome<Self> {
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
        let site = Arc::new(Site { folder: folder.to_path_buf(), mount: mount.to_owned() });
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
    let mut line = String::new();
    while head.read_line(&mut line)? > 0 && !line.trim().is_empty() {
        line.clear();
    }
    // A browser may have connected in advance; it must not get an answer from a stopped server.
    if stopping.load(Ordering::SeqCst) {
        return Ok(());
    }
    let response = site.respond(&request);
    connection.write_all(response.head().as_bytes())?;
    if !request.starts_with("HEAD ") {
        connection.write_all(&response.body)?;
    }
    connection.flush()
}

#[derive(Debug)]
struct Response {
    status: &'static str,
    content_type: &'static str,
    body: Vec<u8>,
}

impl Response {
    fn plain(status: &'static str) -> Self {
        Self { status, content_type: "text/plain; charset=utf-8", body: status.into() }
    }

    fn head(&self) -> String {
        // `no-cache` lets the browser keep a file but makes it ask, so that a rebuild is seen.
        format!(
            "HTTP/1.1 {}\r\nContent-Type: {}\r\nContent-Length: {}\r\n\
             Cache-Control: no-cache\r\nX-Content-Type-Options: nosniff\r\n\
             Connection: close\r\n\r\n",
            self.status,
            self.content_type,
            self.body.len()
        )
    }
}

impl Site {
    fn respond(&self, request: &str) -> Response {
        let mut words = request.split_whitespace();
        match (words.next(), words.next()) {
            (Some("GET" | "HEAD"), Some(target)) => match self.locate(target) {
                Some(file) => match std::fs::read(&file) {
                    Ok(body) => Response { status: "200 OK", content_type: content_type(&file), body },
                    Err(_) => Response::plain("404 Not Found"),
                },
                None => Response::plain("404 Not Found"),
            },
            (Some(_), Some(_)) => Response::plain("405 Method Not Allowed"),
            _ => Response::plain("400 Bad Request"),
        }
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
