//! `finish-dist`: what trunk leaves to us at the end of a build, before `dist/` is replaced.
//!
//! It makes the wasm program smaller, writes `boot.js`, the script that starts it, `searcher.js`, that of its second copy, and `sw.js`, the worker that keeps the page for days without signal.
//! The scripts are files of their own because the page forbids inline scripts.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::cache::Cache;
use crate::glue::Names;
use crate::tools;
use crate::workspace::{read, read_bytes, write};
use crate::{Outcome, glue, order, places, run, slim, strip_names};

/// The program of the page; trunk names its files after it.
const PROGRAM: &str = "holdwater-app";

/// The script that starts the page, or shows the notice of `index.html` when it does not start.
const BOOT_TEMPLATE: &str = include_str!("boot.js");

/// The script of the program's second copy, which flies sweeps and searches.
const SEARCHER_TEMPLATE: &str = include_str!("searcher.js");

/// The worker that keeps the page on the device.
const WORKER_TEMPLATE: &str = include_str!("sw.js");

/// Who develops wants to see what was changed a moment ago: the worker of a release served from the same address goes.
const NO_WORKER: &str =
    "self.addEventListener('install', () => self.skipWaiting());\nself.registration.unregister();\n";

/// Finishes the build in the folder that trunk names in the environment.
pub fn finish_dist() -> Outcome {
    let Some(staging) = std::env::var_os("TRUNK_STAGING_DIR").map(PathBuf::from) else {
        return Err("finish-dist is called by trunk, which says where its files are".to_owned());
    };
    let names = file_names(&staging)?;
    let is_release = std::env::var("TRUNK_PROFILE").as_deref() == Ok("release");
    // A build for development is not made smaller: that would take longer than compiling it.
    if is_release {
        join_styles(&staging)?;
        shrink(&staging.join(the_one(&names, "_bg.wasm")?), &staging.join(the_one(&names, ".js")?))?;
    }
    for (name, template) in [("boot.js", BOOT_TEMPLATE), ("searcher.js", SEARCHER_TEMPLATE)] {
        let script = with_names(template, &names)?;
        let script = if is_release { glue::without_comments(&script) } else { script };
        write(&staging.join(name), script.as_bytes())?;
    }
    let worker = if is_release { glue::without_comments(&worker_script(&staging)?) } else { NO_WORKER.to_owned() };
    write(&staging.join("sw.js"), worker.as_bytes())
}

/// Puts all styles into one file, in the order of the page, so that a first visit asks for one: browsers ask a plain host for six files at a time.
fn join_styles(staging: &Path) -> Outcome {
    const START: &str = "<link rel=\"stylesheet\" href=\"./";
    const END: &str = "\"/>";
    let page = staging.join("index.html");
    let text = read(&page)?;
    let mut pieces = text.split(START);
    let mut joined = pieces.next().unwrap_or_default().to_owned();
    let (mut styles, mut sum, mut after) = (String::new(), Fingerprint::new(), String::new());
    for piece in pieces {
        let (name, rest) = piece.split_once(END).ok_or("a link to a style sheet does not end as trunk ends it")?;
        let file = staging.join(name);
        styles.push_str(&read(&file)?);
        fs::remove_file(&file).map_err(|error| format!("{} cannot be removed: {error}", file.display()))?;
        after.push_str(rest);
    }
    if styles.is_empty() {
        return Err("index.html has no link to a style sheet as trunk writes them".to_owned());
    }
    sum.add(styles.as_bytes());
    let name = format!("style-{}.css", sum.text());
    write(&staging.join(&name), styles.as_bytes())?;
    joined.extend([START, &name, END, &after]);
    write(&page, joined.as_bytes())
}

/// The worker with the files of this build and a name for it, made from all that they hold.
fn worker_script(staging: &Path) -> Outcome<String> {
    // The page itself is asked for by its folder.
    let mut files = vec!["./".to_owned()];
    let mut sum = Fingerprint::new();
    sum.add(&read_bytes(&staging.join("index.html"))?);
    for name in file_names(staging)?.iter().filter(|name| !["sw.js", "index.html"].contains(&name.as_str())) {
        let path = staging.join(name);
        if path.is_file() {
            sum.add(name.as_bytes());
            sum.add(&read_bytes(&path)?);
            files.push(format!("./{name}"));
        }
    }
    let list = format!("[{}]", files.iter().map(|file| format!("'{file}'")).collect::<Vec<_>>().join(", "));
    Ok(WORKER_TEMPLATE.replace("FILE_LIST", &list).replace("BUILD_ID", &sum.text()))
}

