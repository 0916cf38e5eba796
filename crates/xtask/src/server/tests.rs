//! The server answered as a browser would ask it, over a real connection.

use super::*;

fn site_with_page(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("holdwater-{name}-{}", std::process::id()));
    std::fs::create_dir_all(folder.join("deep")).unwrap();
    std::fs::write(folder.join("index.html"), "<p>home").unwrap();
    std::fs::write(folder.join("deep/index.html"), "<p>deep").unwrap();
    std::fs::write(folder.join("a b.wasm"), "wasm").unwrap();
    folder
}

fn ask(server: &Server, request: &str) -> String {
    ask_with(server, request, "Host: here")
}

fn ask_with(server: &Server, request: &str, header: &str) -> String {
    let mut connection = TcpStream::connect(server.address).unwrap();
    connection.write_all(format!("{request} HTTP/1.1\r\n{header}\r\n\r\n").as_bytes()).unwrap();
    let mut answer = Vec::new();
    connection.read_to_end(&mut answer).unwrap();
    String::from_utf8_lossy(&answer).into_owned()
}

#[test]
fn files_appear_below_the_mount_and_nowhere_else() {
    let folder = site_with_page("mount");
    let server = Server::start(&folder, "/some/where/", 0).unwrap();
    let home = ask(&server, "GET /some/where/?x=1");
    assert!(home.starts_with("HTTP/1.1 200 OK\r\n"), "{home}");
    assert!(home.contains("Content-Type: text/html"), "{home}");
    assert!(home.ends_with("<p>home"), "{home}");
    assert!(ask(&server, "GET /some/where/deep/").ends_with("<p>deep"));
    assert!(ask(&server, "GET /").starts_with("HTTP/1.1 404"));
    assert!(ask(&server, "GET /some/where/missing.js").starts_with("HTTP/1.1 404"));
    assert!(ask(&server, "POST /some/where/").starts_with("HTTP/1.1 405"));
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn wasm_has_its_own_type_and_head_has_no_body() {
    let folder = site_with_page("types");
    let server = Server::start(&folder, "/", 0).unwrap();
    let wasm = ask(&server, "HEAD /a%20b.wasm");
    assert!(wasm.contains("Content-Type: application/wasm\r\nContent-Length: 4\r\n"), "{wasm}");
    assert!(wasm.ends_with("\r\n\r\n"), "{wasm}");
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn no_target_leaves_the_folder() {
    let (folder, mount) = (PathBuf::from("site"), "/".to_owned());
    let site = Site { folder, mount, compressed: HashMap::new(), hashed_stay: false };
    assert_eq!(site.locate("/page.js?v=1"), Some(PathBuf::from("site/page.js")));
    for target in ["/../secret", "/%2e%2e/secret", "/a/..%2fsecret", "//etc/passwd", "/c:/x", "/%5c", "/%zz"] {
        assert_eq!(site.locate(target), None, "{target}");
    }
}

#[test]
fn a_dropped_server_answers_no_more() {
    let folder = site_with_page("stop");
    let server = Server::start(&folder, "/", 0).unwrap();
    let address = server.address;
    let mut opened_before = TcpStream::connect(address).unwrap();
    // An answer to a later connection shows that the earlier one has been accepted.
    assert!(ask(&server, "GET /").contains("200 OK"));
    drop(server);
    assert!(TcpStream::connect(address).is_err());
    opened_before.write_all(b"GET / HTTP/1.1\r\n\r\n").unwrap();
    let mut answer = String::new();
    opened_before.read_to_string(&mut answer).unwrap();
    assert_eq!(answer, "");
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn a_folder_that_is_not_there_is_refused() {
    let missing = std::env::temp_dir().join("holdwater-no-such-folder");
    assert!(Server::start(&missing, "/", 0).unwrap_err().contains("no folder"));
}

#[test]
fn a_good_host_compresses_for_those_who_can_read_it_and_lets_hashed_files_stay() {
    let folder = site_with_page("host");
    std::fs::write(folder.join("app-0123456789abcdef_bg.wasm"), "water ".repeat(100)).unwrap();
    let server = Server::start_as_host(&folder).unwrap();
    let hashed = "HEAD /app-0123456789abcdef_bg.wasm";
    let compressed = ask_with(&server, hashed, "Accept-Encoding: gzip, br");
    assert!(compressed.contains("Content-Encoding: br\r\n") && compressed.contains("immutable"), "{compressed}");
    let plain = ask(&server, hashed);
    assert!(plain.contains("Content-Length: 600\r\n") && !plain.contains("Content-Encoding"), "{plain}");
    // A page of eight letters grows when it is compressed, and its name stays when it changes.
    let page = ask_with(&server, "GET /", "accept-encoding: br");
    assert!(page.contains("Cache-Control: no-cache\r\n") && page.ends_with("<p>home"), "{page}");
    assert!(!has_hash(Path::new("app-0123456789abcdef0.js")) && !has_hash(Path::new("0123456789abcdef.js")));
    std::fs::remove_dir_all(folder).unwrap();
}
