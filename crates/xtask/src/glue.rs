//! Makes the JavaScript around the program shorter: no comments, no indentation, no classes and imports that nobody uses, and the short names
//! that wasm-opt gave to what passes between the two.

use std::collections::HashMap;

use serde_json::Value;

use crate::Outcome;

/// What wasm-opt calls the module that the script is for the program.
const SHORT_MODULE: &str = "a";

/// Names that pass between the program and the script, with the short ones they have now.
#[derive(Debug)]
pub struct Names {
    module: String,
    imports: HashMap<String, String>,
    exports: HashMap<String, String>,
}

impl Names {
    /// Reads what wasm-opt prints when it shortens names: triples of module, name and short name, and pairs for exports.
    pub fn read(printed: &str) -> Outcome<Self> {
        let complain = || "wasm-opt did not print the names that it shortened".to_owned();
        let printed: Value = serde_json::from_str(printed).map_err(|_| complain())?;
        let texts = |entry: &Value| -> Option<Vec<String>> {
            entry.as_array()?.iter().map(|text| text.as_str().map(str::to_owned)).collect()
        };
        let list = |key: &str| -> Option<Vec<Vec<String>>> { printed[key].as_array()?.iter().map(texts).collect() };
        let mut names = Self { module: String::new(), imports: HashMap::new(), exports: HashMap::new() };
        for entry in list("imports").ok_or_else(complain)? {
            let [module, long, short] = <[String; 3]>::try_from(entry).map_err(|_| complain())?;
            names.module = module;
            names.imports.insert(long, short);
        }
        for entry in list("exports").ok_or_else(complain)? {
            let [long, short] = <[String; 2]>::try_from(entry).map_err(|_| complain())?;
            names.exports.insert(long, short);
        }
        Ok(names)
    }
}

/// The script with the names of now and without what nobody uses: classes whose name begins with one of these words, and functions that the
/// program does not import any more.
pub fn shortened(script: &str, names: &Names, classes: &[&str]) -> Outcome<String> {
    let mut lines = script.lines();
    let mut kept = Vec::new();
    let mut imported = 0;
    while let Some(line) = lines.next() {
        let text = line.trim();
        if text.starts_with("/*") {
            skip_past(line, &mut lines, |line| line.ends_with("*/"));
        } else if classes
            .iter()
            .any(|class| line.strip_prefix("export class ").is_some_and(|rest| rest.starts_with(class)))
        {
            skip_past(line, &mut lines, |line| line == "}");
        } else if classes.iter().any(|class| belongs_to(line, class)) {
            skip_past(line, &mut lines, |line| line.ends_with(';'));
        } else if entry_name(line).is_some_and(|name| !names.imports.contains_key(name)) {
            skip_past(line, &mut lines, |line| line.starts_with("        }"));
        } else if !text.is_empty() && !text.starts_with("//") {
            imported += usize::from(entry_name(line).is_some());
            kept.push(text);
        }
    }
    if imported != names.imports.len() {
        let expected = names.imports.len();
        return Err(format!("the program imports {expected} functions, of which the script has {imported}"));
    }
    let named = with_short_names(&kept.join("\n"), names);
    Ok(named.replace(&format!("\"{}\":", names.module), &format!("\"{SHORT_MODULE}\":")))
}

/// A script of ours without its comments, all of which stand on lines of their own, and without indentation.
#[must_use]
pub fn without_comments(script: &str) -> String {
    let kept: Vec<&str> =
        script.lines().map(str::trim).filter(|line| !line.is_empty() && !line.starts_with("//")).collect();
    kept.join("\n")
}

/// Whether a line begins what a class leaves beside it.
fn belongs_to(line: &str, class: &str) -> bool {
    ["const ", "if (Symbol.dispose) "]
        .iter()
        .any(|start| line.strip_prefix(start).is_some_and(|rest| rest.starts_with(class)))
}

/// The name of the import whose function begins in this line.
fn entry_name(line: &str) -> Option<&str> {
    let (name, _) = line.strip_prefix("        ")?.split_once(": function(")?;
    name.starts_with("__wb").then_some(name)
}

fn skip_past<'a>(first: &str, rest: &mut impl Iterator<Item = &'a str>, is_last: impl Fn(&str) -> bool) {
    if !is_last(first) {
        rest.find(|line| is_last(line));
    }
}

/// Names in the list of imports and after `wasm.`; elsewhere a name is the script's own.
fn with_short_names(script: &str, names: &Names) -> String {
    let is_in_name = |c: char| c.is_ascii_alphanumeric() || c == '_' || c == '$';
    let mut written = String::with_capacity(script.len());
    let mut rest = script;
    while !rest.is_empty() {
        let (word, after) = rest.split_at(rest.find(|c| !is_in_name(c)).unwrap_or(rest.len()));
        let short = if written.ends_with("wasm.") {
            names.exports.get(word)
        } else {
            names.imports.get(word).filter(|_| after.starts_with(':'))
        };
        written.push_str(short.map_or(word, String::as_str));
        let (between, next) = after.split_at(after.find(is_in_name).unwrap_or(after.len()));
        written.push_str(between);
        rest = next;
    }
    written
}

#[cfg(test)]
mod tests {
    use super::*;

    const PRINTED: &str = r#"{ "imports": [ ["./page_bg.js", "__wbg_click_12", "a"], ["./page_bg.js", "__wbindgen_throw", "$"] ],
        "exports": [ ["memory", "b"], ["ask", "c"] ] }"#;

    const SCRIPT: &str = "/* types */

export class Stream {
    free() {
        wasm.stream_free(1);
    }
}
if (Symbol.dispose) Stream.prototype[Symbol.dispose] = Stream.prototype.free;

/**
 * Asks.
 */
export function ask() {
    // Memory may have moved.
    return wasm.ask(wasm.memory);
}
function imports() {
    const import0 = {
        __proto__: null,
        __wbg_click_12: function(arg0) {
            arg0.click();
        },
        __wbg_enqueue_34: function() { return handleError(function (arg0) {
            arg0.enqueue();
        }, arguments); },
        __wbindgen_throw: function() { throw 1; }
    };
    return { \"./page_bg.js\": import0 };
}
const StreamFinalization = (typeof FinalizationRegistry === 'undefined')
    ? { register: () => {} }
    : new FinalizationRegistry(ptr => wasm.stream_free(ptr, 1));
";

    #[test]
    fn what_nobody_uses_goes_and_names_become_short() {
        let short = shortened(SCRIPT, &Names::read(PRINTED).unwrap(), &["Stream"]).unwrap();
        let expected = "export function ask() {
return wasm.c(wasm.b);
}
function imports() {
const import0 = {
__proto__: null,
a: function(arg0) {
arg0.click();
},
$: function() { throw 1; }
};
return { \"a\": import0 };
}";
        assert_eq!(short, expected);
    }

    #[test]
    fn comments_go_and_addresses_stay() {
        let script = "// Starts.\ntry {\n\n  // Not yet.\n  open('https://a');\n}\n";
        assert_eq!(without_comments(script), "try {\nopen('https://a');\n}");
    }

    #[test]
    fn a_script_that_lacks_an_import_is_an_error() {
        let names = Names::read(PRINTED).unwrap();
        assert!(shortened(&SCRIPT.replace("__wbg_click_12", "__wbg_click_13"), &names, &[]).is_err());
    }

    #[test]
    fn what_wasm_opt_prints_is_read_or_refused() {
        assert!(Names::read("").is_err());
        assert!(Names::read("{\"imports\": [[\"a\"]], \"exports\": []}").is_err());
    }
}