/// A number that changes with every byte of a build (FNV-1a, 64 bits); it names, it protects nothing.
struct Fingerprint(u64);

impl Fingerprint {
    const fn new() -> Self {
        Self(0xcbf2_9ce4_8422_2325)
    }

    fn add(&mut self, bytes: &[u8]) {
        for byte in bytes {
            self.0 = (self.0 ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3);
        }
    }

    fn text(&self) -> String {
        format!("{:016x}", self.0)
    }
}

/// Crates that offer classes to JavaScript which nobody calls, and what only those classes need.
const UNUSED_CODE: [&str; 2] = ["wasm_streams", "future_to_promise"];

/// Functions that never return: they say what a panic was. Without a body they stop the program where it stands, as a panic does, and `boot.js`
/// gives the notice. Functions that return do not belong here, however unlikely they are to be called.
const LAST_WORDS: [&str; 13] = [
    "panicking::panic_fmt",
    "panicking::panic_bounds_check",
    "panicking::panic_const",
    "panicking::panic_with_hook",
    "panicking::begin_panic",
    "::assert_failed",
    "cell::panic_already",
    "option::expect_failed",
    "result::unwrap_failed",
    "slice::index::slice_index_fail",
    "str::slice_error_fail",
    "::len_mismatch_fail",
    "raw_vec::handle_error",
];

/// The beginning of the names of those classes.
const UNUSED_CLASSES: [&str; 1] = ["IntoUnderlying"];

/// How wasm-opt makes the program small.
const OPTIONS: [&str; 10] = [
    // The classes that nobody calls are no entrance to the program.
    "--remove-exports=*intounderlying*",
    // The lowest kilobyte of memory is the far end of the stack.
    "--low-memory-unused",
    // Taken apart and put together anew, the program comes out smaller than the compiler left it.
    "--flatten",
    "--rereloop",
    "-Oz",
    "-Oz",
    // A value computed twice compresses better than one that is kept.
    "--skip-pass=local-cse",
    // Small functions are left where they are: repeated calls compress better than repeated bodies.
    "--one-caller-inline-max-function-size=100",
    // Alignment is a hint that browsers do not heed; written as the same everywhere it takes no room after compression.
    "--dealign",
    "--minify-imports-and-exports-and-modules",
];

/// Makes the program and the script around it smaller in place.
///
/// Their names, which hold a hash of the larger files, stay right: the same input and the same
/// pinned wasm-opt give the same output. Trunk was told to write no integrity hashes.
fn shrink(wasm: &Path, script: &Path) -> Outcome {
    let optimiser = tools::binaryen().path(&Cache::of_this_user()?);
    let Some(node) = run::find_on_path("node").filter(|_| optimiser.is_file()) else {
        // Most of what wasm-opt saves in transfer is the names of functions, for debuggers.
        return write(wasm, &strip_names::strip_names(&read_bytes(wasm)?)?);
    };
    let optimise = |program: &[u8], last: &[&str]| -> Outcome<String> {
        let larger = wasm.with_extension("larger");
        write(&larger, program)?;
        let mut command = Command::new(&node);
        let printed = run::output(command.arg(&optimiser).arg(&larger).args(OPTIONS).args(last).arg("-o").arg(wasm))?;
        fs::remove_file(&larger).map_err(|error| format!("{} cannot be removed: {error}", larger.display()))?;
        Ok(printed)
    };
    let program = without_unused(&read_bytes(wasm)?)?;
    optimise(&program, &["--debuginfo"])?;
    let program = order::numbered(&program, &order::by_body(&read_bytes(wasm)?)?)?;
    let printed = optimise(&program, &["--reorder-functions-by-name"])?;
    let long = String::from_utf8_lossy(&read_bytes(script)?).into_owned();
    write(script, glue::shortened(&long, &Names::read(&printed)?, &UNUSED_CLASSES)?.as_bytes())
}

/// The program without what is there for nobody.
fn without_unused(wasm: &[u8]) -> Outcome<Vec<u8>> {
    let mut program = wasm.to_vec();
    for words in [&UNUSED_CODE[..], &LAST_WORDS] {
        let emptied;
        (program, emptied) = slim::without(&program, words)?;
        if emptied == 0 {
            println!("No function of {} was found: finish-dist need not look for them any more.", words.join(" or "));
        }
    }
    places::blanked(&program)
}

fn file_names(folder: &Path) -> Outcome<Vec<String>> {
    let complain = |error| format!("{} cannot be listed: {error}", folder.display());
    let mut names = Vec::new();
    for entry in fs::read_dir(folder).map_err(complain)? {
        names.push(entry.map_err(complain)?.file_name().to_string_lossy().into_owned());
    }
    names.sort();
    Ok(names)
}

/// A template with the hashed names of this build.
fn with_names(template: &str, names: &[String]) -> Outcome<String> {
    let script = the_one(names, ".js")?;
    let wasm = the_one(names, "_bg.wasm")?;
    Ok(template.replace("SCRIPT_NAME", script).replace("WASM_NAME", wasm))
}

fn the_one<'a>(names: &'a [String], ending: &str) -> Outcome<&'a str> {
    let start = format!("{PROGRAM}-");
    let mut found = names.iter().filter(|name| name.starts_with(&start) && name.ends_with(ending));
    match (found.next(), found.next()) {
        (Some(name), None) => Ok(name),
        (None, _) => Err(format!("trunk wrote no file {start}...{ending}")),
        (Some(one), Some(two)) => Err(format!("trunk wrote both {one} and {two}")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(names: &[&str]) -> Vec<String> {
        names.iter().map(|name| (*name).to_owned()).collect()
    }

    #[test]
    fn the_boot_script_names_the_hashed_files() {
        let script =
            with_names(BOOT_TEMPLATE, &names(&["holdwater-app-0a1b.js", "holdwater-app-0a1b_bg.wasm", "index.html"]))
                .unwrap();
        assert!(script.contains("import('./holdwater-app-0a1b.js')"), "{script}");
        assert!(script.contains("new URL('./holdwater-app-0a1b_bg.wasm'"), "{script}");
    }

    #[test]
    fn styles_become_one_file_in_the_order_of_the_page() {
        let folder = std::env::temp_dir().join(format!("holdwater-styles-{}", std::process::id()));
        fs::create_dir_all(&folder).unwrap();
        let link = |name: &str| format!("<link rel=\"stylesheet\" href=\"./{name}\"/>");
        for (name, text) in [("b-1.css", "b{}\n"), ("a-2.css", "a{}\n")] {
            fs::write(folder.join(name), text).unwrap();
        }
        fs::write(folder.join("index.html"), format!("<head>\n{}\n{}\n</head>", link("b-1.css"), link("a-2.css")))
            .unwrap();
        join_styles(&folder).unwrap();
        let names = file_names(&folder).unwrap();
        let style = names.iter().find(|name| name.starts_with("style-")).unwrap();
        let (page, text) = (read(&folder.join("index.html")).unwrap(), read(&folder.join(style)).unwrap());
        let again = join_styles(&folder);
        fs::remove_dir_all(&folder).unwrap();
        assert_eq!(text, "b{}\na{}\n");
        assert_eq!(names.len(), 2, "{names:?}");
        assert_eq!(page, format!("<head>\n{}\n\n</head>", link(style)));
        assert!(again.is_ok(), "one style sheet is joined with itself");
    }

    #[test]
    fn the_worker_lists_every_file_and_is_named_by_what_they_hold() {
        let folder = std::env::temp_dir().join(format!("holdwater-worker-{}", std::process::id()));
        fs::create_dir_all(&folder).unwrap();
        fs::write(folder.join("index.html"), "one").unwrap();
        fs::write(folder.join("sw.js"), "old").unwrap();
        let first = worker_script(&folder).unwrap();
        fs::write(folder.join("index.html"), "two").unwrap();
        let second = worker_script(&folder).unwrap();
        fs::remove_dir_all(&folder).unwrap();
        assert!(first.contains("['./']") && !first.contains("FILE_LIST"), "{first}");
        assert_ne!(first, second);
    }

    #[test]
    fn a_missing_or_doubled_program_is_an_error() {
        assert!(with_names(BOOT_TEMPLATE, &names(&["index.html"])).is_err());
        assert!(with_names(BOOT_TEMPLATE, &names(&["holdwater-app-1.js", "holdwater-app-2.js"])).is_err());
    }
}
